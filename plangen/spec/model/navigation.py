"""Navigation, radio, entertainment and networks."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Count,
    Equipment,
    Length,
    Power,
    Singular,
    SpecModel,
    Text,
    listed,
    told,
    yes_or_no,
)


class NavigationInstrument(Equipment):
    """One navigation instrument."""

    kind: Literal[
        "plotter", "radar", "depth", "log", "wind", "autopilot", "ais", "gnss", "compass", "heading-sensor", "sonar", "camera", "display",
        "barometer", "searchlight", "thermal-camera",
    ] = Field(description="kind of instrument")  # fmt: skip
    transmits: bool = yes_or_no("transmits (an AIS transponder, not a receiver)")
    depth_of_transducer: Length | None = told(
        "depth of the transducer below the waterline", "0.5 m", ("0 m", "6 m")
    )
    range: Length | None = told("instrumented range", "24 nmi", ("1 m", "150 nmi"))
    antenna_from_bow: Length | None = told("distance of its antenna aft of the bow", "6 m", ("0 m", "80 m"))
    antenna_from_port: Length | None = told(
        "distance of its antenna from the port side", "2 m", ("0 m", "25 m")
    )
    card_date: datetime.date | None = told("date of the compass deviation card")
    chart_date: datetime.date | None = told("date of the edition of the electronic charts")


class NavigationLights(SpecModel):
    """The lights of the collision rules."""

    kind: Literal["led", "filament", "mixed"] | None = told("kind of lamp")
    tricolour: bool = yes_or_no("masthead tricolour fitted")
    steaming: bool = Field(default=True, description="masthead (steaming) light")
    anchor: bool = Field(default=True, description="anchor light")
    certified: bool | None = told("lights are marked with their certified range")
    cable_length: Length | None = told("length of cable to the masthead, one way", "22 m", ("0.5 m", "120 m"))


class Navigation(SpecModel):
    """Navigation equipment."""

    instruments: Annotated[tuple[NavigationInstrument, ...], Singular("instrument")] = listed("instruments")
    lights: NavigationLights | None = told("navigation lights")
    day_shapes: bool = yes_or_no("ball and cone aboard")
    horn: bool = yes_or_no("sound signal fitted")
    bell: bool = yes_or_no("bell aboard")


class RadioSet(Equipment):
    """One radio, beacon or satellite set."""

    kind: Literal[
        "vhf",
        "vhf-handheld",
        "mf-hf",
        "epirb",
        "plb",
        "sart",
        "ais-sart",
        "ais-mob",
        "navtex",
        "satellite",
        "cellular",
    ] = Field(description="kind of set")
    dsc: bool = yes_or_no("digital selective calling")
    mmsi: Annotated[str, Field(pattern=r"^[0-9]{9}$")] | None = told(
        "MMSI programmed, nine digits in quotes", "'227123456'"
    )
    power: Power | None = told("transmitter power", "25 W", ("0.1 W", "500 W"))
    antenna_height: Length | None = told("height of the antenna above water", "18 m", ("0.5 m", "90 m"))
    cable_length: Length | None = told("length of the antenna cable", "22 m", ("0.3 m", "120 m"))
    battery_expires: datetime.date | None = told("expiry date of the battery")
    release_expires: datetime.date | None = told("expiry date of the hydrostatic release")
    hex_identity: Text | None = told("hexadecimal identity on the beacon, 15 characters in quotes")
    shared_antenna: bool = yes_or_no("shares its antenna through a splitter")


class Radio(SpecModel):
    """Radio equipment."""

    call_sign: Text | None = told("call sign of the ship station licence")
    sets: Annotated[tuple[RadioSet, ...], Singular("radio_set")] = listed("sets and beacons")


class EntertainmentUnit(Equipment):
    """One television, stereo or similar."""

    kind: Literal["television", "stereo", "speakers", "antenna", "projector", "games"] = Field(
        description="kind"
    )


class Entertainment(SpecModel):
    """Entertainment."""

    units: Annotated[tuple[EntertainmentUnit, ...], Singular("unit")] = listed("sets")


class Network(SpecModel):
    """Data networks aboard."""

    backbone_length: Length | None = told("length of the instrument backbone", "18 m", ("0.5 m", "300 m"))
    backbone_devices: Count | None = told("devices on the instrument backbone", "12")
    load_units: Count | None = told("sum of the devices' load equivalency numbers", "20")
    backbone_feed: Literal["end", "middle"] | None = told("where the backbone is fed with power")
    backbone_cable: Literal["light", "heavy"] | None = told("kind of backbone cable")
    agreed_rate: Annotated[float, Field(gt=0, le=100000)] | None = told(
        "agreed wireless data rate in Mbit/s", "50"
    )
    camera_days: Count | None = told("days that the camera recorder keeps", "14")
    computers: Count | None = told("computers fitted", "1")
    router: bool = yes_or_no("router for computers")
    cellular: bool = yes_or_no("cellular data")
    satellite: bool = yes_or_no("satellite data")
    wifi: bool = yes_or_no("wireless network")
    cameras: Count | None = told("cameras", "2")
    digital_switching: bool = yes_or_no("circuits switched over the network")
    provider: Text | None = told("who provides the connection")
