"""Clipboards: the rounds that one person carries in one session, or, without a timetable, those of one setting."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice

from plangen.plan.day import Round, Session, TimetableStep
from plangen.plan.model import Plan, PlannedCheck
from plangen.print.carried.blocks import Block, blocks_of
from plangen.print.carried.lines import Line, line_of
from plangen.print.carried.said_before import said_once
from plangen.print.carried.words import counted, hours, plain_title

#: Checks that a clipboard of a plan without hours may have.
_MOST_CHECKS = 60
#: Minutes from which a wait is told in hours.
_LONG_WAIT = 120


@dataclass(frozen=True)
class RoundSheet:
    """One round on paper: when, where and in which state, with what, what can hurt, and its lines.

    `cautions` are by their names, of which each line's check says its own.
    """

    round: Round
    start: str
    people: str
    setting: str
    states: tuple[str, ...]
    minutes: str
    tools: tuple[str, ...]
    cautions: Mapping[str, str]
    lines: tuple[Line, ...]
    date: str = ""
    changes: tuple[TimetableStep, ...] = ()

    @property
    def title(self) -> str:
        """Return what is printed at its head."""
        return plain_title(self.round.title)

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """Return its lines as they stand on paper."""
        return blocks_of(self.lines)

    def cautions_of(self, lines: Iterable[Line]) -> tuple[str, ...]:
        """Return what can hurt in some of its checks, and what belongs to the round but to none of them."""
        own = {name for line in lines for name in line.check.cautions}
        all_own = {name for line in self.lines for name in line.check.cautions}
        return tuple(text for name, text in self.cautions.items() if name in own or name not in all_own)


@dataclass(frozen=True)
class Clipboard:
    """What one person carries: a name for the foot of its pages, its rounds in the order of work, whose else they go on.

    `session` is its session's id where there is a timetable.
    """

    anchor: str
    title: str
    facts: str
    rounds: tuple[RoundSheet, ...]
    beside: tuple[str, ...] = ()
    session: str = ""

    @property
    def checks(self) -> int:
        """Return how many checks are on it."""
        return sum(len(sheet.lines) for sheet in self.rounds)


def _said_once(sheets: Iterable[RoundSheet]) -> tuple[RoundSheet, ...]:
    """Return the rounds of a clipboard with the words of a check that stands there again printed the first time only."""
    own = list(sheets)
    lines = iter(said_once(line for sheet in own for line in sheet.lines))
    return tuple(replace(sheet, lines=tuple(islice(lines, len(sheet.lines)))) for sheet in own)


def method_numbers(plan: Plan) -> dict[str, str]:
    """Return the number under which each rule's method is found: M1, M2 … by system as the packs are ordered."""
    order = {line.pack: number for number, line in enumerate(plan.packs)}
    rules = sorted(
        dict.fromkeys(check.rule for check in plan.checks),
        key=lambda rule: order.get(rule.partition("/")[0], 0),
    )
    return {rule: f"M{number}" for number, rule in enumerate(rules, start=1)}


def is_fitted(plan: Plan) -> bool:
    """Tell whether the plan was fitted to hours; one without is whole, and nobody works by its days."""
    return bool(plan.sessions) and plan.trial.hours is not None


def clipboards_of(plan: Plan) -> tuple[Clipboard, ...]:
    """Return the clipboards: each person's for each session, or each setting's where there is no timetable."""
    if is_fitted(plan):
        return tuple(
            board
            for session in plan.sessions
            for person in session.people
            if (board := _of_person(plan, session, person)) is not None
        )
    titles = {line.setting: line.title for line in plan.settings}
    boards: list[Clipboard] = []
    for setting in dict.fromkeys(one.setting for one in plan.rounds):
        shares = _shared_out([one for one in plan.rounds if one.setting == setting])
        for number, rounds in enumerate(shares, start=1):
            which = f", {number} of {len(shares)}" if len(shares) > 1 else ""
            boards.append(
                Clipboard(
                    anchor=f"clipboard-{len(boards) + 1}",
                    title=f"{titles.get(setting, setting)}{which}",
                    facts=counted(len(rounds), "round"),
                    rounds=_said_once(_sheet(one, plan) for one in rounds),
                )
            )
    return tuple(boards)


def _shared_out(rounds: Sequence[Round]) -> list[Sequence[Round]]:
    """Share rounds out to clipboards of a like size that one can carry."""
    many = -(-sum(len(one.checks) for one in rounds) // _MOST_CHECKS)
    shares: list[list[Round]] = [[]]
    room = sum(len(one.checks) for one in rounds) / many
    for one in rounds:
        if shares[-1] and len(shares) < many and sum(len(own.checks) for own in shares[-1]) >= room:
            shares.append([])
        shares[-1].append(one)
    return [share for share in shares if share]


def _of_person(plan: Plan, session: Session, person: str) -> Clipboard | None:
    """Return what one person carries: the rounds that they lead, if any; those that somebody else leads are named."""
    rounds = {one.id: one for one in plan.rounds}
    own: list[RoundSheet] = []
    beside: list[str] = []
    for step in session.lane(person):
        if step.kind not in ("round", "help") or step.round is None:
            continue
        one = rounds[step.round]
        if step.kind == "round":
            own.append(
                replace(
                    _sheet(one, plan, step.clock, _taking_part(session, one)),
                    date=session.date or "",
                    changes=_changes_before(session, one.id),
                )
            )
        else:
            beside.append(
                f"{step.clock} round {one.number}, help {session.leader(one.id)} {round(step.minutes)} min"
            )
    if not own:
        # what somebody only helps with is on the other's clipboard and in the timetable
        return None
    day = f"day {session.day}, " if len(plan.sessions) > 1 else ""
    work = next((line.minutes for line in session.work if line.person == person), 0.0)
    checks = sum(len(sheet.lines) for sheet in own)
    return Clipboard(
        anchor=f"clipboard-{session.id}-{session.people.index(person) + 1}",
        title=f"{person}'s clipboard{', ' + day.rstrip(', ') if day else ''}",
        facts=f"{counted(len(own), 'round')}, {counted(checks, 'check')}, {hours(work)} of work",
        rounds=_said_once(own),
        beside=tuple(beside),
        session=session.id,
    )


def _taking_part(session: Session, one: Round) -> tuple[str, ...]:
    """Name who helps with a round, when and for how long; whose clipboard it is leads."""
    helping = session.help_with(one.id)
    others = one.people - 1 - len(helping)
    missing = (f"{others} more",) if others > 0 else ()
    return (
        *(f"{step.people[0]} helps {round(step.minutes)} min from {step.clock}" for step in helping),
        *missing,
    )


def _sheet(one: Round, plan: Plan, start: str = "", people: Sequence[str] = ()) -> RoundSheet:
    checks: Mapping[str, PlannedCheck] = {check.id: check for check in plan.checks}
    methods = method_numbers(plan)
    titles_of_kit = {item.id: item.title for item in plan.kit}
    tools = {item.id: titles_of_kit.get(item.served_by or item.id, item.title) for item in plan.kit}
    titles = {line.setting: line.title for line in plan.settings}
    minutes = f"{round(one.minutes)} min"
    if one.wait:
        minutes += f" and {_wait(one.wait)} wait"
    return RoundSheet(
        round=one,
        start=start,
        people=", ".join(people) if people else ("" if one.people == 1 else f"{one.people} people"),
        setting=titles.get(one.setting, one.setting),
        states=states_in_words(one.states),
        minutes=minutes,
        tools=tuple(dict.fromkeys(tools[name] for name in one.instruments if name in tools)),
        cautions={
            name: plan.cautions_in_short[name] for name in one.cautions if name in plan.cautions_in_short
        },
        lines=tuple(line_of(checks[id], plan, methods, one.zone) for id in one.checks),
    )


def _wait(minutes: float) -> str:
    return hours(minutes) if minutes >= _LONG_WAIT else f"{round(minutes)} min"


def states_in_words(states: Sequence[str]) -> tuple[str, ...]:
    """Return plant states as they are said: those of one thing together, then the things that are in one state.

    >>> states_in_words(["port-engine stopped", "port-engine cold", "fore-tank full", "aft-tank full"])
    ('port engine stopped, cold', 'fore tank, aft tank full')
    """
    of_thing: dict[str, list[str]] = {}
    for state in states:
        thing, _, its = state.rpartition(" ")
        of_thing.setdefault(thing.replace("-", " "), []).append(its.replace("-", " "))
    things: dict[str, list[str]] = {}
    for thing, every in of_thing.items():
        things.setdefault(", ".join(every), []).append(thing)
    return tuple(f"{', '.join(own)} {state}".strip() for state, own in things.items())


def _changes_before(session: Session, round_id: str) -> tuple[TimetableStep, ...]:
    """Return the changes of plant state and setting that are made just before a round."""
    start = next((s.start for s in session.steps if s.kind == "round" and s.round == round_id), None)
    return tuple(
        step for step in session.steps if step.kind == "change" and start is not None and step.end == start
    )
