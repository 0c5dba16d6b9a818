"""Stages of building and trying a hull, with their hold and witness points."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from plangen.spec.model.base import Name, SpecModel, Text, listed, told


class Stage(SpecModel):
    """A stretch of the work whose checks are done before the next one begins.

    A check belongs to the stage that names its rule; where none does, to the one that names its setting; else to the
    one that names its system; else to the stage that names nothing, which takes the rest.
    """

    id: Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=40)] = Field(
        description="short name for findings and files, as fit-out; it stays the same"
    )
    title: Text = Field(description="what is printed, as Fit-out complete")
    hold: Text | None = told("hold point: who releases the stage; until then later stages are closed")
    witness: Text | None = told("witness point: who is invited; work goes on if nobody comes")
    rules: tuple[Name, ...] = listed("ids of rules whose checks belong here")
    settings: tuple[Name, ...] = listed("settings whose checks belong here, as under-way", "[under-way]")
    systems: tuple[Name, ...] = listed("systems whose checks belong here, as engines", "[engines]")
