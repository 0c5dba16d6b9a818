"""Plant states as the timetable sees them: what a check needs and leaves, and how one state becomes another."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from plangen.packs.facts import Facts
from plangen.packs.library import Library
from plangen.packs.model import PlantState

#: What something aboard has to be in: one of several states, by what it is.
Needs = Mapping[str, frozenset[str]]

#: A state that takes so many minutes isn't asked for the sake of another check in the same round.
LONG = 90


@dataclass(frozen=True)
class Change:
    """A step that brings something into a state, or the boat into another place.

    `makes` are the states that come about with it: subject, the states that will do, and the one that is made
    where it's in none of them.
    """

    subject: str
    state: str
    minutes: float
    wait: float
    people: int
    do: str
    caution: str | None
    makes: tuple[tuple[str, frozenset[str], str], ...] = ()

    @property
    def whole(self) -> float:
        """Return the time until the state is reached."""
        return self.minutes + self.wait


class Plant:
    """What aboard of one boat has states."""

    def __init__(self, states: Mapping[str, PlantState], items: Mapping[str, tuple[str, ...]]) -> None:
        self._kinds = {**states}
        self._together = {
            name: items.get(kind.all_of, ()) for name, kind in states.items() if kind.all_of is not None
        }
        for kind, names in items.items():
            self._kinds.update(dict.fromkeys(names, states[kind]))
        self.change = cache(self._change)

    @classmethod
    def of(cls, facts: Facts, library: Library) -> Plant:
        """Return the plant of a boat."""
        items: dict[str, tuple[str, ...]] = {}
        for name, kind in library.plant_states.items():
            if kind.per is not None:
                found = facts.at(kind.per)
                items[name] = tuple(one.name for one in found) if isinstance(found, list) else ()
        return cls(library.plant_states, items)

    def _named(self, text: str) -> tuple[tuple[str, ...], str]:
        subject, _, state = text.rpartition(" ")
        return self._together.get(subject) or (subject,), state

    def needs(self, texts: Iterable[str]) -> dict[str, frozenset[str]]:
        """Return what each thing has to be in, by the texts of a check."""
        needed: dict[str, frozenset[str]] = {}
        for text in texts:
            subjects, state = self._named(text)
            for subject in subjects:
                kind = self._kinds.get(subject)
                serving = kind.served_by.get(state, ()) if kind else ()
                states = frozenset({state, *serving})
                needed[subject] = (needed.get(subject, states) & states) or states
        return needed

    def needs_together(self, checks: Iterable[Iterable[str]]) -> dict[str, frozenset[str]]:
        """Return what several checks of one round need, each with texts of its own."""
        together: dict[str, frozenset[str]] = {}
        for texts in checks:
            together = merged(together, self.needs(texts)) or together
        return together

    def leaves(self, texts: Iterable[str]) -> dict[str, str]:
        """Return what each thing is in afterwards, by the texts of a check."""
        return {
            subject: state
            for text in texts
            for subjects, state in [self._named(text)]
            for subject in subjects
        }

    def at_start(self, subject: str) -> str | None:
        """Return the state that is asked for before the trial begins; nothing where any will do."""
        kind = self._kinds.get(subject)
        return kind.at_start if kind else None

    def slow(self, needs: Needs) -> frozenset[str]:
        """Return the subjects that have to be brought into a state, and for which that takes long.

        >>> Plant({}, {}).slow({"gas": frozenset({"on"})})
        frozenset()
        """
        found = set()
        for subject, states in needs.items():
            start = self.at_start(subject)
            if (
                start is not None
                and start not in states
                and self.change(subject, start, states).whole >= LONG
            ):
                found.add(subject)
        return frozenset(found)

    def makes(self, texts: Iterable[str]) -> tuple[tuple[str, frozenset[str], str], ...]:
        """Return what comes about with a move, by the texts of the catalogue."""
        needed, left = self.needs(texts), self.leaves(texts)
        return tuple((subject, needed[subject], state) for subject, state in left.items())

    def by_itself(self, subject: str, minutes: float) -> str | None:
        """Return the state that something comes into when nobody touches it for so long."""
        kind = self._kinds.get(subject)
        ways = [way for way in kind.changes if not way.people and way.wait <= minutes] if kind else []
        return ways[0].to if ways else None

    def _change(self, subject: str, before: str, states: frozenset[str]) -> Change:
        """Return the quickest way from one state into one of several."""
        kind = self._kinds.get(subject)
        ways = [
            Change(subject, way.to, way.minutes, way.wait, way.people, way.do, way.caution)
            for way in (kind.changes if kind else ())
            if way.to in states and (not way.from_ or before in way.from_)
        ]
        if ways:
            return min(ways, key=lambda way: (way.whole, way.state))
        state = min(states)
        return Change(subject, state, 5.0, 0.0, 1, f"Make {subject} {state}", None)


def merged(one: Needs, other: Needs) -> dict[str, frozenset[str]] | None:
    """Return what serves both, or nothing where something would have to be in two states.

    States that only overlap don't count as the same: what is asked to run isn't asked to stand.

    >>> merged({"gas": frozenset({"on"})}, {"gas": frozenset({"off"})}) is None
    True
    """
    both = dict(one)
    for subject, states in other.items():
        known = both.get(subject, states)
        if not (known <= states or states <= known):
            return None
        both[subject] = known & states
    return both
