"""What has to be brought: the fewest instruments that are good enough for every check, and how much is used up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import combinations
from math import ceil

from plangen.packs.library import Library
from plangen.packs.model import Instrument
from plangen.packs.uncertainty_ratio import fixed_error
from plangen.plan.day import Round, Session
from plangen.plan.model import KitItem, KitNeed, PlannedCheck

_KINDS = ("instrument", "tool", "consumable", "protection")
#: More than so many that may stand in for one another are merged one by one and not all ways tried.
_TRIED = 10


def kit_of(checks: Sequence[PlannedCheck], library: Library) -> tuple[KitItem, ...]:
    """Return the instruments, tools and consumables that the checks name, and which of them needn't be brought."""
    needed = Counter(name for check in checks for name in check.instruments)
    instead = merged(needed, library.instruments)
    items = [
        KitItem(
            id=name, title=entry.title, kind=entry.kind, measures=entry.measures, range=entry.range,
            accuracy=accuracy_text(entry),
            accuracy_fixed=fixed_error(entry, entry.unit) if entry.accuracy is not None else None,
            accuracy_percent=entry.accuracy_percent, unit=entry.unit, served_by=instead.get(name),
            quantity=_quantity(entry, count, 1), counted=entry.counted, checks=count,
        )
        for name, count in needed.items()
        for entry in [library.instruments[name]]
    ]  # fmt: skip
    return tuple(sorted(items, key=lambda item: (_KINDS.index(item.kind), item.title)))


def merged(names: Collection[str], instruments: Mapping[str, Instrument]) -> dict[str, str]:
    """Return for each that needn't be brought what is brought in its place, so that the fewest are.

    >>> meter, finer = Instrument(title="meter"), Instrument(title="finer meter", serves=("meter",))
    >>> merged(["meter", "finer"], {"meter": meter, "finer": finer})
    {'meter': 'finer'}
    """
    covers = {name: frozenset({name, *_served(name, instruments)} & set(names)) for name in sorted(names)}
    instead: dict[str, str] = {}
    for group in _together(covers):
        kept = _fewest(group, covers)
        for name in group:
            if name not in kept:
                instead[name] = next(one for one in kept if name in covers[one])
    return instead


def _served(name: str, instruments: Mapping[str, Instrument]) -> set[str]:
    found: set[str] = set()
    heap = list(instruments[name].serves)
    while heap:
        other = heap.pop()
        if other not in found and other in instruments:
            found.add(other)
            heap += instruments[other].serves
    return found


def _together(covers: Mapping[str, frozenset[str]]) -> Iterable[tuple[str, ...]]:
    """Yield the sets of those that stand in for one another."""
    left = dict.fromkeys(covers)
    while left:
        group, heap = set[str](), [next(iter(left))]
        while heap:
            name = heap.pop()
            if name not in group:
                group.add(name)
                heap += [*covers[name], *(one for one, own in covers.items() if name in own)]
        for name in group:
            del left[name]
        if len(group) > 1:
            yield tuple(sorted(group))


def _fewest(group: Sequence[str], covers: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    if len(group) <= _TRIED:
        for size in range(1, len(group)):
            for some in combinations(group, size):
                if frozenset().union(*(covers[name] for name in some)) >= frozenset(group):
                    return some
        return tuple(group)
    kept = list(group)
    for name in sorted(group, key=lambda one: len(covers[one])):
        rest = [one for one in kept if one != name]
        if frozenset().union(*(covers[one] for one in rest)) >= frozenset(group):
            kept = rest
    return tuple(kept)


def _quantity(entry: Instrument, checks: int, people: int) -> int | None:
    if entry.each_person is not None:
        return entry.each_person * people
    return ceil(entry.each * checks) if entry.each is not None else None


def with_sessions(
    kit: Sequence[KitItem],
    checks: Sequence[PlannedCheck],
    rounds: Sequence[Round],
    sessions: Sequence[Session],
    library: Library,
) -> tuple[KitItem, ...]:
    """Return the kit with what each session needs of it; what is served by another counts for the other."""
    by_id = {check.id: check for check in checks}
    in_round = {one.id: [name for id in one.checks for name in by_id[id].instruments] for one in rounds}
    used = {
        session.id: Counter(name for id in session.rounds for name in in_round.get(id, ()))
        for session in sessions
    }
    people = max((len(session.people) for session in sessions), default=1)
    found = []
    for item in kit:
        entry = library.instruments[item.id]
        names = (item.id, *(other.id for other in kit if other.served_by == item.id))
        needs = [
            KitNeed(
                session=session.id, quantity=_quantity(entry, used[session.id][item.id], len(session.people))
            )
            for session in sessions
            if any(used[session.id][name] for name in names)
        ]
        quantity = _quantity(entry, item.checks, people)
        found.append(item.model_copy(update={"sessions": tuple(needs), "quantity": quantity}))
    return tuple(found)


def accuracy_text(instrument: Instrument) -> str:
    """Write an instrument's accuracy.

    >>> accuracy_text(Instrument(title="x", accuracy="0.02 V", accuracy_percent=0.5))
    '± (0.5 % of reading + 0.02 V)'
    """
    share = f"{instrument.accuracy_percent:g} % of reading" if instrument.accuracy_percent else ""
    fixed = instrument.accuracy if instrument.accuracy not in (None, "0") else ""
    if share and fixed:
        return f"± ({share} + {fixed})"
    return f"± {share or fixed}" if share or fixed else ""
