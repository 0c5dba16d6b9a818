"""What the file of a field page says of a plan: attempts, one for each person and check, and remarks for all the rest."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from plangen.collect.field_export import ExportedFound, ExportedReading, FieldExport
from plangen.collect.form_content import Said, UnitsTyped
from plangen.collect.seen_mended import SeenAgain
from plangen.findings.days import day_of
from plangen.findings.identity import Identities
from plangen.findings.model import AlsoFound, Attempt, Typed
from plangen.findings.read import value_fault
from plangen.findings.scalar import number_or_text
from plangen.packs.grades import GRADES
from plangen.plan.model import Plan, PlannedCheck


@dataclass
class _Gathered:
    """What one person read of one check."""

    found: dict[str, Typed] = field(default_factory=dict)
    used: dict[str, str] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    photos: list[str] = field(default_factory=list)
    days: list[datetime.date] = field(default_factory=list)

    def attempt(self, by: str) -> Attempt | None:
        """Return it as an attempt, of the last day on which any of it was read."""
        if not (self.found or self.notes or self.photos):
            return None
        return Attempt.model_validate(
            {
                "found": self.found,
                "by": by or None,
                "when": max(self.days, default=None),
                "with": self.used,
                "note": "; ".join(dict.fromkeys(self.notes)) or None,
                "photos": tuple(dict.fromkeys(self.photos)),
            }
        )


@dataclass
class _Part:
    """What is merged at once: no reading of a check twice."""

    checks: dict[str, _Gathered] = field(default_factory=dict)
    apart: dict[str, _Gathered] = field(default_factory=dict)


def field_said(export: FieldExport, plan: Plan, photos: Mapping[str, str]) -> tuple[Said, ...]:
    """Return what an export says, one part for each person; `photos` are the names of photos by those in the export."""
    reader = _Reader(export, plan, photos)
    for reading in export.readings:
        reader.take(reading)
    for line in export.lines:
        reader.take_line(line.check, line.note, line.photos, line.by, line.at)
    rest = Said(
        {},
        {},
        {},
        tuple(_round_remarks(export)),
        (*export.faults, *reader.faults, *reader.photos_missing()),
        tuple(reader.also_found(one) for one in export.found if one.what or one.photos),
        {},
        {
            one.id: SeenAgain(one.mended, day_of(one.at[:10]), one.by or None, one.note)
            for one in export.seen
            if one.id and (one.mended or one.note)
        },
    )
    return (*reader.parts(), rest)


class _Reader:
    """Sorts what was typed by who typed it, under the ids that checks and readings have today."""

    def __init__(self, export: FieldExport, plan: Plan, photos: Mapping[str, str]) -> None:
        self.export = export
        self.checks = {check.id: check for check in plan.checks}
        self.identities = Identities(plan)
        self.units = UnitsTyped(export.units or plan.units, plan.units)
        self.photos = photos
        self.by: dict[tuple[str, int], _Part] = {}
        self.faults: list[str] = []
        self.missing: dict[str, None] = {}

    def take(self, reading: ExportedReading) -> None:
        """Add one reading; what no check asks for is kept apart."""
        id = self.identities.check_id(reading.check)
        check = self.checks[id] if id is not None else None
        name = self.identities.reading_id(reading.reading, check.id, reading.check) if check else None
        known = check is not None and name is not None
        key, own = name or reading.reading, check.id if check is not None and known else reading.check
        if not key or not own:
            self.faults.append(f"{reading.typed!r}, typed for nothing that has a name, was left out")
            return
        turn = 0
        while key in (part := self._gathered(reading.by, turn, own, known)).found:
            if part.found[key] == _as_typed(reading.typed):
                return
            turn += 1
        if day := day_of(reading.at[:10]):
            part.days.append(day)
        if check is not None and name is not None:
            self._take_known(part, check, name, reading)
        else:
            part.found[key] = _as_typed(reading.typed)

    def _take_known(self, part: _Gathered, check: PlannedCheck, name: str, reading: ExportedReading) -> None:
        expected = next(one for one in check.expect if one.id == name)
        value = _as_typed(reading.typed)
        if fault := value_fault(value, expected):
            words = ", ".join(str(one) for one in value) if isinstance(value, list) else str(value)
            part.notes.append(f"typed for {expected.reading}: {words}")
            self.faults.append(
                f"{expected.code or check.id}: {expected.reading}: {words!r}: {fault}; kept in the note"
            )
            return
        part.found[name] = self.units.as_typed(value, expected)
        if reading.used:
            part.used[name] = reading.used

    def take_line(self, check: str, note: str, photos: Iterable[str], by: str, at: str) -> None:
        """Add remark and photos of a check."""
        id = self.identities.check_id(check)
        part = self._gathered(by, 0, id or check, id is not None)
        part.notes += [note] if note else []
        part.photos += [self._photo(name) for name in photos]
        if (note or part.photos) and (day := day_of(at[:10])):
            part.days.append(day)

    def _gathered(self, by: str, turn: int, id: str, known: bool) -> _Gathered:
        part = self.by.setdefault((by, turn), _Part())
        return (part.checks if known else part.apart).setdefault(id, _Gathered())

    def _photo(self, name: str) -> str:
        if name not in self.photos:
            self.missing[name] = None
        return self.photos.get(name, name)

    def photos_missing(self) -> tuple[str, ...]:
        """Return a fault for each photo that is named and isn't in the file."""
        return tuple(f"photo {name} isn't in the file" for name in self.missing)

    def also_found(self, one: ExportedFound) -> AlsoFound:
        """Return something that was found beside all checks."""
        grade = next((grade for grade in GRADES if grade == one.grade), None)
        return AlsoFound(
            what=one.what or "photo",
            place=one.place or None,
            grade=grade,
            photos=tuple(self._photo(name) for name in one.photos),
            by=one.by or None,
            when=day_of(one.at[:10]),
            note=f"grade {one.grade}" if one.grade and grade is None else None,
        )

    def parts(self) -> list[Said]:
        """Return what each person says, in the order in which they come up."""
        earlier = {
            id: count
            for key, count in self.export.earlier.items()
            if (id := self.identities.check_id(key)) is not None
        }
        return [
            Said(_attempts(part.checks, by), _attempts(part.apart, by), {}, (), (), (), earlier)
            for (by, _), part in sorted(self.by.items(), key=lambda one: one[0][1])
        ]


def _attempts(gathered: Mapping[str, _Gathered], by: str) -> dict[str, Attempt]:
    made = {id: one.attempt(by) for id, one in gathered.items()}
    return {id: attempt for id, attempt in made.items() if attempt is not None}


def _as_typed(typed: str | tuple[str | None, ...]) -> Typed:
    if isinstance(typed, tuple):
        return [None if one is None else number_or_text(one) for one in typed]
    return number_or_text(typed)


def _round_remarks(export: FieldExport) -> Iterable[str]:
    """Yield a line for each round whose times were noted."""
    for one in export.rounds:
        parts = {"by": one.by, "date": one.at[:10], "from": one.start, "to": one.end}
        if one.start or one.end:
            yield f"round {one.number}: {'; '.join(f'{about} {text}' for about, text in parts.items() if text)}"
