"""Page 1: the answer, the facts that it rests on, the counts, and the sums."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from plangen.assess.handover import DECIDING
from plangen.assess.model import Assessment
from plangen.plan.model import Plan
from plangen.print.report.counts import Count, checks_counted, snags_counted
from plangen.print.report.snags import SnagLine
from plangen.print.report.wording import Fact, fact_of

#: Reasons that find room on page 1, and facts of each of them.
_MOST_REASONS, _MOST_FACTS = 12, 2
_ANSWERS = {"no": "No", "cannot-be-said": "Can’t be said yet", "yes": "Yes"}


@dataclass(frozen=True)
class Reason:
    """A snag that stands in the way, as facts."""

    number: int
    item: str
    facts: tuple[Fact, ...]
    more: int
    note: str
    photos: tuple[str, ...]
    disputed: bool
    in_plan: bool


@dataclass(frozen=True)
class LeftOpen:
    """A check that was done and decides nothing, and why."""

    item: str
    words: str


@dataclass(frozen=True)
class MoneyLine:
    """One line of the sums: its words, and its amount in each currency of the table."""

    words: str
    amounts: tuple[str, ...]
    total: bool = False


@dataclass(frozen=True)
class Front:
    """What page 1 says."""

    answer: str
    reasons: tuple[Reason, ...]
    more_reasons: int
    left_open: tuple[LeftOpen, ...]
    to_do: tuple[tuple[str, int], ...]
    checks: Count
    snags: Count
    currencies: tuple[str, ...]
    money: tuple[MoneyLine, ...]
    to_price: tuple[int, ...]


def front_of(plan: Plan, assessment: Assessment, lines: Sequence[SnagLine]) -> Front:
    """Return what page 1 says of an assessment."""
    standing = [line for line in lines if line.snag.check in assessment.handover.forbidding]
    currencies = _currencies(assessment)
    return Front(
        answer=_ANSWERS[assessment.handover.answer],
        reasons=tuple(_reason(line) for line in standing[:_MOST_REASONS]),
        more_reasons=max(len(standing) - _MOST_REASONS, 0),
        left_open=_left_open(assessment, plan.units),
        to_do=_to_do(plan, assessment),
        checks=checks_counted(assessment),
        snags=snags_counted(assessment),
        currencies=currencies,
        money=_money(assessment, currencies),
        to_price=assessment.money.to_price,
    )


def _reason(line: SnagLine) -> Reason:
    snag = line.snag
    facts = tuple(one.fact for one in line.readings[:_MOST_FACTS]) or (Fact("", snag.title),)
    return Reason(
        number=snag.number,
        item=snag.item,
        facts=facts,
        more=max(len(line.readings) - _MOST_FACTS, 0),
        note=line.note or snag.note or "",
        photos=snag.photos,
        disputed=snag.state == "disputed",
        in_plan=snag.in_plan,
    )


def _left_open(assessment: Assessment, units: str) -> tuple[LeftOpen, ...]:
    """Return the deciding checks that were done and are limited by conditions or unclear, with the facts."""
    found = []
    for check in (*assessment.checks, *assessment.gone):
        if check.grade not in DECIDING or check.verdict not in ("limited", "unclear"):
            continue
        readings = [
            reading
            for attempt in check.attempts[-1:]
            for reading in attempt.readings
            if reading.verdict in ("limited", "unclear")
        ]
        said = "; ".join(
            f"{fact_of(reading, units).should}: found {reading.found or '–'}, {reading.reason}"
            for reading in readings[:2]
        )
        found.append(LeftOpen(check.item, check.disagreement or said or check.title))
    return tuple(found)


def _to_do(plan: Plan, assessment: Assessment) -> tuple[tuple[str, int], ...]:
    """Return how many deciding checks of each system aren't done, the most first."""
    titles = {line.system: line.title for line in plan.summary}
    counted = Counter(
        check.system for check in assessment.checks if check.verdict == "not-done" and check.grade in DECIDING
    )
    return tuple((titles.get(system, system), number) for system, number in counted.most_common())


def _currencies(assessment: Assessment) -> tuple[str, ...]:
    """Return the currencies that come up, the contract's first."""
    money = assessment.money
    own = (money.holdback.rsplit(" ", 1)[1],) if money.holdback else ()
    return tuple(dict.fromkeys((*own, *money.together)))


def _money(assessment: Assessment, currencies: Sequence[str]) -> tuple[MoneyLine, ...]:
    money = assessment.money

    def row(words: str, totals: dict[str, str], total: bool = False) -> MoneyLine:
        return MoneyLine(words, tuple(totals.get(name, "") for name in currencies), total)

    def single(words: str, amount: str) -> MoneyLine:
        number, currency = amount.rsplit(" ", 1)
        return row(words, {currency: number})

    lines = [single("Contract: may be held back", money.holdback)] if money.holdback else []
    if assessment.sums_held_back:
        lines.append(row("Held back for snags still open", assessment.sums_held_back))
    if money.disputed:
        lines.append(row("of this, disputed", money.disputed))
    if money.left_of_holdback:
        lines.append(single("Not used of the contract’s sum", money.left_of_holdback))
    if money.beyond_holdback:
        lines.append(single("More than the contract lets hold back", money.beyond_holdback))
    if assessment.price_reductions:
        lines.append(row("Price reduced by", assessment.price_reductions))
    if money.together:
        lines.append(row("Held back and reduced, together", money.together, total=True))
    return tuple(lines)
