"""The cover: which boat, which plan, what is in and what isn't and why, what is where and with whom, who signs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from plangen.plan.day import LeftOut, OutsideScope, clock
from plangen.plan.house import House
from plangen.plan.model import Plan, Question
from plangen.print.carried.clipboards import Clipboard, is_fitted
from plangen.print.carried.page import HALF, WIDTH, height, room
from plangen.print.carried.text_width import width_of
from plangen.print.carried.words import counted, hours, short_names
from plangen.print.html import Paper

_WHY_SHORT = {
    "priority": "lower priority",
    "time": "no time",
    "sea-time": "no time at sea",
    "people": "too few people",
    "darkness": "no darkness",
    "daylight": "no daylight",
    "series": "not routine on this hull",
    "order": "what comes before is out",
}
#: Who signs: of a survey nobody sells or hands over.
PARTIES = {
    "delivery": ("For the buyer", "For the seller or yard", "Skipper in charge", "Witness"),
    "survey": ("For the client", "For the owner", "Skipper in charge", "Surveyor"),
    "commissioning": ("For the yard", "For the owner", "Skipper in charge", "Witness"),
}
#: Wishes that can't be met, of which so many are told.
_MOST_SHORT = 2
#: Of what the house file dropped and that decides, how many are named.
_MOST_DROPPED = 3
#: Ways to say it, the fullest first: a day's clipboards in one row, the heaviest of what is left out, open questions,
#: names of what the spec doesn't say.
_WAYS = (
    (False, True, 5, 40),
    (False, True, 4, 40),
    (False, True, 3, 40),
    (False, False, 3, 40),
    (False, False, 3, 12),
    (True, True, 4, 12),
    (True, False, 3, 12),
    (True, False, 2, 12),
    (True, False, 2, 5),
    (True, False, 1, 2),
)
#: Millimetres: a line of the letterhead.
_LINE_OF_LETTERHEAD = 4.0
#: Millimetres: what the pages take of a row of contents.
_PAGES = 21.0
#: Millimetres: the boat's head without her particulars, the figures, a heading, a row of contents, where people sign.
_HEAD, _FIGURES, _HEADING, _ROW, _SIGN = 20.0, 22.0, 9.6, 5.2, 27.0


@dataclass(frozen=True)
class ContentsRow:
    """Where something begins and, for a clipboard, ends, and what it is."""

    title: str
    facts: str
    start: str
    end: str = ""


@dataclass(frozen=True)
class Around:
    """What stands before and after the clipboards."""

    before: tuple[ContentsRow, ...]
    after: tuple[ContentsRow, ...]


@dataclass(frozen=True)
class Cover:
    """What the cover says."""

    figures: tuple[tuple[str, str], ...]
    first: tuple[str, ...]
    short: tuple[str, ...]
    questions: tuple[Question, ...]
    in_and_out: tuple[tuple[str, str, str], ...]
    contents: tuple[ContentsRow, ...]
    parties: tuple[str, ...]


def cover_of(plan: Plan, boards: Sequence[Clipboard], around: Around, paper: Paper) -> Cover:
    """Return the cover, of the ways to say it the fullest that stands on one page."""
    ways = [
        Cover(
            figures=_figures(plan),
            first=_at_the_start(plan),
            short=_short(plan),
            questions=plan.questions[:questions],
            in_and_out=_in_and_out(plan, heaviest, unsaid),
            contents=tuple(_contents(plan, boards, around, by_day)),
            parties=PARTIES[plan.purpose],
        )
        for by_day, heaviest, questions, unsaid in _WAYS
    ]
    return next((way for way in ways if _height(way, plan) <= room(paper)), ways[-1])


def _contents(plan: Plan, boards: Sequence[Clipboard], around: Around, by_day: bool) -> Sequence[ContentsRow]:
    """Return the rows of contents: what comes first, the clipboards or each day's together, what comes after."""
    rows = [
        ContentsRow(
            board.title,
            f"{counted(len(board.rounds), 'round')}, {counted(board.checks, 'check')}",
            board.anchor,
            f"{board.anchor}-end",
        )
        for board in boards
    ]
    if by_day and is_fitted(plan):
        rows = []
        for session in plan.sessions:
            own = [board for board in boards if board.session == session.id]
            if own:
                title = f"Day {session.day}, {counted(len(own), 'clipboard')}"
                facts = counted(sum(board.checks for board in own), "check")
                rows.append(ContentsRow(title, facts, own[0].anchor, f"{own[-1].anchor}-end"))
    return [_in_one_line(row) for row in (*around.before, *rows, *around.after)]


def _in_one_line(row: ContentsRow) -> ContentsRow:
    """Return a row without its facts where they would take a second line."""
    room = HALF - _PAGES
    fits = width_of(row.title) + width_of(f"  {row.facts}", 8) <= room
    return row if fits else ContentsRow(row.title, "", row.start, row.end)


def _figures(plan: Plan) -> tuple[tuple[str, str], ...]:
    measured = sum(any(e.numeric for e in check.expect) for check in plan.checks)
    work = sum(one.person_minutes for one in plan.rounds)
    figures = [
        (str(len(plan.checks)), f"checks, {measured} of them read with an instrument"),
        (str(len(plan.rounds)), "rounds, by place and state of the boat"),
    ]
    if not is_fitted(plan):
        figures.append((hours(work), "of one person's work; no hours are given, so the plan is whole"))
        return tuple(figures)
    days = counted(len(plan.sessions), "day")
    first, last = plan.sessions[0], plan.sessions[-1]
    span = sum(session.end - session.start for session in plan.sessions)
    figures.append((hours(span), f"in {days}, {clock(first.start)} to {clock(last.end)}"))
    people = plan.trial.people
    names = ", ".join(people)
    if height(names, 40.0) > height("A", 40.0) * 2:
        names = ", ".join(short_names(people).values())
    figures.append((str(len(people)), f"{'person' if len(people) == 1 else 'people'}: {names}"))
    return tuple(figures)


def _short(plan: Plan) -> tuple[str, ...]:
    said = [f"{one.why} {one.change}" for one in plan.trial.infeasible]
    if len(said) <= _MOST_SHORT:
        return tuple(said)
    more = len(said) - _MOST_SHORT
    return (*said[: _MOST_SHORT - 1], f"{said[_MOST_SHORT - 1]} {more} more in plan.yaml.")


def _at_the_start(plan: Plan) -> tuple[str, ...]:
    """Say how the boat has to be found, what is in one state together: off: gas, shore power; cold: port engine."""
    by_state: dict[str, list[str]] = {}
    for words in plan.trial.prepare:
        subject, _, state = words.rpartition(" ")
        by_state.setdefault(state.replace("-", " "), []).append(subject.replace("-", " "))
    if not by_state:
        return ()
    said = "; ".join(f"{state}: {', '.join(subjects)}" for state, subjects in by_state.items())
    return (f"Ask for her like this before the start, {said}.",)


def _in_and_out(plan: Plan, heaviest: bool, unsaid: int) -> tuple[tuple[str, str, str], ...]:
    by_priority = [sum(check.priority == level for check in plan.checks) for level in (1, 2, 3)]
    words = ("that decide", "of a thorough trial", "for the yard's record or on suspicion")
    parts = [f"{count} {text}" for count, text in zip(by_priority, words, strict=True) if count]
    lines = [("In the plan", counted(len(plan.checks), "check"), ", ".join(parts) + ".")]
    if plan.left_out:
        reasons = Counter(_WHY_SHORT[row.why] for row in plan.left_out)
        why = ", ".join(f"{words} {count}" for words, count in reasons.items())
        said = f"{why[:1].upper()}{why[1:]}."
        if plan.trial.in_hand and reasons[_WHY_SHORT["time"]]:
            said += f" {plan.trial.in_hand:.0%} of the hours stay free for what goes wrong."
        if heaviest:
            said += f" Heaviest: {_titles(plan.left_out)}."
        lines.append(("Left out", counted(len(plan.left_out), "check"), said))
    if plan.outside_scope:
        counts = Counter(row.scope.replace("-", " ") for row in plan.outside_scope)
        said = ", ".join(f"{scope} {count}" for scope, count in counts.items())
        lines.append(("Outside the scope", counted(len(plan.outside_scope), "check"), f"Not agreed: {said}."))
    if plan.house is not None and plan.house.changes:
        lines.append(("House file", counted(len(plan.house.changes), "change"), _house_changes(plan.house)))
    if plan.not_in_plan:
        titles = list(dict.fromkeys(one.title for one in plan.not_in_plan))
        more = f" and {len(titles) - unsaid} more" if len(titles) > unsaid else ""
        said = f"{', '.join(titles[:unsaid])}{more}"
        text = f"The spec doesn't say whether she has: {said}. If one is aboard, it isn't checked."
        lines.append(("Not in this plan", "", text))
    return tuple(lines)


def _house_changes(house: House) -> str:
    """Say what the house file did to the shipped checks, and by name what it dropped that decides or that a law asks for."""
    kinds = Counter(change.change for change in house.changes)
    said = ", ".join(
        f"{kind} {kinds[kind]}" for kind in ("added", "dropped", "replaced", "changed") if kinds[kind]
    )
    dropped = [one.title for one in house.changes if one.change == "dropped" and one.was is not None]
    more = f" and {len(dropped) - _MOST_DROPPED} more" if len(dropped) > _MOST_DROPPED else ""
    plainly = f" Dropped, of grade stop or asked for by law: {'; '.join(dropped[:_MOST_DROPPED])}{more}."
    return f"{said[:1].upper()}{said[1:]}.{plainly if dropped else ''} Reasons at the end of the methods."


def _titles(rows: Sequence[LeftOut | OutsideScope], most: int = 3) -> str:
    titles = list(dict.fromkeys(row.title for row in rows))
    more = f" and {len(titles) - most} more" if len(titles) > most else ""
    return "; ".join(titles[:most]) + more


def _letterhead_height(house: House | None) -> float:
    if house is None or house.letterhead is None:
        return 0.0
    own = house.letterhead
    return _LINE_OF_LETTERHEAD * (2 + (own.licence is not None) + (own.insurance is not None)) + 5.0


def _height(cover: Cover, plan: Plan) -> float:
    """Return about how high the cover stands, in millimetres."""
    boat = plan.boat
    about = " · ".join(
        str(part) for part in (boat.hull, boat.length_hull, boat.condition, boat.built) if part
    )
    names = " · ".join(part for part in (boat.builder, boat.model, boat.hull_id, boat.flag) if part)
    day = " · ".join(part for part in (boat.trial_date, boat.place, boat.daylight) if part)
    head = (
        _HEAD
        + _letterhead_height(plan.house)
        + height(f"{about} · {names}", WIDTH)
        + height(day, WIDTH)
        + height(boat.name, WIDTH, 24)
    )
    short = sum(height(f"n TOO SHORT n {words}", WIDTH - 2, 10, 2.4) for words in cover.short)
    steps = (*cover.first, *("n" * 60 for _ in range(3)))
    first = sum(height(words, HALF - 7, 10, 1.5) for words in steps)
    asked = sum(height(question.asks, HALF - 24, 10, 2.4) for question in cover.questions) + 10.0
    in_and_out = sum(
        max(height(more, WIDTH - 64, 10, 2.4), height(words, 36, 10, 2.4))
        for words, _, more in cover.in_and_out
    )
    rows = [height(row.title, HALF - _PAGES, 10, 1.2, _ROW) for row in cover.contents]
    half = -(-len(rows) // 2)
    contents = max(sum(rows[:half]), sum(rows[half:]))
    return (
        head + _FIGURES + short + max(first, asked) + in_and_out + contents + 3 * _HEADING + _HEADING + _SIGN
    )
