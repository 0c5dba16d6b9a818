"""What has happened to a used boat."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import Count, Duration, SpecModel, Text, listed, told

Year = Annotated[int, Field(ge=1850, le=2100)]


class History(SpecModel):
    """What has happened to her since she was built, as the seller or her papers tell it."""

    grounded: bool | None = told("has been aground, or has struck something")
    flooded: bool | None = told("has been flooded or sunk")
    fire: bool | None = told("has had a fire")
    lightning: bool | None = told("has been struck by lightning, herself or close by")
    collision: bool | None = told("has been in a collision, or fell over ashore")
    written_off: bool | None = told("was written off by an insurer")
    chartered: bool | None = told("has been let for hire")
    repowered: Year | datetime.date | None = told("year or date when the engine was replaced", "2019")
    modified: bool | None = told(
        "has been altered from the builder's drawings: keel, rig, tanks, hull openings"
    )
    osmosis_treated: Year | None = told("year in which the bottom was treated for blisters", "2015")
    laid_up: Duration | None = told("time that she has lain unused", "18 months", ("0 days", "40 years"))
    owners: Count | None = told("owners so far", "2")
    papers_missing: tuple[
        Literal["title", "builder-certificate", "conformity", "tax", "registration", "owners-manual", "service-records", "rig-invoices"],
        ...,
    ] = listed("papers that can't be produced")  # fmt: skip
    notes: Text | None = told("anything else")
