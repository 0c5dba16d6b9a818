"""What both sides sign: the snags with their settlement and sum, and what happens until when."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass

from plangen.assess.model import Snag
from plangen.print.words import SETTLEMENT_SHORT


@dataclass(frozen=True)
class Promise:
    """What one side does until a day: the snags, and the sums that are held back until then."""

    until: str
    who: str
    snags: tuple[int, ...]
    sums: tuple[str, ...]


@dataclass(frozen=True)
class Agreement:
    """The rows of the agreement, the promises in their order of time, and what is still to be agreed."""

    rows: tuple[tuple[Snag, str], ...]
    promises: tuple[Promise, ...]
    unsettled: tuple[int, ...]
    mended: tuple[int, ...]


def agreement_of(snags: Sequence[Snag]) -> Agreement:
    """Return what is to be signed of a snag list."""
    standing = [snag for snag in snags if snag.state != "mended"]
    return Agreement(
        rows=tuple((snag, SETTLEMENT_SHORT.get(snag.settlement or "", "")) for snag in standing),
        promises=_promises([snag for snag in standing if snag.state == "open" and (snag.due or snag.who)]),
        unsettled=tuple(
            snag.number for snag in standing if snag.settlement is None or snag.state == "disputed"
        ),
        mended=tuple(snag.number for snag in snags if snag.state == "mended"),
    )


def _promises(snags: Sequence[Snag]) -> tuple[Promise, ...]:
    """Put together what the same side does until the same day; what has no day comes last."""
    grouped: dict[tuple[str, str], list[Snag]] = {}
    for snag in sorted(snags, key=lambda one: (one.due is None, one.due or "", one.number)):
        grouped.setdefault((snag.due or "", snag.who or ""), []).append(snag)
    return tuple(
        Promise(
            until=_day(due),
            who=who,
            snags=tuple(one.number for one in own),
            sums=tuple(one.sum for one in own if one.sum),
        )
        for (due, who), own in grouped.items()
    )


def _day(due: str) -> str:
    if not due:
        return "no day agreed"
    day = datetime.date.fromisoformat(due)
    return f"{day.day} {day:%B %Y}"
