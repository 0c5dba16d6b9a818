"""What a findings file holds."""

from __future__ import annotations

import datetime
import re
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field
from pydantic_core import PydanticCustomError

from plangen.findings.days import day_of
from plangen.packs.grades import Grade
from plangen.plan.base import PlanModel
from plangen.plan.house import Urgency
from plangen.plan.model import PlannedCheck

#: What may stand for one reading: a number or text as typed, yes or no, a list for a series.
Typed = str | int | float | bool | datetime.date | list[Any] | None

SettlementWay = Literal["mended-before-handover", "mended-by-date", "price-reduced", "accepted", "disputed"]


def _as_tuple(value: object) -> object:
    if value is None:
        return ()
    return value if isinstance(value, (list, tuple)) else (value,)


def _as_texts(value: object) -> object:
    texts = _as_tuple(value)
    return tuple(str(one) for one in texts) if isinstance(texts, (list, tuple)) else texts


def _as_mapping(value: object) -> object:
    return {} if value is None else value


def _day(value: object) -> object:
    return (day_of(value) or value) if isinstance(value, str) else value


#: A day as people write it, where there's one way to read it.
Day = Annotated[datetime.date, BeforeValidator(_day)]


class Attempt(PlanModel):
    """What one person found on one day for one check."""

    found: Annotated[dict[str, Typed], BeforeValidator(_as_mapping)] = {}
    by: str | None = None
    when: Day | None = None
    with_: Annotated[dict[str, str], BeforeValidator(_as_mapping)] = Field(default={}, alias="with")
    note: str | None = None
    photos: Annotated[tuple[str, ...], BeforeValidator(_as_texts)] = ()
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


_AMOUNT = re.compile(r"[0-9][0-9 ]*(\.[0-9]{2})? [A-Z]{3}")


def _amount(value: object) -> object:
    if value is None or (isinstance(value, str) and _AMOUNT.fullmatch(value)):
        return value
    accepted = "an amount with its currency, such as 1 250.00 EUR"
    raise PydanticCustomError("amount", "{found}", {"found": repr(value), "accepted": accepted})


def _cause_id(value: object) -> object:
    if value is None or (isinstance(value, str) and _CAUSE.fullmatch(value)):
        return value
    accepted = "a short name in small letters and hyphens, such as hose-clamp, the same for every snag that it caused"
    raise PydanticCustomError("cause", "{found}", {"found": repr(value), "accepted": accepted})


_CAUSE = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class Settlement(PlanModel):
    """How a snag is resolved, as the user wrote it.

    `cause` is the short name of what caused it, the same on every hull, and `cause_text` says it in words;
    `proved_on` names the hull on which the cause was shown to be gone. `urgency` is that of a survey's recommendation,
    in place of the one that the grade gives.
    """

    settlement: SettlementWay | None = None
    urgency: Urgency | None = None
    who: str | None = None
    due: Day | None = None
    sum: Annotated[str | None, BeforeValidator(_amount)] = None
    note: str | None = None
    cause: Annotated[str | None, BeforeValidator(_cause_id)] = None
    cause_text: str | None = None
    proved_on: str | None = None


def _mended(value: object) -> object:
    """Return a plain yes as such, a plain no as nothing, and anything else as a day."""
    if value is True or (isinstance(value, str) and value.strip().casefold() in ("yes", "y", "true")):
        return True
    if value is False or (isinstance(value, str) and value.strip().casefold() in ("no", "n", "false")):
        return None
    return _day(value)


Mended = Annotated[datetime.date | Literal[True] | None, BeforeValidator(_mended)]


class AlsoFound(Settlement):
    """Something that belongs to no check: what and where in her, how grave it is, and how it is resolved.

    `mended` is the day on which it was seen mended, or yes where nobody wrote the day.
    """

    what: str
    place: str | None = None
    grade: Grade | None = None
    photos: Annotated[tuple[str, ...], BeforeValidator(_as_texts)] = ()
    by: str | None = None
    when: Day | None = None
    mended: Mended = None


def _as_words(value: object) -> object:
    """Return text for what YAML reads as something else; a plain no, as a person writes it, is nobody."""
    if value is False or (isinstance(value, str) and value.strip().casefold() in ("no", "nobody", "none")):
        return NOBODY
    return value if value is None or isinstance(value, str) else str(value)


#: What a witness who was invited and didn't come is written as.
NOBODY = "nobody"


class WitnessRecord(PlanModel):
    """Who was invited to witness a stage, and who came; the day may stand beside the name."""

    invited: Annotated[str | None, BeforeValidator(_as_words)] = None
    came: Annotated[str | None, BeforeValidator(_as_words)] = None


class SurveyRecord(PlanModel):
    """What a surveyor writes of the survey as a whole: how she lay, in which conditions, what wasn't reached and why.

    `scope` says what was agreed where the spec doesn't, `opinion` is the surveyor's own conclusion.
    """

    lying: Literal["afloat", "ashore", "afloat and ashore"] | None = None
    conditions: str | None = None
    access: Annotated[tuple[str, ...], BeforeValidator(_as_texts)] = ()
    scope: Annotated[tuple[str, ...], BeforeValidator(_as_texts)] = ()
    opinion: str | None = None


class StageRecord(PlanModel):
    """When and by whom a stage was released."""

    released: Day | None = None
    by: Annotated[str | None, BeforeValidator(_as_words)] = None
    witness: Annotated[WitnessRecord, BeforeValidator(_as_mapping)] = WitnessRecord()
    note: str | None = None


class Then(PlanModel):
    """What was expected of the first so many attempts at a check, before the plan expected something else or nothing."""

    attempts: int
    check: PlannedCheck

    def plain(self) -> dict[str, Any]:
        """Return the same as plain values, empty ones left out."""
        return self.model_dump(mode="python", exclude_defaults=True)


class Findings(PlanModel):
    """A findings file: attempts and settlements by check, readings by their ids, and what no check asks for any more.

    A number without a unit is in that of `units`. `expected_then` holds what was expected of attempts whose
    check or reading is gone or expects something else by now; `remarks` are what filled sheets say beside the
    checks, one line each.
    """

    boat: str
    plan: str
    units: str | None = None
    checks: dict[str, tuple[Attempt, ...]] = {}
    snags: dict[str, Settlement] = {}
    apart: dict[str, tuple[Attempt, ...]] = {}
    snags_apart: dict[str, Settlement] = {}
    expected_then: dict[str, tuple[Then, ...]] = {}
    second_look: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    also_found: tuple[AlsoFound, ...] = ()
    survey: SurveyRecord | None = None
    stages: dict[str, StageRecord] = {}

    def attempts(self, check: str) -> tuple[Attempt, ...]:
        """Return the attempts at a check in which something was typed."""
        return tuple(attempt for attempt in self.checks.get(check, ()) if not attempt.is_blank)
