"""Rig, steering, thrusters, stabilisers and tender."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Angle,
    Area,
    Count,
    Duration,
    Equipment,
    Force,
    Length,
    Mass,
    NominalVoltage,
    Power,
    Pressure,
    RotationalSpeed,
    Singular,
    SpecModel,
    Speed,
    Text,
    listed,
    told,
    yes_or_no,
)


class Sail(Equipment):
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
    area: Area | None = told("area", "40 m²", ("1 m²", "1500 m²"))
    furling: bool = yes_or_no("furls")
    reefs: Count | None = told("reefs", "2")


class Winch(Equipment):
    """One winch."""

    powered: bool = yes_or_no("driven by electricity or hydraulics")
    use: Text | None = told("what it serves")
    working_load: Force | None = told("greatest working load", "8 kN", ("0.5 kN", "200 kN"))


class Rig(SpecModel):
    """Masts, standing rigging and sails."""

    masts: Count | None = told("masts", "1")
    kind: Literal["sloop", "cutter", "ketch", "yawl", "schooner", "cat"] | None = told("kind of rig")
    mast_height: Length | None = told("height of the masthead above water", "17.5 m", ("2 m", "90 m"))
    mainsail_area: Area | None = told("mainsail area", "40 m²", ("2 m²", "1000 m²"))
    headsail_area: Area | None = told("working headsail area", "42 m²", ("1 m²", "1000 m²"))
    standing_rigging: Literal["wire", "rod", "fibre"] | None = told("standing rigging")
    shroud_diameter: Length | None = told("diameter of the cap shrouds", "8 mm", ("2 mm", "60 mm"))
    rigging_date: datetime.date | None = told("date when the standing rigging was renewed")
    chainplates_seen: bool = yes_or_no("the chainplates can be seen")
    strand: Literal["1x19", "compact strand"] | None = told("make of the wire")
    design_speed: Speed | None = told(
        "designer's speed under sail in 12 kn of true wind on the beam", "7.4 kn", ("1 kn", "40 kn")
    )
    first_reef_wind: Speed | None = told(
        "true wind for the first reef by the builder's reefing table", "18 kn", ("5 kn", "60 kn")
    )
    bow_sprit: bool = yes_or_no("has a bowsprit")
    lightning_protection: bool = yes_or_no("has a lightning conductor to the water")
    lightning_plate: Area | None = told("area of the lightning ground plate", "0.1 m²", ("0.01 m²", "10 m²"))
    sails: Annotated[tuple[Sail, ...], Singular("sail")] = listed("sails")
    winches: Annotated[tuple[Winch, ...], Singular("winch")] = listed("winches")


class Steering(SpecModel):
    """The steering gear."""

    kind: Literal["cable", "hydraulic", "rod", "tiller", "electric"] | None = told("kind")
    stations: Count | None = told("steering stations", "1")
    rudders: Count | None = told("rudders", "1")
    rudder_angle: Angle | None = told("greatest rudder angle to each side", "35 °", ("5 °", "90 °"))
    emergency_tiller: bool = yes_or_no("has an emergency tiller")
    turns: Annotated[float, Field(gt=0, le=20)] | None = told(
        "turns of the wheel from hard over to hard over", "2.5"
    )
    joystick: bool = yes_or_no("can be steered and driven by a joystick")


class Thruster(Equipment):
    """One thruster."""

    place: Literal["bow", "stern"] = Field(default="bow", description="where it is")
    thrust: Force | None = told("rated thrust", "600 N", ("50 N", "50 kN"))
    power: Power | None = told("rated power", "3 kW", ("0.3 kW", "300 kW"))
    voltage: NominalVoltage | None = told("voltage", "12 V", ("6 V", "800 V"))
    drive: Literal["electric", "hydraulic"] | None = told("drive")
    retractable: bool = yes_or_no("can be drawn in")


class Stabiliser(Equipment):
    """One stabiliser."""

    kind: Literal["fins", "gyro", "tabs", "interceptors"] = Field(description="kind")
    at_rest: bool = yes_or_no("works at anchor")


class Tender(SpecModel):
    """The tender and her outboard."""

    name: Text | None = told("name or marking")
    maker: Text | None = told("builder")
    model: Text | None = told("builder's model")
    serial: Text | None = told("hull identification number")
    outboard_year: Annotated[int, Field(ge=1900, le=2100)] | None = told(
        "year of make of her outboard", "2019"
    )
    outboard_hours: Duration | None = told("running hours of her outboard", "120 h", ("0 h", "20000 h"))
    length: Length | None = told("length", "2.9 m", ("1 m", "12 m"))
    mass: Mass | None = told("mass with engine and fuel", "95 kg", ("10 kg", "8 t"))
    persons: Count | None = told("persons on her plate", "4")
    outboard_power: Power | None = told("outboard power", "6 hp", ("0.3 kW", "400 kW"))
    outboard_fuel: Literal["petrol", "diesel", "electric"] | None = told("outboard fuel")
    full_throttle_low: RotationalSpeed | None = told(
        "lowest outboard speed at full throttle by its maker", "4500 rpm", ("1000 rpm", "8000 rpm")
    )
    full_throttle_high: RotationalSpeed | None = told(
        "highest outboard speed at full throttle by its maker", "5500 rpm", ("1000 rpm", "9000 rpm")
    )
    tube_pressure: Pressure | None = told("pressure of the tubes", "240 mbar", ("50 mbar", "800 mbar"))
    inflatable: bool = Field(default=True, description="has inflatable tubes")
    stowed_on: Text | None = told("name of the lift or place where she is stowed")
    built: Annotated[int, Field(ge=1900, le=2100)] | None = told("year of build", "2019")
    kill_cord: bool = Field(default=True, description="the outboard has a kill cord")
    max_speed: Speed | None = told("builder's greatest speed", "14 kn", ("2 kn", "80 kn"))
