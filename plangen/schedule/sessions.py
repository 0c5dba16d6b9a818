"""The timetable as it is read: sessions of a day with steps, bars and each person's hours."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence

from plangen.packs.library import Library
from plangen.plan.day import Daylight, PersonTime, Round, Session, StateBar, TimetableStep
from plangen.schedule.plant import Change
from plangen.schedule.problem import Day, Placed, Problem, Timetable
from plangen.schedule.tasks import FINISH

DAY = 1440
PLACE = "place"
_STEPS = {
    "task": "round",
    "help": "help",
    "change": "change",
    "move": "change",
    "wait": "wait",
    "meal": "meal",
    "look": "bilges-again",
}


def sessions_of(
    problem: Problem,
    timetable: Timetable,
    rounds: Sequence[Round],
    lanes: Sequence[str],
    lights: Sequence[Daylight | None],
    date: datetime.date | None,
    library: Library,
) -> tuple[Session, ...]:
    """Return a session for each day on which something is done."""
    by_id = {one.id: one for one in rounds}
    states = {**problem.states, **timetable.prepared}
    place = problem.place
    sessions = []
    for number, day in enumerate(problem.days):
        offset = day.start - day.start % DAY
        own = [one for one in timetable.placed if _day_of(problem.days, one.start) == number]
        if not own:
            continue
        end = max(one.end for one in own if one.people or one.kind == "task")
        bars, states, place = _bars(problem, own, states, place, day, end, offset, library)
        steps = tuple(_step(one, problem, by_id, lanes, offset, library) for one in own)
        ids = tuple(
            dict.fromkeys(
                problem.tasks[one.task].id.removesuffix(FINISH) for one in own if one.task is not None
            )
        )
        sessions.append(
            Session(
                id=f"day-{number + 1}",
                day=number + 1,
                date=str(date + datetime.timedelta(days=number)) if date else None,
                start=day.start - offset,
                end=end - offset,
                people=tuple(lanes),
                daylight=lights[number],
                rounds=ids,
                steps=steps,
                bars=bars,
                work=tuple(
                    PersonTime(
                        person=name,
                        minutes=sum(one.minutes for one in own if lane in one.people and one.kind != "meal"),
                    )
                    for lane, name in enumerate(lanes)
                ),
            )
        )
    return tuple(sessions)


def _day_of(days: Sequence[Day], minute: int) -> int:
    return max((number for number, day in enumerate(days) if day.start <= minute), default=0)


def _step(
    one: Placed,
    problem: Problem,
    rounds: Mapping[str, Round],
    lanes: Sequence[str],
    offset: int,
    library: Library,
) -> TimetableStep:
    people = tuple(lanes[person] for person in one.people)
    if one.task is not None:
        task = problem.tasks[one.task]
        id = task.id
        found = rounds[id.removesuffix(FINISH)]
        return TimetableStep(
            kind="finish" if id.endswith(FINISH) else "round",
            round=found.id,
            title=found.title,
            start=one.start - offset,
            minutes=one.minutes,
            people=people,
        )
    if one.helps is not None:
        found = rounds[problem.tasks[one.helps].id]
        return TimetableStep(
            kind="help",
            round=found.id,
            title=found.title,
            start=one.start - offset,
            minutes=one.minutes,
            people=people,
        )
    change = one.change
    titles = {"meal": "Meal", "look": "Look into the bilges again"}
    return TimetableStep(
        kind=_STEPS[one.kind],  # type: ignore[arg-type]
        title=change.do if change else titles.get(one.kind, ""),
        start=one.start - offset,
        minutes=one.minutes,
        people=people,
        caution=_caution(change, library),
    )


def _caution(change: Change | None, library: Library) -> str | None:
    """Return the words of a change's caution, the short ones where there are some."""
    caution = library.cautions[change.caution] if change and change.caution else None
    return (caution.short or caution.text) if caution else None


def _bars(
    problem: Problem,
    own: Sequence[Placed],
    states: Mapping[str, str],
    place: str,
    day: Day,
    end: int,
    offset: int,
    library: Library,
) -> tuple[tuple[StateBar, ...], dict[str, str], str]:
    """Return how long she and what is aboard stay in one state during the day, and the states at its end."""
    now = {PLACE: place, **states}
    since = dict.fromkeys(now, day.start)
    bars: list[StateBar] = []

    def turn(subject: str, state: str, at: int) -> None:
        if now.get(subject) == state:
            return
        if subject in now and at > since[subject]:
            bars.append(_bar(subject, now[subject], since[subject] - offset, at - offset, library))
        now[subject] = state
        since[subject] = at

    for one in sorted(own, key=lambda one: one.end):
        if one.change is not None:
            if one.kind != "wait" and one.change.wait:
                continue
            if one.change.subject:
                turn(one.change.subject, one.change.state, one.end)
            else:
                turn(PLACE, one.change.state, one.end)
                for subject, good, state in one.change.makes:
                    if now.get(subject) not in good:
                        turn(subject, state, one.end)
        elif one.task is not None:
            for subject, state in problem.tasks[one.task].leaves.items():
                turn(subject, state, one.end)
    for subject, state in now.items():
        if end > since[subject]:
            bars.append(_bar(subject, state, since[subject] - offset, end - offset, library))
    bars.sort(key=lambda bar: (bar.subject != PLACE, bar.subject, bar.start))
    return tuple(bars), {key: value for key, value in now.items() if key != PLACE}, now[PLACE]


def _bar(subject: str, state: str, start: int, end: int, library: Library) -> StateBar:
    shown = library.settings[state].title.lower() if subject == PLACE and state in library.settings else state
    return StateBar(subject=subject, state=shown, start=start, end=end)
