"""Checks become rounds: those of one place, setting and set of plant states, so that each place is visited once.

The rounds are those of the whole plan. Whatever is chosen, and whoever comes, a check stays in its round, and the
round keeps its id: a date or an initial that stands at it never comes to stand at another.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from plangen.packs.library import Library
from plangen.plan.day import Help, Round
from plangen.plan.model import PlannedCheck
from plangen.schedule.course import course_of, each_of, in_lines
from plangen.schedule.kinds import Kind, Kinds
from plangen.schedule.plant import Plant, merged
from plangen.spec.names import slug

ANYWHERE = "anywhere"


@dataclass
class Group:
    """A round that is being put together.

    `needing` counts for each subject the checks that need it in some state, and `before` holds a bit for every group
    that comes earlier.
    """

    kind: Kind
    zone: str | None
    setting: str
    needs: dict[str, frozenset[str]] = field(default_factory=dict)
    slow: frozenset[str] = frozenset()
    leaves: dict[str, str] = field(default_factory=dict)
    needing: Counter[str] = field(default_factory=Counter)
    checks: list[PlannedCheck] = field(default_factory=list)
    kinds: dict[str, float] = field(default_factory=dict)
    rules: dict[str, float] = field(default_factory=dict)
    each: float = 0.0
    before: int = 0
    id: str = ""

    @property
    def minutes(self) -> float:
        """Return the work with getting there and setting up."""
        return sum(self.kinds.values()) + sum(self.rules.values()) + self.each

    def minutes_with(self, other: Group) -> float:
        """Return the work if the checks of another group belonged to this one as well."""
        kinds = {**self.kinds, **other.kinds}
        rules = {**self.rules, **other.rules}
        return sum(kinds.values()) + sum(rules.values()) + self.each + other.each


@dataclass(frozen=True)
class Grouped:
    """The rounds of the whole plan, in an order in which each comes after what it follows."""

    groups: tuple[Group, ...]
    home: Mapping[str, int]
    kinds: Kinds


def group_checks(checks: Sequence[PlannedCheck], kinds: Kinds, plant: Plant, library: Library) -> Grouped:
    """Return the rounds of checks that stand in an order of work.

    What decides finds its rounds first, with all that comes before it, so that a short trial has few; then what is
    thorough, then the rest. A check joins the first round of its place and setting whose states serve it too, that
    isn't too long and that doesn't then have to come both before and after another; at last, rounds that may be one
    become one.
    """
    book = _Book(plant)
    by_id = {check.id: check for check in checks}
    done: set[str] = set()
    for priority in sorted({check.priority for check in checks}):
        wanted = _with_all_before([one.id for one in checks if one.priority <= priority], by_id)
        for check in checks:
            if check.id in wanted and check.id not in done:
                done.add(check.id)
                book.add(_alone(check, kinds, plant, library), [id for id in check.after if id in by_id])
    book.join_rounds()
    groups = book.in_order()
    for one, id in zip(groups, _ids(groups), strict=True):
        one.id = id
    place = {check.id: index for index, check in enumerate(checks)}
    for one in groups:
        one.checks = list(in_lines(sorted(one.checks, key=lambda check: place[check.id]), kinds.hands))
    home = {check.id: index for index, one in enumerate(groups) for check in one.checks}
    return Grouped(tuple(groups), home, kinds)


def _with_all_before(ids: Collection[str], checks: Mapping[str, PlannedCheck]) -> set[str]:
    found, heap = set(ids), list(ids)
    while heap:
        for one in checks[heap.pop()].after:
            if one in checks and one not in found:
                found.add(one)
                heap.append(one)
    return found


def _alone(check: PlannedCheck, kinds: Kinds, plant: Plant, library: Library) -> Group:
    """Return a round of one check."""
    visit, zone = kinds.visit(check)
    work = kinds.work(check)
    needs = plant.needs(check.needs)
    setting = ANYWHERE if library.settings[check.setting].anywhere else check.setting
    return Group(
        kind=visit,
        zone=zone,
        setting=setting,
        needs=needs,
        slow=plant.slow(needs),
        leaves=plant.leaves(check.leaves),
        needing=Counter(needs.keys()),
        checks=[check],
        kinds={work.id: work.once},
        rules={check.rule: check.minutes_once},
        each=each_of(check),
    )


class _Book:
    """The rounds so far."""

    def __init__(self, plant: Plant) -> None:
        self.plant = plant
        self.groups: list[Group | None] = []
        self.home: dict[str, int] = {}
        self.alike: dict[tuple[str, str | None, str], list[int]] = {}

    def add(self, single: Group, after: Sequence[str]) -> None:
        """Put a check into a round."""
        check = single.checks[0]
        earlier = {self.home[id] for id in after}
        own = self.alike.setdefault((single.kind.id, single.zone, single.setting), [])
        number = next((n for n in own if self._fits(n, single, earlier)), None)
        if number is None:
            number = len(self.groups)
            self.groups.append(single)
            own.append(number)
        else:
            _take(self._at(number), single)
        self.home[check.id] = number
        more = 0
        for other in earlier:
            if other != number:
                more |= (1 << other) | self._at(other).before
        self._comes_after(number, more)

    def _at(self, number: int) -> Group:
        group = self.groups[number]
        assert group is not None
        return group

    def _fits(self, number: int, single: Group, earlier: set[int]) -> bool:
        bit = 1 << number
        if any(self._at(other).before & bit for other in earlier if other != number):
            return False
        return _goes_together(self._at(number), single)

    def _comes_after(self, number: int, more: int) -> None:
        group = self._at(number)
        more &= ~group.before
        if more:
            group.before |= more
            bit = 1 << number
            for other in self.groups:
                if other is not None and other.before & bit:
                    other.before |= more

    def join_rounds(self) -> None:
        """Make one round of two where nothing has to come between them."""
        for numbers in self.alike.values():
            for first in list(numbers):
                for second in numbers[numbers.index(first) + 1 :] if first in numbers else ():
                    if self._may_join(first, second):
                        self._join(first, second)
                        numbers.remove(second)

    def _may_join(self, first: int, second: int) -> bool:
        one, other = self._at(first), self._at(second)
        if not _goes_together(one, other):
            return False
        between = (1 << first, 1 << second)
        for number, group in enumerate(self.groups):
            if group is None or number in (first, second):
                continue
            if (group.before & between[0] and other.before >> number & 1) or (
                group.before & between[1] and one.before >> number & 1
            ):
                return False
        return True

    def _join(self, first: int, second: int) -> None:
        one, other = self._at(first), self._at(second)
        _take(one, other)
        self.groups[second] = None
        self.home.update((check.id, first) for check in other.checks)
        ours = ~((1 << first) | (1 << second))
        for group in self.groups:
            if group is not None and group.before >> second & 1:
                group.before = (group.before & ~(1 << second)) | (1 << first)
        one.before &= ours
        self._comes_after(first, other.before & ours)
        for group in self.groups:
            if group is not None and group is not one and group.before >> first & 1:
                group.before |= one.before

    def in_order(self) -> list[Group]:
        """Return the rounds, each after what comes before it."""
        left = [one for one in self.groups if one is not None]
        return sorted(left, key=lambda one: (one.before.bit_count(), one.kind.order))


def _goes_together(one: Group, other: Group) -> bool:
    """Tell whether two rounds of one place and setting aren't too long together, and whether the same states serve.

    A round of one and the same work may leave each thing in another state than it needs: of several tanks each is
    emptied. Other work is never put beside it, for nobody would know in which state it is done.
    """
    alike = one.rules.keys() == other.rules.keys()
    if one.minutes_with(other) > one.kind.longest:
        return False
    if one.slow != other.slow and not (alike and one.slow and other.slow):
        return False
    both = merged(one.needs, other.needs)
    if both is None:
        return False
    if any(one.leaves.get(subject, state) != state for subject, state in other.leaves.items()):
        return False
    return all(
        state in both.get(subject, {state}) or (alike and one.needing[subject] + other.needing[subject] == 1)
        for subject, state in (*one.leaves.items(), *other.leaves.items())
    )


def _take(one: Group, other: Group) -> None:
    """Put the checks of a round into another."""
    one.needs = merged(one.needs, other.needs) or one.needs
    one.slow |= other.slow
    one.leaves.update(other.leaves)
    one.needing += other.needing
    one.checks += other.checks
    one.kinds.update(other.kinds)
    for rule, once in other.rules.items():
        one.rules[rule] = max(once, one.rules.get(rule, 0.0))
    one.each += other.each


def rounds_of(grouped: Grouped, kept: Collection[PlannedCheck]) -> tuple[Round, ...]:
    """Return the rounds with those of their checks that are kept, numbered from 1 in an order that may be worked.

    For each rule everything is set up once, in the first of its rounds.
    """
    by_id = {check.id: check for check in kept}
    set_up: set[str] = set()
    rounds: list[Round] = []
    for group in grouped.groups:
        checks = [by_id[check.id] for check in group.checks if check.id in by_id]
        if checks:
            rounds.append(_round(group, checks, set_up, grouped, len(rounds) + 1))
            set_up.update(check.rule for check in checks)
    return tuple(rounds)


def _round(
    group: Group, checks: Sequence[PlannedCheck], set_up: Collection[str], grouped: Grouped, number: int
) -> Round:
    kinds, groups = grouped.kinds, grouped.groups
    once = sum({kind.id: kind.once for kind in map(kinds.work, checks)}.values())
    course = course_of(checks, once, set_up, kinds.hands)
    earlier = {grouped.home[id] for check in checks for id in check.after if id in grouped.home}
    return Round(
        id=group.id,
        number=number,
        kind=group.kind.id,
        title=_title(group),
        zone=group.zone,
        zones=_once_each(check.zone for check in checks if check.zone),
        setting=checks[0].setting,
        states=_once_each(text for check in checks for text in check.needs),
        leaves=_once_each(text for check in checks for text in check.leaves),
        minutes=course.minutes,
        wait=course.wait,
        finish=course.finish,
        finishing=course.finishing,
        people=1 + len(course.helpers),
        helpers=tuple(Help(after=start, minutes=minutes) for start, minutes in course.helpers),
        cautions=_once_each(name for check in checks for name in check.cautions),
        instruments=_once_each(name for check in checks for name in check.instruments),
        wets=_once_each(check.wets for check in checks if check.wets),
        after=tuple(groups[one].id for one in sorted(earlier) if groups[one] is not group),
        checks=tuple(check.id for check in checks),
    )


def _title(group: Group) -> str:
    if group.zone:
        return f"{group.kind.title}: {group.zone}"
    return f"{group.kind.title}: all over the boat" if group.kind.by_zone else group.kind.title


def _once_each(texts: Iterator[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))


def _ids(groups: Sequence[Group]) -> list[str]:
    """Return an id for each round: kind and place, and as much of setting, states and first rule as tells it apart."""
    ids = [f"{group.kind.id}@{slug(group.zone) if group.zone else 'boat'}" for group in groups]
    parts: list[Callable[[Group], str]] = [
        lambda group: group.setting,
        lambda group: (
            "+".join(slug(text) for text in sorted({t for c in group.checks for t in c.needs})) or "as-she-is"
        ),
        lambda group: group.checks[0].id.partition("@")[0],
        lambda group: group.checks[0].id.partition("@")[2],
    ]
    for part in parts:
        twice = {id for id in ids if ids.count(id) > 1}
        ids = [f"{id}/{part(group)}" if id in twice else id for id, group in zip(ids, groups, strict=True)]
    return ids
