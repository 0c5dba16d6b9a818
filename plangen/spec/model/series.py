"""Hulls of a series: which are tried in full, and which checks are routine."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import Name, SpecModel, listed, told


class Routine(SpecModel):
    """What every hull of a series is checked for: a check that fits any of these."""

    grades: tuple[Literal["stop", "before-handover", "by-date", "remark"], ...] = listed(
        "grades whose checks are routine, as stop"
    )
    priority: Annotated[int, Field(ge=1, le=3)] | None = told(
        "checks of this priority and of those above it are routine", "1"
    )
    systems: tuple[Name, ...] = listed("systems whose checks are routine, as engines", "[engines]")
    settings: tuple[Name, ...] = listed("settings whose checks are routine, as under-way", "[under-way]")
    rules: tuple[Name, ...] = listed("ids of rules whose checks are routine")


class Series(SpecModel):
    """A series of hulls of one model: the first in full, later ones the routine checks, every so many one in full again."""

    first_hull: Annotated[int, Field(ge=1, le=999999)] = Field(
        description="number of the first hull, which is tried in full"
    )
    full_every: Annotated[int, Field(ge=1, le=1000)] = Field(
        description="every so many hulls one is tried in full again, as 5"
    )
    passes_after_fail: Annotated[int, Field(ge=1, le=50)] = Field(
        default=3,
        description="a check that failed on a hull is done on those after her until so many pass it",
    )
    routine: Routine = Field(
        default=Routine(grades=("stop",), priority=1), description="what every hull is checked for"
    )
