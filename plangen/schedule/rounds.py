"""Checks become rounds: those of one place, setting and set of plant states, so that each place is visited once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from plangen.packs.library import Library
from plangen.packs.values import literal
from plangen.plan.day import Round
from plangen.plan.model import PlannedCheck
from plangen.schedule.plant import Plant, merged
from plangen.spec.names import slug

ANYWHERE = "anywhere"


@dataclass(frozen=True)
class Kind:
    """A kind of round with its times in minutes."""

    id: str
    title: str
    by_zone: bool
    order: int
    once: float
    longest: float
    gathers: bool


@dataclass
class Group:
    """A round that is being put together. `before` holds a bit for every group that comes earlier."""

    kind: Kind
    zone: str | None
    setting: str
    people: int
    needs: dict[str, frozenset[str]]
    leaves: dict[str, str]
    checks: list[PlannedCheck] = field(default_factory=list)
    once: dict[str, float] = field(default_factory=dict)
    each: float = 0.0
    before: int = 0

    @property
    def minutes(self) -> float:
        """Return the work with setting up, once for the round and once for each rule."""
        return self.kind.once + sum(self.once.values()) + self.each

    def minutes_with(self, check: PlannedCheck) -> float:
        """Return the work if one more check belonged to the round."""
        return self.minutes + each_of(check) + max(0.0, check.minutes_once - self.once.get(check.rule, 0.0))


def each_of(check: PlannedCheck) -> float:
    """Return the minutes of a check without setting up."""
    return max(0.0, check.minutes - check.minutes_once)


def kinds_of(library: Library) -> dict[str, Kind]:
    """Return the kinds of rounds of the catalogue."""
    return {
        id: Kind(
            id,
            kind.title,
            kind.place == "zone",
            kind.order,
            _minutes(kind.once),
            _minutes(kind.longest),
            kind.gathers,
        )
        for id, kind in library.rounds.items()
    }


def _minutes(text: str) -> float:
    quantity = literal(text)
    if quantity is None:
        return float(text)
    return float(quantity.to("minute").magnitude)


def kind_finder(library: Library, zone_kinds: Mapping[str, str | None]) -> Callable[[PlannedCheck], str]:
    """Return what finds a check's kind of round: its rule's own, or the first fallback that fits."""

    def find(check: PlannedCheck) -> str:
        if check.round is not None:
            return check.round
        zone_kind = zone_kinds.get(check.zone) if check.zone else None
        for fallback in library.round_fallbacks:
            if fallback.setting in (None, check.setting) and fallback.zone_kind in (None, zone_kind):
                return fallback.round
        return next(iter(library.rounds))

    return find


def group_checks(
    checks: Sequence[PlannedCheck],
    kind_of: Callable[[PlannedCheck], str],
    kinds: Mapping[str, Kind],
    plant: Plant,
    library: Library,
) -> list[Group]:
    """Return the rounds of checks that stand in an order of work.

    A check joins the first round of its kind, place, setting and number of people whose states serve it too,
    that isn't too long and that doesn't then have to come both before and after another.
    """
    groups: list[Group] = []
    home: dict[str, int] = {}
    alike: dict[tuple[str, str | None, str, int], list[int]] = {}
    for check in checks:
        kind = kinds[kind_of(check)]
        zone = check.zone if kind.by_zone else None
        setting = ANYWHERE if library.settings[check.setting].anywhere else check.setting
        needs, leaves = plant.needs(check.needs), plant.leaves(check.leaves)
        earlier = {home[id] for id in check.after if id in home}
        key = (kind.id, zone, setting, check.people)
        number = next(
            (n for n in alike.get(key, ()) if _fits(groups, n, check, needs, leaves, earlier)), None
        )
        if number is None:
            number = len(groups)
            groups.append(Group(kind, zone, setting, check.people, {}, {}))
            alike.setdefault(key, []).append(number)
        _join(groups, number, check, needs, leaves, earlier)
        home[check.id] = number
    return groups


def _fits(
    groups: Sequence[Group],
    number: int,
    check: PlannedCheck,
    needs: Mapping[str, frozenset[str]],
    leaves: Mapping[str, str],
    earlier: set[int],
) -> bool:
    group = groups[number]
    bit = 1 << number
    if any(groups[other].before & bit for other in earlier if other != number):
        return False
    if group.minutes_with(check) > group.kind.longest:
        return False
    both = merged(group.needs, needs)
    if both is None:
        return False
    if any(
        state not in both.get(subject, {state}) for subject, state in (*group.leaves.items(), *leaves.items())
    ):
        return False
    return all(leaves.get(subject, state) == state for subject, state in group.leaves.items())


def _join(
    groups: list[Group],
    number: int,
    check: PlannedCheck,
    needs: Mapping[str, frozenset[str]],
    leaves: Mapping[str, str],
    earlier: set[int],
) -> None:
    group = groups[number]
    group.needs = merged(group.needs, needs) or dict(needs)
    group.leaves.update(leaves)
    group.checks.append(check)
    group.once[check.rule] = max(check.minutes_once, group.once.get(check.rule, 0.0))
    group.each += each_of(check)
    more = 0
    for other in earlier:
        if other != number:
            more |= (1 << other) | groups[other].before
    more &= ~group.before
    if more:
        group.before |= more
        bit = 1 << number
        for other_group in groups:
            if other_group.before & bit:
                other_group.before |= more


def rounds_of(groups: Sequence[Group], numbers: Sequence[int]) -> tuple[Round, ...]:
    """Return the rounds in the order of the numbers, numbered from 1, each with an id that says what it is."""
    ids = _ids(groups)
    home = {check.id: index for index, group in enumerate(groups) for check in group.checks}
    rounds = []
    for position, index in enumerate(numbers, start=1):
        group = groups[index]
        earlier = {home[id] for check in group.checks for id in check.after if id in home} - {index}
        minutes, wait, finish = times_of(group)
        rounds.append(
            Round(
                id=ids[index],
                number=position,
                kind=group.kind.id,
                title=f"{group.kind.title}: {group.zone}" if group.zone else group.kind.title,
                zone=group.zone,
                zones=tuple(dict.fromkeys(check.zone for check in group.checks if check.zone)),
                setting=group.checks[0].setting,
                states=tuple(dict.fromkeys(text for check in group.checks for text in check.needs)),
                leaves=tuple(dict.fromkeys(text for check in group.checks for text in check.leaves)),
                minutes=minutes,
                wait=wait,
                finish=finish,
                people=group.people,
                cautions=tuple(dict.fromkeys(name for check in group.checks for name in check.cautions)),
                instruments=tuple(
                    dict.fromkeys(name for check in group.checks for name in check.instruments)
                ),
                wets=tuple(dict.fromkeys(check.wets for check in group.checks if check.wets)),
                after=tuple(ids[number] for number in sorted(earlier)),
                checks=tuple(check.id for check in group.checks),
            )
        )
    return tuple(rounds)


def times_of(group: Group) -> tuple[float, float, float]:
    """Return minutes of work, of waiting that is left when the work is done, and of finishing after it."""
    work = group.minutes
    long = [check for check in group.checks if check.minutes_wait > work - check.minutes]
    if not long:
        return round(work, 1), 0.0, 0.0
    finish = min(sum(max(each_of(check), 1.0) for check in long), max(work - group.kind.once, 1.0))
    first = max(work - finish, group.kind.once)
    wait = max(check.minutes_wait for check in long) - max(
        0.0, first - group.kind.once - max(check.minutes_once for check in long)
    )
    return round(first, 1), round(max(wait, 0.0), 1), round(finish, 1)


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
