"""What a findings file holds."""

from __future__ import annotations

import datetime
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from plangen.plan.base import PlanModel

#: What may stand for one reading: a number or text as typed, yes or no, a list for a series.
Typed = str | int | float | bool | datetime.date | list[Any] | None

SettlementWay = Literal["mended-before-handover", "mended-by-date", "price-reduced", "accepted", "disputed"]


def _as_tuple(value: object) -> object:
    if value is None:
        return ()
    return value if isinstance(value, (list, tuple)) else (value,)


def _as_mapping(value: object) -> object:
    return {} if value is None else value


class Attempt(PlanModel):
    """What one person found on one day for one check."""

    found: Annotated[dict[str, Typed], BeforeValidator(_as_mapping)] = {}
    by: str | None = None
    when: datetime.date | None = None
    with_: Annotated[dict[str, str], BeforeValidator(_as_mapping)] = Field(default={}, alias="with")
    note: str | None = None
    photos: Annotated[tuple[str, ...], BeforeValidator(_as_tuple)] = ()
    does_not_apply: str | None = None
    beside: int | None = None

    @property
    def is_blank(self) -> bool:
        """Tell whether nothing was typed that says anything about the check."""
        return not self.values and self.note is None and not self.photos and self.does_not_apply is None

    @property
    def values(self) -> dict[str, Typed]:
        """Return the readings that were filled in."""
        return {name: value for name, value in self.found.items() if value not in (None, "", [])}


class Settlement(PlanModel):
    """How a snag is resolved, as the user wrote it."""

    settlement: SettlementWay | None = None
    who: str | None = None
    due: datetime.date | None = None
    sum: str | None = Field(default=None, pattern=r"^[0-9][0-9 ]*(\.[0-9]{2})? [A-Z]{3}$")
    note: str | None = None


class Findings(PlanModel):
    """A findings file: attempts by check, settlements by check, and what no check asks for any more.

    `remarks` are what filled sheets say beside the checks, one line each.
    """

    boat: str
    plan: str
    checks: dict[str, tuple[Attempt, ...]] = {}
    snags: dict[str, Settlement] = {}
    apart: dict[str, tuple[Attempt, ...]] = {}
    second_look: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()

    def attempts(self, check: str) -> tuple[Attempt, ...]:
        """Return the attempts at a check in which something was typed."""
        return tuple(attempt for attempt in self.checks.get(check, ()) if not attempt.is_blank)
