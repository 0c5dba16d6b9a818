"""The numbered issue of a model or an option, and from which one a hull is drafted."""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import Field

from plangen.spec.model.base import Name, SpecModel, Text, told


class Issue(SpecModel):
    """Which issue of a model or an option a spec is, and from which hull on it applies.

    `replaces` names the file with the issue before, which stays as it is: hulls before `from_hull`, and those that say so
    under `drafted_from`, are drafted from that one.
    """

    number: Annotated[int, Field(ge=1, le=9999)] = Field(description="number of the issue, counted from 1")
    date: datetime.date | None = told("day of the issue, as 2027-05-14")
    note: Text | None = told("what changed and why, in a line")
    from_hull: Annotated[int, Field(ge=1, le=999999)] | None = told(
        "number of the first hull to which it applies", "103"
    )
    replaces: Name | None = told("spec file with the issue before, as model-1.yaml")
