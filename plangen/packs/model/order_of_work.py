"""Where and in which state a check is done, how that is changed, what makes a round, and what a check is worth."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from plangen.packs.base import ConditionField, Identifier, IdList, PackModel, TextField, TextList, ValueField
from plangen.packs.grades import Grade


class Setting(PackModel):
    """Where the boat must be for a check: `at` names the setting in which she lies for it, if not its own.

    What can be done `anywhere` needs no move; `away` counts as time of the sea trial. `crew` is how many of the other
    side are aboard for it and lend a hand, so that so many fewer people of the trial are needed.
    """

    title: TextField
    order: int
    code: Annotated[str, Field(pattern=r"^[A-Z]{1,2}$")]
    at: Identifier | None = None
    anywhere: bool = False
    away: bool = False
    crew: Annotated[int, Field(ge=0, le=9)] = 0
    light: Literal["any", "day", "dark"] = "any"
    asks_for: IdList = ()


class Move(PackModel):
    """How she gets from one setting to another; `makes` are the plant states that come about with it."""

    from_: Identifier = Field(alias="from")
    to: Identifier
    minutes: Annotated[float, Field(ge=0, le=600)]
    people: Annotated[int, Field(ge=0, le=12)] = 1
    do: TextField
    makes: TextList = ()
    caution: Identifier | None = None


class StateChange(PackModel):
    """How something aboard is brought into a state: work, and waiting that runs by itself."""

    to: Identifier
    from_: IdList = Field(default=(), alias="from")
    minutes: Annotated[float, Field(ge=0, le=600)]
    wait: Annotated[float, Field(ge=0, le=1440)] = 0
    people: Annotated[int, Field(ge=0, le=12)] = 1
    do: TextField
    caution: Identifier | None = None


class PlantState(PackModel):
    """Something aboard that checks need in a certain state, the states that it can have, and how it changes.

    `served_by` says which other states do as well; `all_of` names the plant state whose items are meant
    together; `at_start` is asked for before the trial begins, and left out where whatever is needed first is.
    """

    states: IdList
    per: str | None = None
    all_of: Identifier | None = None
    at_start: Identifier | None = None
    served_by: dict[Identifier, IdList] = {}
    changes: tuple[StateChange, ...] = ()


class RoundKind(PackModel):
    """A kind of round: the checks that one visit to a place takes together.

    A kind that `gathers` comes after others without needing that they were done.
    """

    title: TextField
    place: Literal["boat", "zone"]
    order: int
    once: ValueField = "0"
    longest: ValueField = "65 min"
    gathers: bool = False


class RoundFallback(PackModel):
    """The kind of round of a check whose rule names none: the first entry that fits."""

    setting: Identifier | None = None
    zone_kind: str | None = None
    round: Identifier


class Exclusion(PackModel):
    """Checks with one of these cautions are done by themselves: in their zone, or aboard altogether."""

    cautions: IdList
    beside: IdList = ()
    where: Literal["zone", "boat"]
    why: TextField


class Weight(PackModel):
    """A factor of risk and the reason for it."""

    times: Annotated[float, Field(gt=0, le=100)]
    why: TextField


class Likelihood(Weight):
    """A factor by which a fault is likelier or rarer, where all that is named fits the check.

    `when` is a condition on the spec, with the item bound where `for_each` names its list.
    """

    systems: IdList = ()
    settings: IdList = ()
    rounds: IdList = ()
    zone_kinds: TextList = ()
    for_each: str | None = None
    when: ConditionField | None = None


class RiskRules(PackModel):
    """How much risk a check takes away: consequence by grade and priority, times likelihood."""

    grades: dict[Grade, Weight]
    priorities: dict[int, Weight]
    likelihood: tuple[Likelihood, ...] = ()


class UsualDay(PackModel):
    """What is taken for the day's work where the spec doesn't say.

    `in_hand` is the share of it that only what decides may use.
    """

    start: Annotated[str, Field(pattern=r"^[0-2][0-9]:[0-5][0-9]$")]
    hours: Annotated[float, Field(gt=0, le=18)]
    people: Annotated[int, Field(ge=1, le=12)]
    meal: Annotated[float, Field(ge=0, le=120)] = 30
    meal_after: Annotated[float, Field(gt=0, le=12)] = 5
    bilges_again: Annotated[float, Field(ge=0, le=60)] = 5
    in_hand: Annotated[float, Field(ge=0, le=0.5)] = 0.0
    why: TextField


class Scope(PackModel):
    """Something that has to be agreed before a check that asks for it can be done."""

    title: TextField
    agreed: bool
    why: TextField
