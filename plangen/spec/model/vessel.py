"""The vessel herself, what she is used for, and the trial."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Angle,
    Count,
    Duration,
    Item,
    Length,
    Mass,
    Name,
    People,
    Power,
    Salinity,
    SpecModel,
    Speed,
    Temperature,
    Text,
    Volume,
    listed,
    told,
    yes_or_no,
)

HullType = Literal[
    "sailing-monohull",
    "sailing-catamaran",
    "sailing-trimaran",
    "motor-displacement",
    "motor-semi-displacement",
    "motor-planing",
    "motor-catamaran",
]


class Displacement(SpecModel):
    """Mass of the vessel in two conditions."""

    light: Mass | None = told("light displacement")
    loaded: Mass | None = told("displacement with full tanks, crew and stores")


class Vessel(SpecModel):
    """Name, hull and main dimensions."""

    name: Name = Field(description="the boat's name, or the model's")
    builder: Text | None = told("who built her")
    model: Text | None = told("the builder's model")
    hull_id: Text | None = told(
        "hull identification number (ISO 10087), as FR-ABC12345A627 or 14 characters without hyphens"
    )
    hull: HullType = Field(description="hull type")
    built: Annotated[int, Field(ge=1850, le=2100)] | datetime.date | None = told("year or date of build")
    condition: Literal["new", "used"] = Field(default="new", description="new from the builder, or used")
    length_hull: Length = Field(description="length of hull LH (ISO 8666)")
    length_overall: Length | None = told("length overall with fixed fittings")
    length_waterline: Length | None = told("length of waterline at light displacement")
    length_registered: Length | None = told("length on the certificate of registry, stem to rudder stock")
    beam: Length | None = told("greatest beam")
    draught: Length | None = told("greatest draught, keel down")
    air_draught: Length | None = told("height above the waterline, mast up")
    displacement: Displacement = Field(default=Displacement(), description="light and loaded displacement")
    design_category: Literal["A", "B", "C", "D"] | None = told("design category of the builder's plate")
    gross_tonnage: Annotated[float, Field(gt=0, le=5000)] | None = told("gross tonnage, a plain number")
    net_tonnage: Annotated[float, Field(gt=0, le=5000)] | None = told("net register tonnage, a plain number")
    max_speed: Speed | None = told("greatest speed through the water under engine")
    persons: Count | None = told("persons aboard, at most as on the builder's plate")
    children: Count | None = told("of these, children")
    hull_material: Literal["grp", "aluminium", "steel", "wood", "composite"] | None = told(
        "material of the hull"
    )
    ce_marked: bool | None = told("built to the European recreational craft rules")
    owners_manual: bool | None = told("the owner's manual can be produced")
    manual_extinguishers: bool | None = told("the owner's manual names the portable extinguishers")
    inflatable: bool = yes_or_no("inflatable or rigid inflatable craft (ISO 6185)")
    self_draining: bool | None = told("everything open to the weather drains by gravity at all times")
    accommodation_entrances: Count | None = told("entrances to the accommodation from outside")
    enclosed_bridge: bool = yes_or_no("steered from inside a closed wheelhouse or saloon")
    boarding_height: Length | None = told("height to climb from the water where people board, no ladder used")
    keel: Literal["bolted", "encapsulated", "integral", "lifting", "daggerboards", "stub"] | None = told(
        "kind of keel; integral is one piece with a metal hull"
    )
    antifouling: Text | None = told("antifouling paint, with its colour")


class OffshoreCode(SpecModel):
    """A code that the owner follows by choice or contract."""

    code: Name = Field(description="the law pack's id, such as offshore-special")
    category: Text | None = told("the category within the code")


class Use(SpecModel):
    """Where and how she is used; this decides which law applies."""

    registry: Name | None = told("flag: the jurisdiction's id, such as france or us-federal")
    waters: tuple[Name, ...] = listed("jurisdictions in whose waters she sails")
    distance_from_shelter: Length | None = told("greatest distance from a shelter, in nmi")
    night: bool = Field(default=True, description="under way between sunset and sunrise")
    charter: bool = yes_or_no("let for hire")
    residence: Name | None = told("jurisdiction where the owner mainly lives")
    inland: bool = yes_or_no("kept to rivers, canals and lakes, never more than 1 nmi from shore")
    water_class: Literal["smooth", "partially-smooth", "open"] | None = told(
        "class of waters, as law names it"
    )
    distance_from_shore: Length | None = told("greatest distance from any shore, in nmi")
    mediterranean: bool = yes_or_no("kept to the Mediterranean, where tides are small")
    foreign_ports: bool = yes_or_no("calls at ports of other countries than her flag's")
    seamarks_in_sight: bool = yes_or_no("always navigated within sight of seamarks")
    local_waters: tuple[Literal["lake-constance", "westerschelde"], ...] = listed(
        "waters with a gear list of their own"
    )
    codes: tuple[OffshoreCode, ...] = listed("codes followed beyond the law")


class Place(SpecModel):
    """Where the trial is held."""

    latitude: Angle | None = told("latitude, north positive")
    longitude: Angle | None = told("longitude, east positive")
    name: Text | None = told("name of the port")


class Trial(SpecModel):
    """When and where the trial is held, and with whom."""

    date: datetime.date | None = told("first day of the trial, as 2027-05-14")
    delivery: datetime.date | None = told("day of delivery")
    place: Place = Field(default=Place(), description="where the trial is held")
    water_temperature: Temperature | None = told("sea water temperature expected")
    air_temperature: Temperature | None = told("air temperature expected")
    salinity: Salinity | None = told("salinity of the water")
    days: Annotated[int, Field(ge=1, le=30)] | None = told("days of the trial; one where hours are given")
    hours: Duration | None = told("hours that may be spent each day; without them the plan is whole")
    start: Annotated[str, Field(pattern=r"^([01]?[0-9]|2[0-3]):[0-5][0-9]$")] | None = told(
        "time of day at which work begins, as 08:30"
    )
    people: People | None = told("people who do the checks: their names or how many")
    sea_trial: Duration | None = told("hours that may be spent away from the berth, in all")
    priority: Annotated[int, Field(ge=1, le=3)] | None = told(
        "which checks are wanted: 1 those that decide, 2 a thorough trial too, 3 all"
    )
    scope: dict[Name, bool] = Field(
        default={}, description="what is agreed to be done, by the ids of the scopes, as `haul-out: true`"
    )
    time_zone: Text | None = told("time zone, such as Europe/Paris")


class Zone(Item):
    """A room or a deck."""

    kind: (
        Literal[
            "cabin", "saloon", "galley", "head", "machinery", "cockpit", "deck", "helm", "locker", "passage"
        ]
        | None
    ) = told("what the zone is")
    sockets: Count = Field(default=0, description="mains socket outlets")
    usb: Count = Field(default=0, description="USB outlets")
    usb_power: Power | None = told("rated power of one USB outlet")
    lights: Count = Field(default=0, description="light fittings")
    red_lights: bool = yes_or_no("has red lights for the night")
    hatches: Count = Field(default=0, description="deck hatches")
    opening_ports: Count = Field(default=0, description="opening ports")
    windows: Count = Field(default=0, description="fixed windows")
    doors: Count = Field(default=0, description="doors")
    berths: Count = Field(default=0, description="berths")
    berth_length: Length | None = told("length of the berths")
    volume: Volume | None = told("net volume, for the ventilation of a machinery space")
    headroom: Length | None = told("standing headroom")
    flood_volume: Volume | None = told("water that a cockpit holds up to the sill")
    code: Annotated[str, Field(pattern=r"^[A-Z0-9]{1,4}$")] | None = told("short code on the zone map")
