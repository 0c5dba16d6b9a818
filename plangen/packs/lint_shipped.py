"""What is asked of the shipped packs beyond being right: whole sources, whole rules, and nothing that nobody uses."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from plangen.packs.base import Source, SourceReference
from plangen.packs.library import UNSOURCED, Library, Loaded
from plangen.packs.lint import check_library
from plangen.packs.lint_orphans import orphans
from plangen.packs.lint_report import Path, Report
from plangen.packs.model import Catalogue, CheckRule, RulePack, StoresPack
from plangen.packs.usage import Usage, noting
from plangen.spec.problems import Problem

#: A line of what to do is as long as a line of the sheet.
LONGEST_DO = 90
#: Kinds of sources that can't carry a check of grade stop alone.
_WEAK = ("article", "anecdote")
_EXPRESSION = re.compile(r"\{\{.*?\}\}")
#: What an expression in a line is taken to come to.
_USUAL_WORD = "x" * 8


def check_shipped(library: Library) -> list[Problem]:
    """Return what is wrong with the shipped packs, by pack: all that `check_library` finds, and what they lack."""
    usage = Usage()
    with noting(usage):
        problems = check_library(library)
    problems += orphans(library, usage)
    for pack in library.rules:
        report = Report(pack)
        for index, rule in enumerate(pack.model.checks):
            _check_rule(report, ("checks", index), rule, library.sources)
        problems += report.problems
    citing: list[Loaded[RulePack] | Loaded[Catalogue] | Loaded[StoresPack]]
    citing = [*library.rules, *library.catalogue, *library.stores]
    for one in citing:
        report = Report(one)
        for name, source in one.model.sources.items():
            _check_source(report, ("sources", name), source)
        problems += report.problems
    return sorted(set(problems), key=lambda p: (p.mark.file, p.mark.line, p.mark.column, p.found))


def _check_rule(report: Report, path: Path, rule: CheckRule, sources: Mapping[str, Source]) -> None:
    missing = [key for key in ("do", "protects", "round") if getattr(rule, key) is None]
    if missing:
        report.say(
            (*path, "id"), f"{rule.id} without {', '.join(missing)}", "do, protects and round for every rule"
        )
    if rule.do is not None:
        length = len(_EXPRESSION.sub(_USUAL_WORD, rule.do))
        if length > LONGEST_DO:
            report.say(
                (*path, "do"),
                f"a line of {length} characters",
                f"at most {LONGEST_DO}, one line of the sheet",
            )
        if rule.do.endswith("."):
            report.say((*path, "do"), "a full stop at the end", "none, as on every line of the sheet")
    if rule.grade == "stop":
        kinds = {kind for source in _cited(rule) if (kind := _kind(source, sources)) is not None}
        if kinds and kinds <= set(_WEAK):
            found = f"{rule.id} of grade stop, for which only {' and '.join(sorted(kinds))} speak"
            report.say((*path, "grade"), found, "a better source, or another grade")


def _cited(rule: CheckRule) -> Iterator[SourceReference]:
    if any(reading.source is None for reading in rule.expect):
        yield rule.source
    yield from (reading.source for reading in rule.expect if reading.source is not None)


def _kind(source: SourceReference, sources: Mapping[str, Source]) -> str | None:
    if source.id in UNSOURCED:
        return "common practice"
    return sources[source.id].kind if source.id in sources else None


def _check_source(report: Report, path: Path, source: Source) -> None:
    missing = [key for key in ("kind", "by") if not getattr(source, key)]
    if not (source.edition or source.url):
        missing.append("edition or url")
    if missing:
        report.say(
            path, f"a source without {', '.join(missing)}", "kind, by, title, and edition (or date) or url"
        )
