"""What the fields of a filled form say of a plan: attempts, settlements, and remarks for all the rest."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from plangen.collect.pdf_fields import FieldValue, FilledForm
from plangen.collect.seen_mended import SeenAgain
from plangen.collect.snag_rows import snag_rows
from plangen.findings.days import day_of
from plangen.findings.identity import Identities
from plangen.findings.model import AlsoFound, Attempt, Settlement, Typed
from plangen.findings.parse_reading import printed_label, with_unit
from plangen.findings.read import value_fault
from plangen.findings.scalar import number_or_text
from plangen.plan.model import Expectation, Plan, PlannedCheck

#: The head of a retest, which counts for all its lines.
WHOLE = "retest"


@dataclass(frozen=True)
class Said:
    """What a form says: by check what was found, what no check asks for, settlements, remarks, and what was also found.

    `earlier` is the number of attempts at a check that were made before, whatever their days.
    """

    attempts: Mapping[str, Attempt]
    apart: Mapping[str, Attempt]
    snags: Mapping[str, Settlement]
    remarks: tuple[str, ...]
    faults: tuple[str, ...]
    also_found: tuple[AlsoFound, ...] = ()
    earlier: Mapping[str, int] = field(default_factory=dict)
    seen_again: Mapping[str, SeenAgain] = field(default_factory=dict)


@dataclass
class _Sheet:
    """The fields of one check."""

    readings: dict[str, dict[str, FieldValue]] = field(default_factory=dict)
    note: str = ""
    by: str = ""


@dataclass
class _Round:
    """The fields at the head of a round, and which of them an attempt has taken over."""

    fields: dict[str, str]
    taken: set[str] = field(default_factory=set)


def what_is_said(form: FilledForm, plan: Plan) -> Said:
    """Return what a form says of a plan; every value that was typed is in the result."""
    sheets, rounds, others = _sorted_fields(form.fields)
    whole = rounds.pop(WHOLE, _Round({}))
    sheets = _by_todays_ids(sheets, Identities(plan))
    units = UnitsTyped(form.units or plan.units, plan.units)
    present = [check for check in plan.checks if check.id in sheets]
    round_of = {check: one.id for one in plan.rounds for check in one.checks}
    attempts: dict[str, Attempt] = {}
    apart: dict[str, Attempt] = {}
    faults: list[str] = []
    for check in present:
        head = rounds.get(round_of.get(check.id, "")) or whole
        taken, left = _attempt(check, sheets[check.id], head, units, faults)
        if taken is not None:
            attempts[check.id] = taken
        if left is not None:
            apart[check.id] = left
    known = {check.id for check in present}
    for id, sheet in sheets.items():
        if id not in known:
            left = _unknown(sheet, sheet.readings)
            if left is not None:
                apart[id] = left
    seen = _seen_again(others, whole)
    snags, found, remarks = snag_rows(others, plan, form.digest == plan.digest)
    remarks += [*_round_remarks(rounds | {WHOLE: whole}, plan), *_other_remarks(others)]
    earlier = {id: tried for id, tried in (form.attempts or {}).items() if id in attempts}
    return Said(attempts, apart, snags, tuple(remarks), tuple(faults), found, earlier, seen)


def _sorted_fields(
    fields: Mapping[str, FieldValue],
) -> tuple[dict[str, _Sheet], dict[str, _Round], dict[str, FieldValue]]:
    """Part fields into those of checks, those of rounds, and all others that hold something."""
    sheets: dict[str, _Sheet] = {}
    rounds: dict[str, _Round] = {}
    others: dict[str, FieldValue] = {}
    for name, value in fields.items():
        match name.split("/"):
            case ["check", id, "reading", reading]:
                sheets.setdefault(id, _Sheet()).readings.setdefault(reading, {})[""] = value
            case ["check", id, "reading", reading, part]:
                sheets.setdefault(id, _Sheet()).readings.setdefault(reading, {})[part] = value
            case ["check", id, "note"]:
                sheets.setdefault(id, _Sheet()).note = str(value)
            case ["check", id, "by"]:
                sheets.setdefault(id, _Sheet()).by = str(value)
            case ["round", id, about] if about != "done":
                rounds.setdefault(id, _Round({})).fields[about] = str(value)
            case ["retest", about]:
                rounds.setdefault(WHOLE, _Round({})).fields[about] = str(value)
            case ["plan", _]:
                pass
            case _:
                if value:
                    others[name] = value
    return sheets, rounds, others


@dataclass(frozen=True)
class UnitsTyped:
    """The units in which a form was printed, and those in which the findings are read."""

    form: str
    plan: str

    def as_typed(self, value: Typed, expected: Expectation) -> Typed:
        """Return a value with the form's unit behind it, where the findings would be read in another."""
        printed = printed_label(expected.unit, self.form)
        if printed == printed_label(expected.unit, self.plan):
            return value
        return (
            [with_unit(one, printed) for one in value]
            if isinstance(value, list)
            else with_unit(value, printed)
        )


def _by_todays_ids(sheets: Mapping[str, _Sheet], identities: Identities) -> dict[str, _Sheet]:
    """Return the sheets by the ids that check and readings have today; what has none keeps the one it has."""
    found: dict[str, _Sheet] = {}
    for key, sheet in sheets.items():
        id = identities.check_id(key)
        if id is None or (id != key and id in sheets):
            found[key] = sheet
            continue
        names = {name: identities.reading_id(name, id, key) for name in sheet.readings}
        readings = {
            new if new is not None and (new == name or new not in names) else name: sheet.readings[name]
            for name, new in names.items()
        }
        found[id] = _Sheet(readings, sheet.note, sheet.by)
    return found


def _attempt(
    check: PlannedCheck, sheet: _Sheet, head: _Round, units: UnitsTyped, faults: list[str]
) -> tuple[Attempt | None, Attempt | None]:
    """Return what was found for a check, and what was typed for readings that it doesn't have."""
    expected = {one.id: one for one in check.expect}
    found: dict[str, Typed] = {}
    left: dict[str, dict[str, FieldValue]] = {}
    notes = [sheet.note] if sheet.note else []
    for name, parts in sheet.readings.items():
        if not any(parts.values()):
            continue
        one = expected.get(name)
        value = _value(parts, one) if one is not None else None
        if one is None or value is None:
            left[name] = parts
        elif fault := value_fault(value, one):
            notes.append(f"typed for {one.reading}: {_shown(value)}")
            faults.append(f"{check.id}: {one.reading}: {_shown(value)!r}: {fault}; kept in the note")
        else:
            found[one.id] = units.as_typed(value, one)
    taken = None
    if found or notes or sheet.by:
        by, day = head.fields.get("by", ""), day_of(head.fields.get("date", ""))
        if found or notes:
            head.taken |= {"by", "date"} if day else {"by"}
        taken = Attempt(
            found=found,
            by=sheet.by or (by if found or notes else "") or None,
            when=day if found or notes else None,
            note="; ".join(notes) or None,
        )
    return taken, _unknown(_Sheet(by=sheet.by), left) if left else None


def _value(parts: Mapping[str, FieldValue], expected: Expectation) -> Typed:
    """Return the value typed for a reading, or nothing where the form asked for something else."""
    if "yes" in parts or "no" in parts:
        return _choice(parts)
    steps = _steps(parts)
    if steps is None:
        return number_or_text(str(parts[""])) if "" in parts and not expected.series else None
    return steps if len(steps) == len(expected.series) else None


def _choice(parts: Mapping[str, FieldValue]) -> str:
    return " and ".join(word for word in ("yes", "no") if parts.get(word))


def _steps(parts: Mapping[str, FieldValue]) -> list[Typed] | None:
    """Return the values of a series in their order, blanks as nothing."""
    numbers = sorted(int(part) for part in parts if part.isdecimal())
    if not numbers or numbers != list(range(1, len(parts) + 1)):
        return None
    typed = [str(parts[str(number)]) for number in numbers]
    return [number_or_text(text) if text else None for text in typed]


def _unknown(sheet: _Sheet, readings: Mapping[str, Mapping[str, FieldValue]]) -> Attempt | None:
    """Return what was typed for a check or for readings that the plan doesn't have."""
    found: dict[str, Typed] = {}
    for name, parts in readings.items():
        if any(parts.values()):
            choice = "yes" in parts or "no" in parts
            many = _choice(parts) if choice else _steps(parts)
            found[name] = many or number_or_text(" / ".join(str(value) for value in parts.values() if value))
    if not (found or sheet.note or sheet.by):
        return None
    return Attempt(found=found, by=sheet.by or None, note=sheet.note or None)


def _shown(value: Typed) -> str:
    if isinstance(value, list):
        return ", ".join("–" if one is None else str(one) for one in value)
    return str(value)


def _round_remarks(rounds: Mapping[str, _Round], plan: Plan) -> Iterator[str]:
    """Yield what stands at the head of a round and no attempt holds; a date that was printed there says nothing."""
    numbers = {one.id: one.number for one in plan.rounds}
    printed = {round: session.date for session in plan.sessions for round in session.rounds}
    for id, head in rounds.items():
        left = {about: text for about, text in head.fields.items() if text and about not in head.taken}
        if left.get("date") == printed.get(id):
            left.pop("date", None)
        if left:
            yield f"{'retest' if id == WHOLE else f'round {numbers.get(id, id)}'}: {'; '.join(f'{about} {text}' for about, text in left.items())}"


def _seen_again(others: dict[str, FieldValue], whole: _Round) -> dict[str, SeenAgain]:
    """Take what a retest says of things found beside the checks out of the other fields."""
    rows: dict[str, dict[str, FieldValue]] = {}
    for name in list(others):
        match name.split("/"):
            case ["also", id, ("mended" | "day" | "remark") as about]:
                rows.setdefault(id, {})[about] = others.pop(name)
    seen = {}
    for id, row in rows.items():
        typed = str(row.get("day", ""))
        day = day_of(typed) or (day_of(whole.fields.get("date", "")) if not typed else None)
        by = whole.fields.get("by") or None
        whole.taken |= {name for name, used in (("by", by), ("date", day and not typed)) if used}
        words = [str(row["remark"])] if row.get("remark") else []
        words += [f"day {typed}"] if typed and day_of(typed) is None else []
        seen[id] = SeenAgain(bool(row.get("mended")), day, by, "; ".join(words))
    return seen


def _other_remarks(others: Mapping[str, FieldValue]) -> Iterator[str]:
    """Yield a line for each thing of the gear, stores and kit lists, questions, and whatever else was filled."""
    for name, value in others.items():
        if name.startswith("question/"):
            yield f"answer to {name.removeprefix('question/').replace(':', '.')}: {value}"
    brought = [
        name.split("/", 1)[1] for name, value in others.items() if name.startswith("kit/") and value is True
    ]
    if brought:
        yield f"kit brought: {', '.join(brought)}"
    groups: dict[str, list[str]] = {}
    for name, value in others.items():
        parts = name.split("/")
        if parts[0] == "question" or (parts[0] == "kit" and value is True):
            continue
        about = " ".join(parts[2:])
        groups.setdefault(" ".join(parts[:2]), []).append(
            (about or "there") if value is True else f"{about} {value}".strip()
        )
    for about, said in groups.items():
        yield f"{about}: {'; '.join(said)}"


def settlement_words(settlement: Settlement) -> Sequence[tuple[str, str]]:
    """Return what a settlement says, key by key."""
    values = settlement.model_dump(exclude_none=True)
    return [(key, str(value)) for key, value in values.items()]
