"""A change note: what a new issue of a model changes in the plans, and which hulls have to be checked again for it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from plangen.plan.compare import Comparison, compare
from plangen.plan.model import Plan


@dataclass(frozen=True)
class HullNote:
    """What the new issue means for one hull: the checks that it changes or adds, and those with results already.

    `applies` tells whether she is drafted from the new issue, `why` what decides that.
    """

    boat: str
    applies: bool
    why: str
    again: tuple[str, ...]
    to_do: tuple[str, ...]
    gone: tuple[str, ...]
    has_folder: bool

    @property
    def is_touched(self) -> bool:
        """Tell whether the issue changes anything in her plan."""
        return bool(self.again or self.to_do or self.gone)


@dataclass(frozen=True)
class ChangeNote:
    """What differs between two issues of a model, and what that means for each hull."""

    before: str
    after: str
    reason: str
    comparison: Comparison
    hulls: tuple[HullNote, ...]


def hull_note(
    before: Plan, after: Plan, applies: bool, why: str, results: Collection[str] | None
) -> HullNote:
    """Return what a new issue means for a hull, whose plan was drafted from both; results are ids of checks done."""
    found = compare(before, after)
    changed = [id for change in found.changed for id in change.checks]
    touched = [*changed, *(check.id for check in found.added)]
    done = results or ()
    return HullNote(
        after.boat.name,
        applies,
        why,
        tuple(id for id in touched if id in done),
        tuple(id for id in touched if id not in done),
        tuple(check.id for check in found.gone),
        results is not None,
    )


def change_note_text(note: ChangeNote) -> str:
    """Return the note as plain text."""
    return "\n".join(_lines(note)) + "\n"


def _lines(note: ChangeNote) -> Iterator[str]:
    yield f"Change note: {note.before} to {note.after}"
    if note.reason:
        yield note.reason
    yield ""
    yield "What changes in the model's own plan"
    if note.comparison.is_empty:
        yield "  nothing that a check expects or says"
    for words, checks in (("added", note.comparison.added), ("gone", note.comparison.gone)):
        yield from (f"  {words}: {check.id}, {check.title}" for check in checks)
    for change in note.comparison.changed:
        yield f"  changed: {', '.join(change.checks)}, {change.title}"
        for one in change.differences:
            yield f"      {one.what}: {one.before or 'nothing'} -> {one.after or 'nothing'}"
    for title, applies in (("Hulls that it applies to", True), ("Hulls that keep the issue before", False)):
        hulls = [hull for hull in note.hulls if hull.applies is applies]
        yield ""
        yield title if hulls else f"{title}: none"
        for hull in hulls:
            yield from _hull_lines(hull)


def _hull_lines(hull: HullNote) -> Iterator[str]:
    yield f"  {hull.boat} ({hull.why})"
    if not hull.is_touched:
        yield "      her checks stay as they are"
        return
    if hull.again:
        words = (
            "check again" if hull.applies else "done by the issue before; decide whether she is checked again"
        )
        yield from _listed(words, hull.again)
    if hull.applies:
        words = (
            "to be done by the new issue"
            if hull.has_folder
            else "no findings of hers were found; by the new issue"
        )
        yield from _listed(words, hull.to_do)
        yield from _listed("asked no more", hull.gone)
    elif not hull.again:
        yield (
            "      none of the changed checks is done"
            if hull.has_folder
            else "      no findings of hers were found"
        )


def _listed(words: str, ids: Sequence[str]) -> Iterator[str]:
    if ids:
        yield f"      {words}: {', '.join(ids)}"
