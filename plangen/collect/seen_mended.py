"""What a retest says of things found beside the checks: seen mended on a day, or a remark."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from plangen.collect.edit import Edit, dash_indent, put_key
from plangen.findings.also import also_found_ids
from plangen.findings.lines import word_end
from plangen.findings.model import AlsoFound, Findings
from plangen.findings.superset import says_something
from plangen.spec.yaml_source import Node


@dataclass(frozen=True)
class SeenAgain:
    """What was said of one thing: whether it was seen mended, on which day, by whom, and in which words."""

    mended: bool
    day: datetime.date | None = None
    by: str | None = None
    words: str = ""

    @property
    def value(self) -> str:
        """Return what stands behind `mended:` in the findings."""
        return str(self.day) if self.day else "yes"


def newly_mended(before: Findings, seen: Mapping[str, SeenAgain]) -> dict[str, SeenAgain]:
    """Return what is seen mended and doesn't say so yet."""
    known = also_found_ids(before)
    return {id: one for id, one in seen.items() if one.mended and id in known and known[id].mended is None}


def seen_remarks(before: Findings, seen: Mapping[str, SeenAgain], in_words: bool = False) -> list[str]:
    """Return a line for all that the findings have no key for: who saw it, in which words, a second day.

    `in_words` says that `mended:` can't be written, so that it is said here.
    """
    known = also_found_ids(before)
    lines = []
    for id, one in seen.items():
        thing = known.get(id)
        said = []
        if one.mended and (in_words or thing is None or thing.mended not in (None, one.day or True)):
            said.append(f"seen mended{f' on {one.day}' if one.day else ''}")
        elif one.day and not one.mended:
            said.append(f"looked at on {one.day}")
        said += [one.words] if one.words else []
        if said or (one.by and one.mended):
            what = _named(thing, id)
            who = f" by {one.by}" if one.by else ""
            lines.append(f"also found, {what}: {'; '.join(said) or 'seen mended'}{who}")
    return lines


def _named(thing: AlsoFound | None, id: str) -> str:
    return ", ".join(part for part in (thing.what, thing.place) if part) if thing else id


def mended_edits(
    lines: Sequence[str],
    section: Node,
    first: int,
    stop: int,
    before: Findings,
    mended: Mapping[str, SeenAgain],
) -> list[Edit] | None:
    """Return the edits that set `mended:` on entries of `also_found:`; nothing where one is written on one line.

    `first` is the line after the section's key, `stop` the index after its last line. A thing that stands as a bare text
    gets keys.
    """
    ids = list(also_found_ids(before))
    items = [item for item in section.items or [] if says_something(item)]
    edits: list[Edit] = []
    for id, one in mended.items():
        place = ids.index(id)
        item = items[place]
        end = items[place + 1].mark.line - 1 if place + 1 < len(items) else stop
        own = (
            put_key(lines, item, end, "mended", one.value)
            if item.mapping is not None
            else _with_keys(lines, item, first, one)
        )
        if own is None:
            return None
        edits += own
    return edits


def _with_keys(lines: Sequence[str], item: Node, first: int, one: SeenAgain) -> list[Edit] | None:
    """Return the edit that makes keys of a bare text, whose comment stays behind it."""
    at = item.mark.line - 1
    dash = dash_indent(lines, item, first)
    if (
        dash is None
        or not lines[at].lstrip(" ").startswith("-")
        or lines[at][item.mark.column - 1] in "|>&*!"
    ):
        return None
    start = item.mark.column - 1
    if word_end(lines[at], start) == start:
        return None
    return [
        Edit(at, 1, (f"{lines[at][:start]}what: {lines[at][start:]}", f"{' ' * start}mended: {one.value}"))
    ]
