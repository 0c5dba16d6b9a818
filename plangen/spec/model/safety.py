"""Alarms, fire protection and safety gear."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Count,
    Equipment,
    Mass,
    Name,
    Singular,
    SpecModel,
    Text,
    Voltage,
    ZoneName,
    listed,
    told,
    yes_or_no,
)


class Alarm(Equipment):
    """One alarm or detector."""

    kind: Literal[
        "smoke",
        "carbon-monoxide",
        "gas",
        "heat",
        "high-water",
        "engine",
        "intruder",
        "low-voltage",
        "shore-power-lost",
        "man-overboard",
        "anchor",
        "petrol-vapour",
        "tank",
    ] = Field(description="kind")
    expires: datetime.date | None = told("end-of-life date on the detector")
    interconnected: bool = yes_or_no("sounds together with others")
    set_voltage: Voltage | None = told(
        "voltage at which a low-voltage alarm sounds", "11.8 V", ("3 V", "700 V")
    )
    remote: bool = yes_or_no("also reports to a telephone ashore")


class Extinguisher(Equipment):
    """One portable extinguisher."""

    rating: Text | None = told("rating on the label, as 5A/34B or 5-B:C")
    agent: Literal["powder", "foam", "co2", "water-mist", "clean-agent"] | None = told("agent")
    mass: Mass | None = told("mass of agent", "2 kg", ("0.2 kg", "60 kg"))
    gross_mass: Mass | None = told("mass when full, stamped on it", "3.4 kg", ("0.3 kg", "150 kg"))
    refillable: bool | None = told("can be serviced and filled again")
    made: datetime.date | None = told("date of make")
    serviced: datetime.date | None = told("date of the last service")
    expires: datetime.date | None = told("expiry or next service date")


class FixedSystem(Equipment):
    """One fixed extinguishing system."""

    agent: Literal["clean-agent", "co2", "aerosol", "foam", "powder"] | None = told("agent")
    protects: ZoneName | None = told("the space that it protects")
    automatic: bool = yes_or_no("releases by itself")
    shuts_down_engines: bool = yes_or_no("stops engines and fans before release")
    gross_mass: Mass | None = told("mass of the full cylinder, stamped on it", "8 kg", ("0.3 kg", "500 kg"))
    expires: datetime.date | None = told("next service date")


class FireProtection(SpecModel):
    """Fire protection."""

    extinguishers: Annotated[tuple[Extinguisher, ...], Singular("extinguisher")] = listed(
        "portable extinguishers"
    )
    fixed_systems: Annotated[tuple[FixedSystem, ...], Singular("fixed_system")] = listed("fixed systems")
    blankets: Count | None = told("fire blankets", "1")
    fire_port: bool = yes_or_no("fire port into the engine space")


class GearAboard(SpecModel):
    """Safety gear that is aboard already."""

    item: Name = Field(description="id of the item in the gear catalogue")
    quantity: Annotated[int, Field(ge=0, le=1000)] = Field(default=1, description="how many")
    expires: datetime.date | None = told("expiry date")
    serviced: datetime.date | None = told("date of the last service")
    approval: Text | None = told("approval mark on it")
    made: datetime.date | None = told("date of make")
    persons: Count | None = told("persons that a liferaft is for", "8")
    cylinder_mass: Mass | None = told(
        "gross mass stamped on a lifejacket's gas cylinder", "150 g", ("20 g", "5 kg")
    )
