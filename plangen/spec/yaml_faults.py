"""Saying what keeps a text from being YAML as whoever wrote it sees it."""

from __future__ import annotations

import re

from ruamel.yaml.error import MarkedYAMLError

from plangen.spec.problems import Mark, Problem

_COLON = "key: value, with a space after the colon"


def yaml_problem(error: MarkedYAMLError, text: str, name: str) -> Problem:
    """Return the fault of a text that can't be read as YAML, at the line where it has to be mended."""
    at = error.problem_mark or error.context_mark
    if at is None:
        return Problem(Mark(name), "", f"not valid YAML: {error.problem}")
    lines = text.splitlines()
    line = lines[at.line] if at.line < len(lines) else ""
    begun = error.context_mark.line if error.context_mark is not None else at.line
    said, context = error.problem or "", error.context or ""
    mark = Mark(name, at.line + 1, at.column + 1)
    if "\t" in line[: len(line) - len(line.lstrip())] or line[at.column : at.column + 1] == "\t":
        mark = Mark(name, at.line + 1, line.index("\t") + 1)
        return Problem(mark, "", "a tab", "spaces, two for each level")
    if "expected ':'" in said:
        return _no_colon(name, min(begun, len(lines) - 1), lines)
    if "mapping values are not allowed" in said:
        return _second_colon(mark, at.line, lines)
    if "unexpected end of stream" in said and "quoted" in context:
        started = error.context_mark or at
        mark = Mark(name, started.line + 1, started.column + 1)
        return Problem(mark, "", "a quote that isn't closed", "the same quote at the end of the text")
    if "flow mapping" in context or "flow sequence" in context:
        return _open_bracket(name, error, lines)
    if "cannot start any token" in said:
        found = f"a value that begins with {line[at.column : at.column + 1]!r}"
        return Problem(mark, "", found, f'text in quotes: "{line[at.column :].strip()[:40]}"')
    if "did not find expected key" in said:
        return _out_of_line(mark, at.line, begun, lines)
    reason = ", ".join(part for part in (context, said) if part)
    return Problem(mark, "", f"not valid YAML: {reason}")


def _no_colon(name: str, number: int, lines: list[str]) -> Problem:
    found = f"a line without a colon: {lines[number].strip()[:60]!r}"
    return Problem(Mark(name, number + 1, 1), "", found, _COLON)


def _second_colon(mark: Mark, number: int, lines: list[str]) -> Problem:
    before, line = lines[number - 1] if number else "", lines[number]
    if before.strip() and ":" not in before and not before.lstrip().startswith(("-", "#")):
        return _no_colon(mark.file, number - 1, lines)
    if len(re.findall(r":\s", line)) < 2 and _indent(line) > _indent(before):
        found = (
            f"a line indented deeper than the one before, which has a value already: {line.strip()[:60]!r}"
        )
        return Problem(
            Mark(mark.file, number + 1, 1), "", found, "keys of one section beginning in the same column"
        )
    return Problem(mark, "", "a second colon in one line", "text with a colon in it in quotes")


def _open_bracket(name: str, error: MarkedYAMLError, lines: list[str]) -> Problem:
    started = error.context_mark or error.problem_mark
    assert started is not None
    opened = "{" if "mapping" in (error.context or "") else "["
    closed = "}" if opened == "{" else "]"
    stopped = error.problem_mark
    where = f", before line {stopped.line + 1}" if stopped is not None and stopped.line > started.line else ""
    found = f"{opened} that isn't closed, or a comma missing after it{where}"
    mark = Mark(name, started.line + 1, started.column + 1)
    return Problem(mark, "", found, f"{closed} at the end, and a comma after each value but the last")


def _out_of_line(mark: Mark, number: int, begun: int, lines: list[str]) -> Problem:
    line = lines[number] if number < len(lines) else ""
    if line.lstrip().startswith("-"):
        found, accepted = "a list item (-) among keys", "a list under a key of its own, or a key in this line"
    elif _indent(line) != _indent(lines[begun]):
        found = f"a line that begins in another column than the keys around it: {line.strip()[:60]!r}"
        accepted = f"keys of one section beginning in the same column; this one began in line {begun + 1}"
    else:
        found, accepted = f"a line without a key: {line.strip()[:60]!r}", _COLON
    return Problem(mark, "", found, accepted)


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip())
