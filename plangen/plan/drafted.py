"""A check of the plan together with what its rule looked at."""

from __future__ import annotations

from dataclasses import dataclass

from plangen.packs.facts import Read, Subject
from plangen.packs.model import CheckRule, RulePack
from plangen.plan.model import Expectation, PlannedCheck


@dataclass(frozen=True)
class Drafted:
    """An expectation with what was looked at to reach it."""

    expectation: Expectation
    reads: tuple[Read, ...]


@dataclass(frozen=True)
class DraftedCheck:
    """A check with what its rule looked at, for open questions and for `why`."""

    check: PlannedCheck
    rule: CheckRule
    pack: RulePack
    subject: Subject | None
    condition_reads: tuple[Read, ...]
    readings: tuple[Drafted, ...]
    zones_after_wet: tuple[str, ...] | None
    place: tuple[int, int, int]
