"""Writing attempts into the lines of a findings file; what stands there already stays word for word."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.findings.lines import end_of_block, indent_of, key_end
from plangen.findings.model import Attempt, Typed
from plangen.findings.scalar import scalar, value_text
from plangen.spec.yaml_source import Node

_BLANK = re.compile(r"(:)[ \t]*(?:\[[ \t]*\]|null|Null|NULL|~|\"\"|'')?([ \t]+#.*|[ \t]*)")
_LIST = re.compile(r"(:[ \t]*\[)(.*)(\])([ \t]+#.*|[ \t]*)")
_POINT = re.compile(r'[ \t]*(?:"(?:[^"\\]|\\.)*"|\'(?:[^\']|\'\')*\'|[^,"\'\[\]{}#]*)[ \t]*')


@dataclass(frozen=True)
class Edit:
    """Lines that come in at a place, instead of so many that stand there; places count from 0."""

    at: int
    instead: int
    lines: tuple[str, ...]


def edited(lines: Sequence[str], edits: Sequence[Edit], line_end: str) -> str:
    """Return the text with all edits made; edits at one place come in their order."""
    result = [*lines[:-1], lines[-1] if lines[-1][-1:] in "\r\n\x85\u2028\u2029" else lines[-1] + line_end]
    order = sorted(range(len(edits)), key=lambda n: (edits[n].at, edits[n].instead, n), reverse=True)
    for edit in (edits[n] for n in order):
        result[edit.at : edit.at + edit.instead] = [line + line_end for line in edit.lines]
    return "".join(result)


def attempt_lines(attempt: Attempt, indent: int) -> tuple[str, ...]:
    """Return the lines of a new attempt whose dash stands at the indent."""
    inner = " " * (indent + 2)
    lines = []
    if attempt.values:
        lines.append(f"{inner}found:")
        lines += [f"{inner}  {scalar(name)}: {value_text(value)}" for name, value in attempt.values.items()]
    lines += [f"{inner}{key}: {text}" for key, text in _plain_parts(attempt)]
    return (f"{' ' * indent}- {lines[0].lstrip()}", *lines[1:])


def _plain_parts(attempt: Attempt) -> list[tuple[str, str]]:
    """Return the keys of an attempt beside what was found, with their values as YAML."""
    parts = [
        ("by", scalar(attempt.by) if attempt.by else ""),
        ("when", str(attempt.when) if attempt.when else ""),
        ("with", _mapping_text(attempt.with_) if attempt.with_ else ""),
        ("note", scalar(attempt.note) if attempt.note else ""),
        (
            "photos",
            f"[{', '.join(scalar(name, in_list=True) for name in attempt.photos)}]" if attempt.photos else "",
        ),
        ("beside", str(attempt.beside) if attempt.beside else ""),
    ]
    return [(key, text) for key, text in parts if text]


def _mapping_text(texts: Mapping[str, str]) -> str:
    pairs = (f"{scalar(key, in_list=True)}: {scalar(text, in_list=True)}" for key, text in texts.items())
    return f"{{{', '.join(pairs)}}}"


def fill_edits(lines: Sequence[str], node: Node, stop: int, new: Attempt) -> list[Edit] | None:
    """Return the edits that fill the blanks of an attempt, or nothing where it is written in another way.

    `stop` is the index after the last line that may belong to the attempt.
    """
    keys = node.key_marks
    if not node.mapping or len({mark.column for mark in keys.values()}) != 1:
        return None
    indent = next(iter(keys.values())).column - 1
    start = min(mark.line for mark in keys.values()) - 1
    if not 0 <= start < stop or len({mark.line for mark in keys.values()}) != len(keys):
        return None
    end = end_of_block([line.rstrip("\r\n") for line in lines], start, stop, indent - 1)
    edits: list[Edit] = []
    added: list[str] = []
    for key, text in _plain_parts(new):
        if key not in node.mapping:
            added.append(f"{' ' * indent}{key}: {text}")
        elif _is_blank(node.mapping[key]):
            edit = _in_place(lines, node, key, text)
            if edit is None:
                return None
            edits.append(edit)
    if new.values:
        found = _found_edits(lines, node, new.values, indent, end)
        if found is None:
            return None
        edits += found
    return [*edits, Edit(end, 0, tuple(added))] if added else edits


def put_key(lines: Sequence[str], node: Node, stop: int, key: str, text: str) -> list[Edit] | None:
    """Return the edits that give an entry a key that it doesn't have, or nothing where it is written in another way."""
    keys = node.key_marks
    if not node.mapping or len({mark.column for mark in keys.values()}) != 1:
        return None
    if key in node.mapping:
        edit = _in_place(lines, node, key, text) if _is_blank(node.mapping[key]) else None
        return [edit] if edit is not None else None
    indent = next(iter(keys.values())).column - 1
    start = min(mark.line for mark in keys.values()) - 1
    if not 0 <= start < stop or len({mark.line for mark in keys.values()}) != len(keys):
        return None
    if lines[start][:indent].strip(" ") not in ("", "-"):
        return None
    end = end_of_block([line.rstrip("\r\n") for line in lines], start, stop, indent - 1)
    return [Edit(end, 0, (f"{' ' * indent}{key}: {text}",))]


def _is_blank(node: Node) -> bool:
    return node.mapping is None and not node.items and node.value in (None, "")


def _found_edits(
    lines: Sequence[str], node: Node, values: Mapping[str, Typed], indent: int, end: int
) -> list[Edit] | None:
    inner = " " * (indent + 2)
    written = {name: value_text(value) for name, value in values.items()}
    found = (node.mapping or {}).get("found")
    if found is None:
        block = [f"{' ' * indent}found:", *(f"{inner}{scalar(n)}: {text}" for n, text in written.items())]
        return [Edit(end, 0, tuple(block))]
    at = node.key_marks["found"].line - 1
    if found.mapping is None:
        if _in_place(lines, node, "found", "") is None:
            return None
        return [Edit(at + 1, 0, tuple(f"{inner}{scalar(n)}: {text}" for n, text in written.items()))]
    marks = found.key_marks
    columns = {mark.column for mark in marks.values()}
    if len(columns) != 1 or len({mark.line for mark in marks.values()}) != len(marks):
        return None
    if min(mark.line for mark in marks.values()) == at + 1:
        return None
    inner = " " * (columns.pop() - 1)
    edits: list[Edit] = []
    added: list[str] = []
    for name, text in written.items():
        here = found.mapping.get(name)
        if here is None:
            added.append(f"{inner}{scalar(name)}: {text}")
            continue
        points = values[name]
        if here.items and isinstance(points, list):
            edit = _points_in_place(lines, found, name, points)
        elif _is_blank(here):
            edit = _in_place(lines, found, name, text)
        else:
            continue
        if edit is None:
            return None
        edits.append(edit)
    if added:
        after = min((m.line - 1 for m in node.key_marks.values() if m.line - 1 > at), default=end)
        last = max(mark.line for mark in marks.values()) - 1
        edits.append(Edit(end_of_block(list(lines), last, after, len(inner) - 1), 0, tuple(added)))
    return edits


def _behind_key(lines: Sequence[str], node: Node, key: str) -> tuple[int, str, str] | None:
    """Return the line of a key, the text up to the key's end and the text behind it."""
    mark = node.key_marks[key]
    if not 0 < mark.line <= len(lines):
        return None
    line = lines[mark.line - 1].rstrip("\r\n")
    end = key_end(line, mark.column - 1)
    return (mark.line - 1, line[:end], line[end:]) if end < len(line) else None


def _in_place(lines: Sequence[str], node: Node, key: str, text: str) -> Edit | None:
    """Return the edit that puts a value behind a key that has none."""
    place = _behind_key(lines, node, key)
    match = _BLANK.fullmatch(place[2].lstrip()) if place else None
    if place is None or match is None:
        return None
    at, head, _ = place
    return Edit(at, 1, (f"{head}: {text}{match[2].rstrip()}".rstrip(),))


def _points_in_place(lines: Sequence[str], node: Node, key: str, points: Sequence[Typed]) -> Edit | None:
    """Return the edit that fills the blank points of a list on one line."""
    place = _behind_key(lines, node, key)
    match = _LIST.fullmatch(place[2].lstrip()) if place else None
    if place is None or match is None:
        return None
    written, position, inside = [], 0, match[2]
    while True:
        point = _POINT.match(inside, position)
        if point is None or (point.end() < len(inside) and inside[point.end()] != ","):
            return None
        written.append(point[0].strip())
        if point.end() == len(inside):
            break
        position = point.end() + 1
    if written and not written[-1]:
        written.pop()
    written += ["null"] * (len(points) - len(written))
    for index, value in enumerate(points):
        if value is not None and written[index] in ("null", "Null", "NULL", "~", '""', "''"):
            written[index] = value_text([value])[1:-1]
    at, head, _ = place
    return Edit(at, 1, (f"{head}{match[1]}{', '.join(written)}]{match[4].rstrip()}",))


def dash_indent(lines: Sequence[str], node: Node, first: int) -> int | None:
    """Return the indent of the dash before the first attempt of an entry, or nothing where it has none."""
    at = node.mark.line - 1
    while first <= at < len(lines):
        if lines[at].lstrip(" ").startswith("-"):
            return indent_of(lines[at])
        at -= 1
    return None


def stands_bare(lines: Sequence[str], node: Node, key: str) -> bool:
    """Tell whether nothing but a comment stands behind a key on its line."""
    return _in_place(lines, node, key, "") is not None
