"""What is chosen and what is left out, until all that is chosen has its place in the timetable."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from plangen.plan.day import LeftOut
from plangen.plan.drafted import DraftedCheck
from plangen.plan.model import PlannedCheck
from plangen.schedule.choice import Candidate, Choice, Limits, needs_by_id, risk_of
from plangen.schedule.course import each_of
from plangen.schedule.fit import Fit, Ground, fit, without_rounds
from plangen.schedule.scope import unknown_without, without
from plangen.schedule.wishes import Wishes

#: How often the choice is made anew when the timetable says that it was too much or too little.
TRIES = 6
#: What part of the free time is tried next when so much was too much, and when it was not.
LESS, MORE = 0.7, 0.5
#: How many passes are made for what decides, and how many more where something of it has found no place.
FIRST, MUCH = 12, 50
#: How many for the rest, and where only little was taken out.
SOME, AGAIN = 6, 1
#: Which part of the people's free hours is taken to be work; the rest goes to changes and to waiting for each other.
BUSY = 0.9
#: What part of the time may stay free before the choice is filled up again.
LITTLE = 0.08


@dataclass(frozen=True)
class Selection:
    """The checks that are done, their timetable, and those that are left out."""

    checks: tuple[PlannedCheck, ...]
    fitted: Fit
    left_out: tuple[LeftOut, ...]


@dataclass(frozen=True)
class Field:
    """The checks within the scope with what each needs and is worth.

    `looks` are those of the needs that look for water afterwards: where such a look finds no place, the look that ends
    every day stands in for it.
    """

    checks: tuple[PlannedCheck, ...]
    needs: Mapping[str, tuple[str, ...]]
    looks: Mapping[str, tuple[str, ...]]
    wishes: Wishes
    ground: Ground


def field_of(
    checks: Sequence[PlannedCheck], drafted: Sequence[DraftedCheck], wishes: Wishes, ground: Ground
) -> Field:
    """Return the checks with what each needs: what comes before it, the look at the bilge after it, its figures.

    What only gathers what others did, or looks into the bilges again, comes after them without needing them; so does
    what only `follows` them.
    """
    loosely = {one.check.id: set(one.rule.follows) - set(one.rule.after) for one in drafted}
    again = {one.check.id: one.zones_after_wet for one in drafted if one.zones_after_wet is not None}
    known = {check.id for check in checks}
    needs: dict[str, tuple[str, ...]] = {}
    looks: dict[str, tuple[str, ...]] = {}
    for check in checks:
        kind = ground.grouped.kinds.work(check)
        before = () if kind.gathers or check.id in again else check.after
        before = tuple(id for id in before if id.partition("@")[0] not in loosely[check.id])
        looks[check.id] = _looks(check, again)
        figures = (
            place.check for figure in check.derive for places in figure.readings.values() for place in places
        )
        needs[check.id] = tuple(
            dict.fromkeys(
                id for id in (*before, *looks[check.id], *figures) if id in known and id != check.id
            )
        )
    return Field(tuple(checks), needs, looks, wishes, ground)


def _looks(check: PlannedCheck, again: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """Return the look for water that has to follow a check: of those that see its place, the one that sees fewest others."""
    seeing = [(len(zones), id) for id, zones in again.items() if check.wets in zones and id != check.id]
    return (min(seeing)[1],) if check.wets and seeing else ()


def select(field: Field) -> Selection:
    """Return what is done and what is left out."""
    out: dict[str, LeftOut] = {}
    wishes = field.wishes
    _leave_priorities(field, out)
    if wishes.minutes is None:
        kept = without(field.checks, out)
        return Selection(tuple(kept), fit(kept, wishes, field.ground), tuple(out.values()))
    _leave_people(field, out)
    return _fitting(field, out)


def _leave_priorities(field: Field, out: dict[str, LeftOut]) -> None:
    """Leave out what isn't asked for and isn't needed by what is."""
    wanted = {check.id for check in field.checks if check.priority <= field.wishes.priority}
    needed = all_needed(field, wanted)
    for check in field.checks:
        if check.id not in needed:
            words = f"priority {check.priority}; {field.wishes.priority} was asked for"
            out[check.id] = left_out(check, "priority", words, check.minutes)


def all_needed(field: Field, ids: Collection[str]) -> set[str]:
    """Return checks with all that they need."""
    found, heap = set(ids), list(ids)
    while heap:
        for one in field.needs[heap.pop()]:
            if one not in found:
                found.add(one)
                heap.append(one)
    return found


def _leave_people(field: Field, out: dict[str, LeftOut]) -> None:
    """Leave out what more people are needed for than come, and what would have to come after it."""
    people = len(field.wishes.people)
    hands = field.ground.grouped.kinds.hands
    for check in field.checks:
        if check.id not in out and hands(check) > people:
            words = f"needs {hands(check)} people, {people} come"
            out[check.id] = left_out(check, "people", words, check.minutes)
    leave_dependents(field, out)


def leave_dependents(field: Field, out: dict[str, LeftOut]) -> None:
    """Leave out what needs a check that is left out."""
    changed = True
    while changed:
        changed = False
        for check in field.checks:
            missing = next((id for id in field.needs[check.id] if id in out), None)
            if check.id not in out and missing is not None:
                cause = out[missing]
                words = f"comes with “{cause.title}”, which is left out: {cause.words}"
                out[check.id] = left_out(check, "order", words[:400], check.minutes + cause.minutes)
                changed = True


def left_out(check: PlannedCheck, why: str, words: str, minutes: float) -> LeftOut:
    """Return a check as one that is left out."""
    return LeftOut(
        check=check.id,
        title=check.title,
        priority=check.priority,
        grade=check.grade,
        why=why,  # type: ignore[arg-type]
        words=words,
        minutes=round(minutes, 1),
        unknown=unknown_without(check),
    )


def candidates_of(field: Field, checks: Sequence[PlannedCheck]) -> list[Candidate]:
    """Return checks as candidates of the choice, their minutes counted for all who take part.

    Getting to a round counts once for each kind of work in it, setting up once for each rule.
    """
    needs = needs_by_id([check.id for check in checks], field.needs)
    ground, grouped = field.ground, field.ground.grouped
    found = []
    for check, needed in zip(checks, needs, strict=True):
        kind = grouped.kinds.work(check)
        people = min(grouped.kinds.hands(check), len(field.wishes.people))
        found.append(
            Candidate(
                id=check.id,
                risk=ground.risks.get(check.id, 1.0),
                minutes=each_of(check) * people,
                shares=(((grouped.home[check.id], kind.id), kind.once), (check.rule, check.minutes_once)),
                needs=needed,
                away=ground.library.settings[check.setting].away,
            )
        )
    return found


def _fitting(field: Field, out: dict[str, LeftOut]) -> Selection:
    """Choose what decides, make its timetable, and fill up with the rest as long as that takes no place away from it.

    The part of the time that stays in hand isn't filled up.
    """
    wishes = field.wishes
    checks = without(field.checks, out)
    candidates = candidates_of(field, checks)
    choice = Choice(candidates)
    number = {check.id: index for index, check in enumerate(checks)}
    people = len(wishes.people)
    hours = (wishes.minutes or 0.0) * (wishes.days or 1) * people
    planned = hours * (1 - wishes.usual.in_hand)
    away = wishes.sea_minutes * people if wishes.sea_minutes is not None else None
    first = all_needed(field, {check.id for check in checks if check.priority == 1})
    others = frozenset(index for id, index in number.items() if id not in first)
    decides = choice.choose(Limits(hours, away), banned=others)
    kept, fitted, lost = _with_places(field, checks, decides, FIRST)
    decided = base = frozenset(number[check.id] for check in kept)
    share = BUSY
    for _ in range(TRIES):
        idle = planned - busy_minutes(fitted)
        if idle < LITTLE * hours or share < LITTLE:
            break
        banned = {number[id] for id in lost}
        choice.clear()
        choice.add(base)
        limit = choice.minutes + share * idle
        numbers = choice.choose(Limits(limit, away), banned=banned, already=base, exchange=False)
        more, then, without_place = _with_places(field, checks, numbers, SOME, fitted.timetable.way)
        found = frozenset(number[check.id] for check in more)
        if numbers == base:
            break
        if decided <= found and risk_of(candidates, found) > risk_of(candidates, base):
            kept, fitted, base = more, then, found
            lost |= without_place
            share = min(share, MORE)
        else:
            share *= LESS
    last = fit(kept, wishes, field.ground)
    if last.timetable.cost < fitted.timetable.cost:
        fitted = last
    choice.clear()
    choice.add(base)
    return _left_out(field, checks, choice, Selection(tuple(kept), fitted, ()), lost, out)


def busy_minutes(fitted: Fit) -> int:
    """Return the person-minutes of a timetable, with changes, moves and meals."""
    return sum(one.minutes * len(one.people) for one in fitted.timetable.placed)


def _with_places(
    field: Field, checks: Sequence[PlannedCheck], numbers: Collection[int], passes: int, way: int = 0
) -> tuple[list[PlannedCheck], Fit, set[str]]:
    """Return the checks of a choice that find a place, their timetable, and those that don't with what needs them."""
    lost: set[str] = set()
    kept = without(checks, {check.id for number, check in enumerate(checks) if number not in numbers})
    fitted = fit(kept, field.wishes, field.ground, passes, way)
    if fitted.missing and passes == FIRST:
        again = fit(kept, field.wishes, field.ground, MUCH, passes)
        fitted = min(fitted, again, key=lambda one: one.timetable.cost)
    while more := set(without_rounds(kept, fitted)):
        while (
            further := {
                check.id for check in kept if more & (set(field.needs[check.id]) - set(field.looks[check.id]))
            }
            - more
        ):
            more |= further
        lost |= more
        kept = without(kept, more)
        fitted = fit(kept, field.wishes, field.ground, AGAIN, fitted.timetable.way)
    return kept, fitted, lost


def _left_out(
    field: Field,
    checks: Sequence[PlannedCheck],
    choice: Choice,
    selection: Selection,
    lost: Collection[str],
    out: dict[str, LeftOut],
) -> Selection:
    """Return the selection with what is left out, and why."""
    for number, check in enumerate(checks):
        if choice.inside[number]:
            continue
        worth = choice.weigh(number)
        count, more = len(worth.new), worth.cost
        if check.id in lost:
            out[check.id] = _no_place(check, selection.fitted, field).model_copy(
                update={"minutes": round(more, 1)}
            )
            continue
        beside = (
            f", with {count - 1} other check{'s' if count > 2 else ''} that it needs" if count > 1 else ""
        )
        words = f"no time left over; {more:.0f} person-minutes would bring it back{beside}"
        out[check.id] = left_out(check, "time", words, more)
    order = {check.id: index for index, check in enumerate(field.checks)}
    listed = sorted(out.values(), key=lambda one: order[one.check])
    return replace(selection, left_out=tuple(listed))


def _no_place(check: PlannedCheck, fitted: Fit, field: Field) -> LeftOut:
    """Say why a check that was chosen found no place."""
    setting = field.ground.library.settings[check.setting]
    days = fitted.problem.days
    if setting.light == "dark" and not any(
        day.dark is None or any(max(begin, day.start) + 10 <= min(end, day.end) for begin, end in day.dark)
        for day in days
    ):
        return left_out(check, "darkness", "it doesn't get dark in the hours of the trial", check.minutes)
    if setting.light == "day" and all(
        day.light is not None and min(day.light[1], day.end) - max(day.light[0], day.start) < check.minutes
        for day in days
    ):
        return left_out(
            check, "daylight", "there is too little daylight in the hours of the trial", check.minutes
        )
    if setting.away and field.wishes.sea_minutes is not None:
        return left_out(check, "sea-time", "no time in the hours of the sea trial", check.minutes)
    return left_out(check, "time", "no time after what has to come before it", check.minutes)
