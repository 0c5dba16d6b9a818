"""Causes: what several snags on several hulls come from, and whether it was shown on a hull to be gone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from plangen.assess.model import Assessment
from plangen.series.model import Cause, LinkedSnag

_PASSING = ("pass", "leaning-pass", "recorded")
Standing = Literal["open", "proved", "not-proved"]


@dataclass
class _Linked:
    """What is known of one cause so far."""

    text: str = ""
    snags: list[LinkedSnag] = field(default_factory=list)
    checks: dict[str, None] = field(default_factory=dict)
    claims: dict[str, None] = field(default_factory=dict)


class CauseBook:
    """The causes that the snags of the hulls added so far name."""

    def __init__(self) -> None:
        self._causes: dict[str, _Linked] = {}

    def add(self, assessment: Assessment) -> None:
        """Add the snags of a hull that name a cause."""
        beside = {check.id for check in assessment.also_found}
        for snag in assessment.snags:
            if snag.cause is None:
                continue
            linked = self._causes.setdefault(snag.cause, _Linked())
            linked.text = linked.text or snag.cause_text or ""
            linked.snags.append(LinkedSnag(assessment.boat, snag.check, snag.title, snag.state))
            if snag.check not in beside:
                linked.checks[snag.check] = None
            if snag.proved_on:
                linked.claims[snag.proved_on] = None

    def causes(self, hulls: Sequence[str], checks: Mapping[str, ChecksOnHulls]) -> tuple[Cause, ...]:
        """Return each cause with its snags, those that are not proved gone first."""
        places = {_folded(name): number for number, name in enumerate(hulls)}
        found = [self._judged(id, linked, places, hulls, checks) for id, linked in self._causes.items()]
        return tuple(
            sorted(found, key=lambda cause: (cause.standing == "proved", -len(cause.snags), cause.id))
        )

    def _judged(
        self,
        id: str,
        linked: _Linked,
        places: Mapping[str, int],
        hulls: Sequence[str],
        checks: Mapping[str, ChecksOnHulls],
    ) -> Cause:
        claimed: str | None = None
        standing, why = _OPEN
        for claim in linked.claims:
            claimed = claim
            number = places.get(_folded(claim))
            standing, why = (
                ("not-proved", f"{claim} isn't among these hulls")
                if number is None
                else _proof(hulls[number], number, linked, checks)
            )
            if standing == "proved":
                break
        return Cause(id, linked.text, tuple(linked.snags), claimed, standing, why)


_OPEN: tuple[Standing, str] = ("open", "no hull is named on which it was proved gone (proved_on)")


@dataclass
class ChecksOnHulls:
    """On which hulls a check is asked, and on which it passes as she stands: a bit for each hull."""

    asked: int = 0
    passing: int = 0


def _proof(
    hull: str, number: int, linked: _Linked, checks: Mapping[str, ChecksOnHulls]
) -> tuple[Standing, str]:
    bit = 1 << number
    still = [snag for snag in linked.snags if snag.hull == hull and snag.state in ("open", "disputed")]
    if still:
        return "not-proved", f"its snag is still open on {hull}: {still[0].title}"
    asked = [id for id in linked.checks if id in checks and checks[id].asked & bit]
    if linked.checks and not asked:
        return "not-proved", f"none of its checks is in the plan of {hull}"
    failing = [id for id in asked if not checks[id].passing & bit]
    if failing:
        return "not-proved", f"{failing[0]} doesn't pass on {hull} yet"
    if not asked:
        return "proved", f"said to be gone on {hull}; no check covers it"
    return "proved", f"passes on {hull}: {', '.join(asked)}"


def passes(verdict: str) -> bool:
    """Tell whether a verdict counts as passed."""
    return verdict in _PASSING


def _folded(name: str) -> str:
    return " ".join(name.casefold().split())
