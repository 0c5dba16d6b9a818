"""The timetable of a day: light, settings and plant states as bars, a lane for each person, and the rounds as a list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, floor

from markupsafe import Markup, escape

from plangen.plan.day import Round, Session, TimetableStep, clock
from plangen.plan.model import Plan
from plangen.print.carried.page import HALF, height, in_columns, room
from plangen.print.carried.text_width import width_of
from plangen.print.carried.words import day_in_words, hours, number_ranges, plain_title, short_names
from plangen.print.html import Paper

#: The drawing in millimetres: its width, where the bars begin, and the height of a bar and of a lane.
WIDTH, _BAR, _LANE = 183.0, 4.2, 8.0
#: The room for names left of the bars: as much as the longest takes, within this.
_LEAST_LEFT, _MOST_LEFT = 24.0, 40.0
#: What lies between two bars, and how many bars there are at the least.
_BETWEEN, _FEWEST_BARS = 0.6, 3
#: What lies between two letters.
_APART = 0.8
_TEXT = 'font-family="\'Plan Sans\', sans-serif" fill="#000"'
#: Small words of the drawing in points, and the size of a round's number in its lane.
_SIZE, _NUMBER, _NUMBER_OF_SHORT = 2.8 * 72 / 25.4, 3.0, 2.2
#: Steps of a lane that carry the number of their round.
_NUMBERED = ("round", "help", "finish")
_TINT = ("#fff", "#dcdcdc", "#bdbdbd", "#8f8f8f")


#: What a day's page has besides the list: its heading, that of the list, a row of it, a line for notes.
_HEAD, _LIST_HEAD, _ROW, _NOTE = 19.0, 9.0, 6.6, 9.0
#: Rounds that are listed in one column, with more said of each, and how full a page is made with lines for notes.
_ONE_COLUMN, _ROW_OF_ONE, _FULL = 20, 7.4, 0.8
#: What the numbers, times and ticks of a row take of its width, and the most that names take.
_FIGURES, _WIDEST_WHO = 36.0, 18.0
#: The lowest row that a tick fits in, and letters of a name in the list.
_LEAST_ROW, _SHORTEST = 5.7, 4


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
    checks: int


@dataclass(frozen=True)
class Day:
    """One day's page: `notes` lines are left to write on where the list is short."""

    id: str
    title: str
    facts: str
    chart: Markup
    changes: tuple[tuple[str, TimetableStep], ...]
    rows: tuple[RoundRow, ...]
    columns: int
    who_width: float
    row_height: float
    notes: int


def timetable_of(plan: Plan, paper: Paper = "A4") -> tuple[Day, ...]:
    """Return a page for each session."""
    return tuple(_day(plan, session, paper) for session in plan.sessions)


def _stages_of(plan: Plan, own: Sequence[Round]) -> str:
    """Return which stages of the work a day is at, and in which of its rounds; nothing where the work has none."""
    stage_of = {check.id: check.stage for check in plan.checks}
    found = []
    for stage in plan.stages:
        at = [one.number for one in own if any(stage_of.get(id) == stage.id for id in one.checks)]
        if at:
            found.append(f"{stage.title} {number_ranges(at)}")
    return f"Stages, with their rounds: {'; '.join(found)}." if found else ""


def _day(plan: Plan, session: Session, paper: Paper) -> Day:
    rounds = {one.id: one for one in plan.rounds}
    codes, short = plan.zone_codes, short_names(session.people)
    initials = short_names(session.people, _SHORTEST) if len(session.people) > 1 else short
    changes = [step for step in session.steps if step.kind == "change"]
    rows = []
    for step in sorted(
        (s for s in session.steps if s.kind == "round" and s.round), key=lambda s: (s.start, s.people)
    ):
        one = rounds[step.round or ""]
        helping = dict.fromkeys(name for help in session.help_with(one.id) for name in help.people)
        who = " + ".join(initials.get(name, name) for name in (*step.people, *helping))
        place = codes.get(one.zone or "", "")
        minutes, checks = round(step.minutes), len(one.checks)
        title = plain_title(one.title)
        rows.append(RoundRow(one.id, one.number, step.clock, minutes, title, place, who, checks))
    work = ", ".join(f"{line.person} {hours(line.minutes)}" for line in session.work)
    facts = [f"Work: {work}." if work else ""]
    trial = plan.trial
    if trial.critical_path and trial.span and len(plan.sessions) == 1:
        over = round(trial.span - trial.lower_bound)
        path = number_ranges(rounds[id].number for id in trial.critical_path if id in rounds)
        facts.append(f"Rounds {path} fix the end; no order could take more than {over} min less.")
    facts.append(_stages_of(plan, [rounds[id] for id in session.rounds if id in rounds]))
    numbers = {one.id: one.number for one in plan.rounds}
    chart, high = _chart(session, numbers, short)
    columns = 1 if len(rows) <= _ONE_COLUMN else 2
    widest = max(width_of("Who", 8, 600), *(width_of(row.who) for row in rows), 0.0)
    who_width = min(widest + 2, _WIDEST_WHO)
    what = (WIDTH if columns == 1 else HALF) - _FIGURES - who_width
    said = " ".join(fact for fact in facts if fact)
    above = _HEAD + height(said, WIDTH) - height("", WIDTH) + _changes_height(changes) + _LIST_HEAD
    row_height = _ROW_OF_ONE if columns == 1 else _ROW
    listed = _listed(rows, what, row_height, columns)
    if above + high + listed > room(paper):
        row_height = _LEAST_ROW
        listed = _listed(rows, what, row_height, columns)
        too_high = above + high + listed - room(paper)
        chart, high = _chart(session, numbers, short, fewer=max(0, ceil(too_high / (_BAR + _BETWEEN))))
    used = above + high + listed
    notes = int((_FULL * room(paper) - used) // _NOTE)
    return Day(
        id=session.id,
        title=f"{_named(session)}, {clock(session.start)} to {clock(session.end)}",
        facts=said,
        chart=chart,
        changes=tuple((_letter(number), step) for number, step in enumerate(changes)),
        rows=tuple(rows),
        columns=columns,
        who_width=who_width,
        row_height=row_height,
        notes=max(notes, 0),
    )


def _changes_height(changes: Sequence[TimetableStep]) -> float:
    """Return how high the list of changes stands in two columns."""
    said = (f"A 00:00 {step.title}, 00 min, {' and '.join(step.people)}" for step in changes)
    return in_columns((height(words, HALF, 10) for words in said), 2) + 2


def _listed(rows: Sequence[RoundRow], width: float, least: float, columns: int) -> float:
    """Return how high the list stands."""
    return in_columns((height(row.title, width, 9.2, 0.2, least) for row in rows), columns)


def _named(session: Session) -> str:
    if session.date is None:
        return f"Day {session.day}"
    return f"Day {session.day}, {day_in_words(session.date)}"


def _letter(number: int) -> str:
    first, second = divmod(number, 26)
    return (chr(64 + first) if first else "") + chr(65 + second)


class _Chart:
    """The drawing, from the top down."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.first, self.last = floor(session.start / 60) * 60, ceil(session.end / 60) * 60
        names = [_name(bar.subject) for bar in session.bars if _changes(session, bar.subject)]
        widest = max((width_of(name, _SIZE) for name in names), default=0.0)
        self.left = min(_MOST_LEFT, max(_LEAST_LEFT, widest + 1.0))
        self.y = 7.0
        self.parts: list[str] = []

    def x(self, minute: float) -> float:
        """Return the place of a minute of the day."""
        within = min(max(minute, self.first), self.last)
        return self.left + (within - self.first) / max(self.last - self.first, 1) * (WIDTH - self.left - 3)

    def fits(self, words: str, start: float, end: float, size: float = _NUMBER) -> bool:
        """Tell whether a number has room between two minutes."""
        return width_of(words, size * 72 / 25.4, 700) + 0.4 <= self.x(end) - self.x(start)

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
        if words and right - left > width_of(words, _SIZE) + 1.4:
            self.text(left + 0.8, self.y + height / 2 + 0.95, words)


def _chart(
    session: Session, numbers: dict[str, int], short: Mapping[str, str], fewer: int = 0
) -> tuple[Markup, float]:
    """Return the drawing and its height in millimetres; fewer bars where the page has no room, those that change least left out."""
    chart = _Chart(session)
    hours = range(chart.first, chart.last + 1, 60)
    for minute in hours:
        chart.text(chart.x(minute), 3.5, clock(minute)[:2], anchor="middle", bold=True, size=3.2)
    chart.parts.append(
        f'<line x1="{chart.left:.2f}" y1="5" x2="{WIDTH - 3}" y2="5" stroke="#000" stroke-width="0.3"/>'
        + "".join(
            f'<line x1="{chart.x(m):.2f}" y1="4" x2="{chart.x(m):.2f}" y2="6" stroke="#000" stroke-width="0.3"/>'
            for m in hours
        )
    )
    _light(chart, session)
    subjects = [
        subject for subject in dict.fromkeys(b.subject for b in session.bars) if _changes(session, subject)
    ]
    changing = sorted(subjects, key=lambda subject: sum(bar.subject == subject for bar in session.bars))
    left_out = set(changing[: min(fewer, max(len(changing) - _FEWEST_BARS, 0))])
    for subject in (subject for subject in subjects if subject not in left_out):
        chart.text(0, chart.y + 3.1, _cut(_name(subject), chart.left))
        own = [bar for bar in session.bars if bar.subject == subject]
        tints = {
            state: _TINT[number % len(_TINT)]
            for number, state in enumerate(dict.fromkeys(b.state for b in own))
        }
        for one in own:
            chart.bar(one.start, one.end, _BAR, one.state.replace("-", " "), tints[one.state])
        chart.y += _BAR + _BETWEEN
    waits = [step for step in session.steps if step.kind == "wait"]
    if waits:
        chart.text(0, chart.y + 3.1, "by itself")
        for step in waits:
            number = numbers.get(step.round or "")
            chart.bar(step.start, step.end, _BAR, f"{number}" if number else step.title, "#fff", dashed=True)
        chart.y += _BAR + _BETWEEN
    changes = [step for step in session.steps if step.kind == "change"]
    below: list[str] = []
    if changes:
        chart.text(0, chart.y + 3.1, "change")
        after = 0.0
        for number, step in enumerate(changes):
            # letters of changes that follow at once stand beside one another
            wide = width_of(_letter(number), _SIZE, 700)
            at = max(chart.x(step.start), after + wide / 2)
            after = at + wide / 2 + _APART
            chart.text(at, chart.y + 3.1, _letter(number), anchor="middle", bold=True)
            below.append(
                f'<line x1="{chart.x(step.start):.2f}" y1="6" x2="{chart.x(step.start):.2f}" y2="{chart.y + 0.6:.2f}" stroke="#000" stroke-width="0.2" stroke-dasharray="0.6 0.8"/>'
            )
        chart.y += _BAR + 1.0
    for person in session.people:
        _lane(chart, session.lane(person), short.get(person, person), numbers)
    drawing = Markup(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="100%" viewBox="0 0 {WIDTH:g} {chart.y:.1f}" role="img">'
        f"<title>{escape('Timetable')}</title>{''.join([*below, *chart.parts])}</svg>"
    )
    return drawing, chart.y


def _name(subject: str) -> str:
    return subject.replace("-", " ")


def _cut(words: str, room: float) -> str:
    """Return words as far as they have room before the bars, cut between words."""
    while width_of(words, _SIZE) > room - 0.5 and " " in words:
        words = words.rpartition(" ")[0]
    return words


def _changes(session: Session, subject: str) -> bool:
    """Tell whether something aboard is in more than one state on this day."""
    return len({bar.state for bar in session.bars if bar.subject == subject}) > 1


def _light(chart: _Chart, session: Session) -> None:
    light = session.daylight
    if light is None:
        return
    chart.text(0, chart.y + 3.1, "light")
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
    chart.y += _BAR + _BETWEEN


#: Minutes between two short rounds that still share a label.
_NEAR = 4


@dataclass(frozen=True)
class _Band:
    """What follows one another in a lane and has one label, for each alone has no room for its number."""

    steps: tuple[TimetableStep, ...]
    numbers: tuple[int, ...]

    @property
    def start(self) -> float:
        """Return the minute at which it begins."""
        return self.steps[0].start

    @property
    def end(self) -> float:
        """Return the minute at which it is over."""
        return self.steps[-1].end

    @property
    def label(self) -> str:
        """Return the numbers of its rounds, neighbours as a range."""
        rising = all(after == before + 1 for before, after in pairwise(self.numbers))
        if rising and len(self.numbers) > 2:
            return f"{self.numbers[0]}–{self.numbers[-1]}"
        return " ".join(str(number) for number in self.numbers)

    def fits(self, chart: _Chart) -> bool:
        """Tell whether its label has room."""
        return chart.fits(self.label, self.start, self.end)

    def shown(self, chart: _Chart) -> tuple[str, float]:
        """Return its label and the size that has room; where all have none, the list beside names those left out."""
        first, last = self.numbers[0], self.numbers[-1]
        ways = [self.label, f"{first} … {last}"] if len(self.numbers) > 2 else [self.label]
        for label, size in (
            (way, size) for way in (*ways, f"{first}") for size in (_NUMBER, _NUMBER_OF_SHORT)
        ):
            if chart.fits(label, self.start, self.end, size):
                return label, size
        return f"{first}", _NUMBER_OF_SHORT


def _bands(chart: _Chart, steps: Sequence[TimetableStep], numbers: Mapping[str, int]) -> list[_Band]:
    """Return the rounds of a lane, each by itself or, where its number has no room, with its neighbour."""
    bands: list[_Band] = []
    for step in steps:
        if step.kind not in _NUMBERED or step.round is None:
            continue
        number = numbers[step.round]
        own = _Band((step,), (number,))
        last = bands[-1] if bands else None
        if last is not None and own.start - last.end <= _NEAR and not (last.fits(chart) and own.fits(chart)):
            again = number in last.numbers
            bands[-1] = _Band((*last.steps, step), last.numbers if again else (*last.numbers, number))
        else:
            bands.append(own)
    return bands


def _lane(chart: _Chart, steps: Sequence[TimetableStep], person: str, numbers: Mapping[str, int]) -> None:
    """Draw what one person does: white where they lead, light where they help, dark where they change something."""
    chart.y += 0.6
    chart.text(0, chart.y + 5.6, person, size=3.4, bold=True)
    for step in steps:
        if step.kind == "meal":
            middle = (chart.x(step.start) + chart.x(step.end)) / 2
            chart.text(middle, chart.y + 5.2, "meal", size=2.6, anchor="middle")
        else:
            chart.bar(step.start, step.end, _LANE, "", _fill(step))
    for band in _bands(chart, steps, numbers):
        left, right = chart.x(band.start), chart.x(band.end)
        if len(band.steps) > 1:
            fill = _fill(band.steps[0]) if len({_fill(step) for step in band.steps}) == 1 else "#fff"
            chart.parts.append(
                f'<rect x="{left + 0.25:.2f}" y="{chart.y + 2:.2f}" width="{right - left - 0.5:.2f}" height="{_LANE - 4:g}" fill="{fill}"/>'
            )
        label, size = band.shown(chart)
        chart.text((left + right) / 2, chart.y + 5.3, label, size=size, anchor="middle", bold=True)
    chart.y += _LANE + 0.8


def _fill(step: TimetableStep) -> str:
    return {"round": "#fff", "finish": "#fff", "help": "#dcdcdc"}.get(step.kind, "#8f8f8f")
