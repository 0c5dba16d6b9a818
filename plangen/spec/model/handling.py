"""Rig, steering, thrusters, stabilisers and tender."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Angle,
    Area,
    Count,
    Force,
    Item,
    Length,
    Mass,
    Power,
    Pressure,
    RotationalSpeed,
    Singular,
    SpecModel,
    Speed,
    Text,
    Voltage,
    listed,
    told,
    yes_or_no,
)


class Sail(Item):
    """One sail."""

    kind: Literal[
        "mainsail",
        "genoa",
        "jib",
        "staysail",
        "spinnaker",
        "gennaker",
        "code-zero",
        "storm-jib",
        "trysail",
        "mizzen",
    ] = Field(description="kind")
    area: Area | None = told("area")
    furling: bool = yes_or_no("furls")
    reefs: Count | None = told("reefs")
    year: Annotated[int, Field(ge=1900, le=2100)] | None = told("year of make")
    fire_retardant: bool = yes_or_no("treated cloth")


class Winch(Item):
    """One winch."""

    powered: bool = yes_or_no("driven by electricity or hydraulics")
    use: Text | None = told("what it serves")
    working_load: Force | None = told("greatest working load")


class Rig(SpecModel):
    """Masts, standing rigging and sails."""

    masts: Count | None = told("masts")
    kind: Literal["sloop", "cutter", "ketch", "yawl", "schooner", "cat"] | None = told("kind of rig")
    mast_height: Length | None = told("height of the masthead above water")
    mainsail_area: Area | None = told("mainsail area")
    headsail_area: Area | None = told("working headsail area")
    standing_rigging: Literal["wire", "rod", "fibre"] | None = told("standing rigging")
    shroud_diameter: Length | None = told("diameter of the cap shrouds")
    rigging_date: datetime.date | None = told("date when the standing rigging was renewed")
    chainplates_seen: bool = yes_or_no("the chainplates can be seen")
    strand: Literal["1x19", "compact strand"] | None = told("make of the wire")
    design_speed: Speed | None = told("designer's speed under sail in 12 kn of true wind on the beam")
    first_reef_wind: Speed | None = told("true wind for the first reef by the builder's reefing table")
    bow_sprit: bool = yes_or_no("has a bowsprit")
    lightning_protection: bool = yes_or_no("has a lightning conductor to the water")
    lightning_plate: Area | None = told("area of the lightning ground plate")
    sails: Annotated[tuple[Sail, ...], Singular("sail")] = listed("sails")
    winches: Annotated[tuple[Winch, ...], Singular("winch")] = listed("winches")


class Steering(SpecModel):
    """The steering gear."""

    kind: Literal["cable", "hydraulic", "rod", "tiller", "electric"] | None = told("kind")
    stations: Count | None = told("steering stations")
    rudders: Count | None = told("rudders")
    rudder_angle: Angle | None = told("greatest rudder angle to each side")
    emergency_tiller: bool = yes_or_no("has an emergency tiller")
    turns: Annotated[float, Field(gt=0, le=20)] | None = told(
        "turns of the wheel from hard over to hard over"
    )
    joystick: bool = yes_or_no("can be steered and driven by a joystick")


class Thruster(Item):
    """One thruster."""

    place: Literal["bow", "stern"] = Field(default="bow", description="where it is")
    thrust: Force | None = told("rated thrust")
    power: Power | None = told("rated power")
    voltage: Voltage | None = told("voltage")
    drive: Literal["electric", "hydraulic"] | None = told("drive")
    retractable: bool = yes_or_no("can be drawn in")


class Stabiliser(Item):
    """One stabiliser."""

    kind: Literal["fins", "gyro", "tabs", "interceptors"] = Field(description="kind")
    at_rest: bool = yes_or_no("works at anchor")


class Tender(SpecModel):
    """The tender and her outboard."""

    name: Text | None = told("name or marking")
    length: Length | None = told("length")
    mass: Mass | None = told("mass with engine and fuel")
    persons: Count | None = told("persons on her plate")
    outboard_power: Power | None = told("outboard power")
    outboard_fuel: Literal["petrol", "diesel", "electric"] | None = told("outboard fuel")
    full_throttle_low: RotationalSpeed | None = told("lowest outboard speed at full throttle by its maker")
    full_throttle_high: RotationalSpeed | None = told("highest outboard speed at full throttle by its maker")
    tube_pressure: Pressure | None = told("pressure of the tubes")
    inflatable: bool = Field(default=True, description="has inflatable tubes")
    stowed_on: Text | None = told("name of the lift or place where she is stowed")
    built: Annotated[int, Field(ge=1900, le=2100)] | None = told("year of build")
    kill_cord: bool = Field(default=True, description="the outboard has a kill cord")
    max_speed: Speed | None = told("builder's greatest speed")
