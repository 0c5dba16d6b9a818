"""Clipboards: the rounds that one person carries in one session, or, without a timetable, those of one setting."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from plangen.plan.day import Round, Session, TimetableStep
from plangen.plan.model import Plan, PlannedCheck
from plangen.print.carried.answers import CODE
from plangen.print.carried.blocks import Block, blocks_of
from plangen.print.carried.lines import Line, line_of
from plangen.print.carried.page import WIDTH
from plangen.print.carried.said_before import said_once
from plangen.print.carried.text_width import width_of
from plangen.print.carried.words import counted, hours, plain_title

#: Checks that a clipboard of a plan without hours may have.
_MOST_CHECKS = 60
#: How full a line gets.
_WELL_FILLED = 0.97


@dataclass(frozen=True)
class RoundSheet:
    """One round on paper: where and in which state, with what, what can hurt, and its lines."""

    round: Round
    start: str
    people: str
    where: str
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    lines: tuple[Line, ...]
    place: str = ""
    date: str = ""
    changes: tuple[TimetableStep, ...] = ()

    @property
    def title(self) -> str:
        """Return what is printed at its head."""
        return plain_title(self.round.title)

    @property
    def tools_shown(self) -> str:
        """Return what to take along, as much as the line with the facts has room for; the kit has it by round."""
        facts = width_of(" · ".join((self.start, self.where, self.people, "with ")))
        line = (WIDTH - CODE) * _WELL_FILLED
        left = line - facts % line
        for many in range(len(self.tools), -1, -1):
            more = len(self.tools) - many
            parts = [
                *self.tools[:many],
                *([f"{more} {'more' if many else 'things'} of the kit"] if more else []),
            ]
            said = ", ".join(parts)
            if width_of(said, 8) <= left or many == 0:
                return said
        return ""

    @property
    def blocks(self) -> tuple[Block, ...]:
        """Return its lines as they stand on paper."""
        return blocks_of(self.lines)


@dataclass(frozen=True)
class Clipboard:
    """What one person carries: a name for the foot of its pages, its rounds in the order of work, whose else they go on.

    `session` is its session's id where there is a timetable. `snags` are those that its last page has room for.
    """

    anchor: str
    title: str
    facts: str
    rounds: tuple[RoundSheet, ...]
    beside: tuple[str, ...] = ()
    session: str = ""
    snags: range = range(0)

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
        *(f"{step.people[0]} helps from {step.clock} for {round(step.minutes)} min" for step in helping),
        *missing,
    )


def _sheet(one: Round, plan: Plan, start: str = "", people: Sequence[str] = ()) -> RoundSheet:
    checks: Mapping[str, PlannedCheck] = {check.id: check for check in plan.checks}
    methods = method_numbers(plan)
    titles_of_kit = {item.id: item.title for item in plan.kit}
    tools = {item.id: titles_of_kit.get(item.served_by or item.id, item.title) for item in plan.kit}
    titles = {line.setting: line.title for line in plan.settings}
    states = [state.replace("-", " ") for state in one.states]
    where = [titles.get(one.setting, one.setting), *states, f"{round(one.minutes)} min"]
    if one.wait:
        where.append(f"then {round(one.wait)} min by itself")
    return RoundSheet(
        round=one,
        start=start,
        people=", ".join(people) if people else ("" if one.people == 1 else f"{one.people} people"),
        where=" · ".join(where),
        tools=tuple(dict.fromkeys(tools[name] for name in one.instruments if name in tools)),
        cautions=tuple(
            plan.cautions_in_short.get(name, "") for name in one.cautions if name in plan.cautions_in_short
        ),
        place=plan.zone_codes.get(one.zone or "", ""),
        lines=tuple(line_of(checks[id], plan, methods, one.zone) for id in one.checks),
    )


def _changes_before(session: Session, round_id: str) -> tuple[TimetableStep, ...]:
    """Return the changes of plant state and setting that are made just before a round."""
    start = next((s.start for s in session.steps if s.kind == "round" and s.round == round_id), None)
    return tuple(
        step for step in session.steps if step.kind == "change" and start is not None and step.end == start
    )
