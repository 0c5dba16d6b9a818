"""The timetable of a day: light, settings and plant states as bars, a lane for each person, and the rounds as a list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil, floor

from markupsafe import Markup, escape

from plangen.plan.day import Session, TimetableStep, clock
from plangen.plan.model import Plan

#: The drawing in millimetres: its width, where the bars begin, and the height of a bar and of a lane.
WIDTH, _LEFT, _BAR, _LANE = 181.0, 24.0, 5.0, 8.5
_TEXT = 'font-family="\'Plan Sans\', sans-serif" fill="#000"'
_TINT = ("#fff", "#dcdcdc", "#bdbdbd", "#8f8f8f")


@dataclass(frozen=True)
class RoundRow:
    """One round in the list."""

    id: str
    number: int
    clock: str
    minutes: int
    title: str
    place: str
    who: str


@dataclass(frozen=True)
class Day:
    """One day's page."""

    title: str
    facts: str
    chart: Markup
    changes: tuple[tuple[str, TimetableStep], ...]
    rows: tuple[RoundRow, ...]


def timetable_of(plan: Plan) -> tuple[Day, ...]:
    """Return a page for each session."""
    return tuple(_day(plan, session) for session in plan.sessions)


def _day(plan: Plan, session: Session) -> Day:
    rounds = {one.id: one for one in plan.rounds}
    codes = plan.zone_codes
    changes = [step for step in session.steps if step.kind == "change"]
    rows = []
    for step in sorted(
        (s for s in session.steps if s.kind == "round" and s.round), key=lambda s: (s.start, s.people)
    ):
        one = rounds[step.round or ""]
        helping = dict.fromkeys(name for help in session.help_with(one.id) for name in help.people)
        who = " + ".join((*step.people, *helping))
        place = codes.get(one.zone or "", "")
        rows.append(RoundRow(one.id, one.number, step.clock, round(step.minutes), one.title, place, who))
    work = ", ".join(f"{line.person} {_hours(line.minutes)}" for line in session.work)
    facts = [f"Work: {work}." if work else ""]
    trial = plan.trial
    if trial and trial.critical_path and trial.span and len(plan.sessions) == 1:
        over = round(trial.span - trial.lower_bound)
        facts.append(
            f"Rounds {', '.join(str(rounds[id].number) for id in trial.critical_path if id in rounds)} fix the end; "
            f"no order could take more than {over} min less."
        )
    return Day(
        title=f"{_named(session)}, {clock(session.start)} to {clock(session.end)}",
        facts=" ".join(fact for fact in facts if fact),
        chart=_chart(session, {one.id: one.number for one in plan.rounds}),
        changes=tuple((_letter(number), step) for number, step in enumerate(changes)),
        rows=tuple(rows),
    )


def _named(session: Session) -> str:
    if session.date is None:
        return f"Day {session.day}"
    day = date.fromisoformat(session.date)
    return f"Day {session.day}, {day:%A} {day.day} {day:%B %Y}"


def _hours(minutes: float) -> str:
    hours, rest = divmod(round(minutes), 60)
    return f"{hours} h {rest:02d}"


def _letter(number: int) -> str:
    first, second = divmod(number, 26)
    return (chr(64 + first) if first else "") + chr(65 + second)


class _Chart:
    """The drawing, from the top down."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.first, self.last = floor(session.start / 60) * 60, ceil(session.end / 60) * 60
        self.y = 7.0
        self.parts: list[str] = []

    def x(self, minute: float) -> float:
        """Return the place of a minute of the day."""
        within = min(max(minute, self.first), self.last)
        return _LEFT + (within - self.first) / max(self.last - self.first, 1) * (WIDTH - _LEFT - 1)

    def text(
        self, x: float, y: float, words: str, size: float = 2.8, anchor: str = "start", bold: bool = False
    ) -> None:
        """Write words."""
        weight = ' font-weight="700"' if bold else ""
        self.parts.append(
            f'<text x="{x:.2f}" y="{y:.2f}" {_TEXT} font-size="{size}" text-anchor="{anchor}"{weight}>{escape(words)}</text>'
        )

    def bar(
        self, start: float, end: float, height: float, words: str, fill: str, dashed: bool = False
    ) -> None:
        """Draw a bar from one minute to another, with what fits into it."""
        left, right = self.x(start), self.x(end)
        dash = ' stroke-dasharray="1.2 0.8"' if dashed else ""
        self.parts.append(
            f'<rect x="{left:.2f}" y="{self.y:.2f}" width="{max(right - left, 0.3):.2f}" height="{height:g}" fill="{fill}" stroke="#000" stroke-width="0.25"{dash}/>'
        )
        if words and (right - left) > 1.35 * len(words) + 1:
            self.text(left + 0.8, self.y + height / 2 + 1.0, words)


def _chart(session: Session, numbers: dict[str, int]) -> Markup:
    chart = _Chart(session)
    hours = range(chart.first, chart.last + 1, 60)
    for minute in hours:
        chart.text(chart.x(minute), 3.5, clock(minute)[:2], anchor="middle", bold=True, size=3.2)
    chart.parts.append(
        f'<line x1="{_LEFT}" y1="5" x2="{WIDTH - 1}" y2="5" stroke="#000" stroke-width="0.3"/>'
        + "".join(
            f'<line x1="{chart.x(m):.2f}" y1="4" x2="{chart.x(m):.2f}" y2="6" stroke="#000" stroke-width="0.3"/>'
            for m in hours
        )
    )
    _light(chart, session)
    subjects = [
        subject for subject in dict.fromkeys(b.subject for b in session.bars) if _changes(session, subject)
    ]
    for subject in subjects:
        chart.text(0, chart.y + 3.6, subject.replace("-", " ")[:16])
        own = [bar for bar in session.bars if bar.subject == subject]
        tints = {
            state: _TINT[number % len(_TINT)]
            for number, state in enumerate(dict.fromkeys(b.state for b in own))
        }
        for one in own:
            chart.bar(one.start, one.end, _BAR, one.state.replace("-", " "), tints[one.state])
        chart.y += _BAR + 0.8
    waits = [step for step in session.steps if step.kind == "wait"]
    if waits:
        chart.text(0, chart.y + 3.6, "by itself")
        for step in waits:
            number = numbers.get(step.round or "")
            chart.bar(step.start, step.end, _BAR, f"{number}" if number else step.title, "#fff", dashed=True)
        chart.y += _BAR + 0.8
    changes = [step for step in session.steps if step.kind == "change"]
    if changes:
        chart.text(0, chart.y + 3.6, "change")
        for number, step in enumerate(changes):
            chart.text(chart.x(step.start), chart.y + 3.6, _letter(number), anchor="middle", bold=True)
            chart.parts.append(
                f'<line x1="{chart.x(step.start):.2f}" y1="6" x2="{chart.x(step.start):.2f}" y2="{chart.y + 0.6:.2f}" stroke="#000" stroke-width="0.2" stroke-dasharray="0.6 0.8"/>'
            )
        chart.y += _BAR + 1.0
    for person in session.people:
        _lane(chart, session.lane(person), person, numbers)
    return Markup(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="100%" viewBox="0 0 {WIDTH:g} {chart.y:.1f}" role="img">'
        f"<title>{escape('Timetable')}</title>{''.join(chart.parts)}</svg>"
    )


def _changes(session: Session, subject: str) -> bool:
    """Tell whether something aboard is in more than one state on this day."""
    return len({bar.state for bar in session.bars if bar.subject == subject}) > 1


def _light(chart: _Chart, session: Session) -> None:
    light = session.daylight
    if light is None:
        return
    chart.text(0, chart.y + 3.6, "light")
    edges = [
        (light.first_light, light.sunrise, "dawn", "#dcdcdc"),
        (light.sunrise, light.sunset, "day", "#fff"),
        (light.sunset, light.last_light, "dusk", "#dcdcdc"),
    ]
    for start, end, words, fill in edges:
        if start is not None and end is not None and end > chart.first and start < chart.last:
            said = f"{words}, sunset {clock(end)}" if words == "day" else words
            chart.bar(start, end, _BAR, said, fill)
    if light.last_light is not None and light.last_light < chart.last:
        chart.bar(light.last_light, chart.last, _BAR, "", "#555")
    if light.first_light is not None and light.first_light > chart.first:
        chart.bar(chart.first, light.first_light, _BAR, "", "#555")
    chart.y += _BAR + 0.8


def _lane(chart: _Chart, steps: Sequence[TimetableStep], person: str, numbers: dict[str, int]) -> None:
    chart.y += 0.6
    chart.text(0, chart.y + 5.6, person[:13], size=3.4, bold=True)
    for step in steps:
        left, right = chart.x(step.start), chart.x(step.end)
        middle = (left + right) / 2
        if step.kind in ("round", "help", "finish"):
            chart.bar(step.start, step.end, _LANE, "", "#dcdcdc" if step.kind == "help" else "#fff")
            number = numbers.get(step.round or "", "")
            size = 3.2 if right - left > 4 else 2.2
            chart.text(
                middle, chart.y + 5.4, str(number), size=size, anchor="middle", bold=step.kind == "round"
            )
        elif step.kind == "meal":
            chart.text(middle, chart.y + 5.2, "meal", size=2.6, anchor="middle")
        else:
            chart.bar(step.start, step.end, _LANE, "", "#8f8f8f")
    chart.y += _LANE + 0.8
