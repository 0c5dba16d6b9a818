"""A plan as the field page has it: rounds with their lines, and what the page needs to judge and to be read back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from plangen.packs.grades import GRADES
from plangen.plan.alternatives import words_of
from plangen.plan.boat_identity import identity_of
from plangen.plan.day import Round
from plangen.plan.model import Plan, PlannedCheck
from plangen.print.field.reading_data import reading_data, without_blanks
from plangen.print.field.unit_table import instrument_table, unit_table
from plangen.print.words import GRADE_WORDS

if TYPE_CHECKING:
    from plangen.assess.model import Snag
    from plangen.assess.retest import Retest

#: Grades that are shown at a line; the others mean that a snag gets a date or a remark.
_MARKED = ("stop", "before-handover")


def plan_data(whole: Plan, retest: Retest | None = None, found: Sequence[Snag] = ()) -> dict[str, Any]:
    """Return a plan as plain values; of a retest, what is to be done again, with what was found last time.

    `found` are the snags of a retest that belong to no check.
    """
    plan = whole if retest is None else _what_is_left(whole, retest)
    checks = {check.id: check for check in plan.checks}
    rounds = _rounds(plan, checks)
    methods: dict[str, int] = {}
    texts: list[dict[str, Any]] = []
    lines = [_line(checks[id], one, plan, methods, texts) for one in rounds for id in one.checks]
    labels = [expected.unit for check in plan.checks for expected in check.expect]
    data = {
        "boat": without_blanks(asdict(identity_of(plan.boat)) | {"formerly": list(plan.boat.formerly)}),
        "model": " ".join(part for part in (plan.boat.builder, plan.boat.model) if part),
        "digest": plan.digest,
        "units": plan.units,
        "day": plan.boat.trial_date,
        "people": list(
            dict.fromkeys(
                [*(plan.trial.people if plan.trial else ()), *(p for s in plan.sessions for p in s.people)]
            )
        ),
        "places": list(plan.zone_codes) or sorted({check.zone for check in plan.checks if check.zone}),
        "grades": [[grade, GRADE_WORDS[grade]] for grade in GRADES],
        "unitTable": unit_table(),
        "instruments": instrument_table(plan.kit, labels),
        "cautions": _cautions(plan, rounds),
        "sources": {line.id: _title(line.title, line.edition) for line in plan.sources},
        "methods": texts,
        "rounds": [_round(one, plan) for one in rounds],
        "lines": lines,
    }
    if retest is not None:
        data["before"] = _before(retest)
        data["alsoFound"] = [
            {"id": one.check, "number": one.number, "what": one.title, "place": one.item} for one in found
        ]
    return without_blanks(data)


def _rounds(plan: Plan, checks: Mapping[str, PlannedCheck]) -> list[Round]:
    """Return the rounds in the order of the timetable; a check that is in none comes last."""
    start = {
        step.round: (session.day, step.start)
        for session in reversed(plan.sessions)
        for step in reversed(session.steps)
        if step.kind == "round"
    }
    rounds = [
        one.model_copy(update={"checks": tuple(id for id in one.checks if id in checks)})
        for one in sorted(plan.rounds, key=lambda one: (start.get(one.id, (0, 0.0)), one.number))
    ]
    placed = {id for one in rounds for id in one.checks}
    left = tuple(id for id in checks if id not in placed)
    if left:
        number = max((one.number for one in rounds), default=0) + 1
        others = Round(
            id="others", number=number, kind="", title="Other checks", setting="", minutes=0, checks=left
        )
        rounds.append(others)
    return [one for one in rounds if one.checks]


def _round(one: Round, plan: Plan) -> dict[str, Any]:
    settings = {line.setting: line.title for line in plan.settings}
    session, step = next(
        (
            (session, step)
            for session in plan.sessions
            for step in session.steps
            if step.kind == "round" and step.round == one.id
        ),
        (None, None),
    )
    return without_blanks(
        {
            "id": one.id,
            "number": one.number,
            "title": one.title,
            "place": one.zone or "",
            "setting": settings.get(one.setting, one.setting),
            "states": [state.replace("-", " ") for state in one.states],
            "minutes": round(one.minutes),
            "wait": round(one.wait),
            "people": one.people if one.people > 1 else None,
            "who": list(step.people) if step else [],
            "start": step.clock if step else None,
            "day": session.day if session and len(plan.sessions) > 1 else None,
            "date": session.date if session else None,
            "cautions": [name for name in one.cautions if name in _texts(plan)],
            "instruments": list(one.instruments),
            "lines": list(one.checks),
        }
    )


def _texts(plan: Plan) -> Mapping[str, str]:
    return plan.cautions_in_short or plan.cautions


def _cautions(plan: Plan, rounds: Sequence[Round]) -> dict[str, str]:
    used = {name for one in rounds for name in one.cautions}
    return {name: text for name, text in _texts(plan).items() if name in used}


def _title(title: str, edition: str) -> str:
    return f"{title}, {edition}" if edition else title


def _line(
    check: PlannedCheck, one: Round, plan: Plan, methods: dict[str, int], texts: list[dict[str, Any]]
) -> dict[str, Any]:
    do = check.do or check.title
    item = check.item if check.item not in (one.zone, "boat") else ""
    return without_blanks(
        {
            "id": check.id,
            "code": check.code,
            "do": do,
            "item": "" if item.casefold() in do.casefold() else item,
            "grade": check.grade if check.grade in _MARKED else "",
            "people": check.people if check.people > 1 else None,
            "method": _method(check, methods, texts),
            "readings": [
                reading_data(expected, words_of(check.expect, index), plan.units)
                for index, expected in enumerate(check.expect)
            ],
        }
    )


def _method(check: PlannedCheck, methods: dict[str, int], texts: list[dict[str, Any]]) -> int:
    """Return the place of a check's method among the texts; those that read alike are held once."""
    text = without_blanks(
        {
            "title": check.title,
            "why": check.protects,
            "steps": list(check.procedure),
            "older": list(check.used_boat),
            "watchOut": check.watch_out,
            "instruments": list(check.instruments),
        }
    )
    key = repr(text)
    if key not in methods:
        methods[key] = len(texts)
        texts.append(text)
    return methods[key]


def _before(retest: Retest) -> dict[str, Any]:
    """Return how often each check was tried, and what was found the last time."""
    found: dict[str, Any] = {}
    for one in retest.again:
        last = one.last.attempts[-1] if one.last.attempts else None
        readings = last.readings if last is not None else ()
        found[one.check.id] = {
            "attempts": one.tried,
            "readings": {
                reading.id: [reading.found, reading.verdict] for reading in readings if reading.found
            },
        } | without_blanks({"note": last.note if last is not None else None})
    return found


def _what_is_left(plan: Plan, retest: Retest) -> Plan:
    """Return the checks and readings of a plan that are to be done again, in their rounds."""
    again = {one.check.id: one for one in retest.again}
    return plan.model_copy(
        update={
            "checks": tuple(
                one.check.model_copy(
                    update={"expect": tuple(e for e in one.check.expect if e.id in one.readings)}
                )
                for one in again.values()
            ),
            "rounds": tuple(
                one.model_copy(update={"checks": tuple(id for id in one.checks if id in again)})
                for one in plan.rounds
            ),
            "sessions": (),
        }
    )
