"""The vessel herself, what she is used for, and the trial."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from plangen.spec.hull_types import HullType
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
    required,
    told,
    yes_or_no,
)


class Displacement(SpecModel):
    """Mass of the vessel in two conditions."""

    light: Mass | None = told("light displacement", "8.2 t", ("50 kg", "1000 t"))
    loaded: Mass | None = told("displacement with full tanks, crew and stores", "10.4 t", ("50 kg", "1200 t"))


class Vessel(SpecModel):
    """Name, hull and main dimensions."""

    name: Name = Field(description="the boat's name, or the model's")
    formerly: tuple[Name, ...] = listed("names that she had before, so that her folder is found")
    builder: Text | None = told("who built her")
    model: Text | None = told("the builder's model")
    hull_id: Text | None = told(
        "hull identification number (ISO 10087), as FR-ABC12345A627 or 14 characters without hyphens",
        "FR-ABC12345A627",
    )
    hull_number: Annotated[int, Field(ge=1, le=999999)] | None = told(
        "the builder's number of the hull in her series", "101"
    )
    hull: HullType = Field(description="hull type")
    built: Annotated[int, Field(ge=1850, le=2100)] | datetime.date | None = told("year or date of build")
    condition: Literal["new", "used"] = Field(default="new", description="new from the builder, or used")
    length_hull: Length = required("length of hull LH (ISO 8666)", "12 m", ("2 m", "60 m"))
    length_overall: Length | None = told("length overall with fixed fittings", "12.4 m", ("2 m", "80 m"))
    length_waterline: Length | None = told(
        "length of waterline at light displacement", "11.2 m", ("1.5 m", "60 m")
    )
    length_registered: Length | None = told(
        "length on the certificate of registry, stem to rudder stock", "11.9 m", ("1.5 m", "60 m")
    )
    beam: Length | None = told("greatest beam", "3.9 m", ("0.5 m", "25 m"))
    draught: Length | None = told("greatest draught, keel down", "1.9 m", ("0.1 m", "8 m"))
    air_draught: Length | None = told("height above the waterline, mast up", "18.2 m", ("0.5 m", "70 m"))
    displacement: Displacement = Field(
        default=Displacement.model_construct(), description="light and loaded displacement"
    )
    design_category: Literal["A", "B", "C", "D"] | None = told("design category of the builder's plate")
    gross_tonnage: Annotated[float, Field(gt=0, le=5000)] | None = told(
        "gross tonnage, a plain number", "11.5"
    )
    net_tonnage: Annotated[float, Field(gt=0, le=5000)] | None = told(
        "net register tonnage, a plain number", "9.2"
    )
    max_speed: Speed | None = told(
        "greatest speed through the water under engine", "8.5 kn", ("1 kn", "80 kn")
    )
    persons: Count | None = told("persons aboard, at most as on the builder's plate", "8")
    children: Count | None = told("of these, children", "2")
    hull_material: Literal["grp", "aluminium", "steel", "wood", "composite"] | None = told(
        "material of the hull"
    )
    ce_marked: bool | None = told("built to the European recreational craft rules")
    imported: bool = yes_or_no("first imported to the European market with this purchase")
    converted: bool = yes_or_no("changed in a major way since she was built")
    owners_manual: bool | None = told("the owner's manual can be produced")
    manual_extinguishers: bool | None = told("the owner's manual names the portable extinguishers")
    inflatable: bool = yes_or_no("inflatable or rigid inflatable craft (ISO 6185)")
    self_draining: bool | None = told("everything open to the weather drains by gravity at all times")
    accommodation_entrances: Count | None = told("entrances to the accommodation from outside", "1")
    enclosed_bridge: bool = yes_or_no("steered from inside a closed wheelhouse or saloon")
    boarding_height: Length | None = told(
        "height to climb from the water where people board, no ladder used", "0.6 m", ("0.05 m", "5 m")
    )
    keel: Literal["bolted", "encapsulated", "integral", "lifting", "daggerboards", "stub"] | None = told(
        "kind of keel; integral is one piece with a metal hull"
    )
    antifouling: Text | None = told("antifouling paint, with its colour")


class OffshoreCode(SpecModel):
    """A code that the owner follows by choice or contract."""

    code: Name = Field(description="the law pack's id, such as offshore-special")
    category: Text | None = told("the category within the code")


def _as_id(value: object) -> object:
    return "-".join(value.lower().split()) if isinstance(value, str) else value


#: The id of a jurisdiction, in whatever case it is written.
Jurisdiction = Annotated[Name, BeforeValidator(_as_id)]


class Use(SpecModel):
    """Where and how she is used; this decides which law applies."""

    registry: Jurisdiction | None = told(
        "flag: the jurisdiction's id, such as france or us-federal", "france"
    )
    waters: tuple[Jurisdiction, ...] = listed("jurisdictions in whose waters she sails", "[france, spain]")
    cruise: tuple[Jurisdiction, ...] = listed(
        "where she sails, in sailors' words, such as france, balearics, atlantic-crossing",
        "[france, balearics]",
    )
    distance_from_shelter: Length | None = told(
        "greatest distance from a shelter, in nmi", "60 nmi", ("0 nmi", "10000 nmi")
    )
    night: bool = Field(default=True, description="under way between sunset and sunrise")
    charter: bool = yes_or_no("let for hire")
    residence: Jurisdiction | None = told("jurisdiction where the owner mainly lives")
    inland: bool = yes_or_no("kept to rivers, canals and lakes, never more than 1 nmi from shore")
    water_class: Literal["smooth", "partially-smooth", "open"] | None = told(
        "class of waters, as law names it"
    )
    distance_from_shore: Length | None = told(
        "greatest distance from any shore, in nmi", "60 nmi", ("0 nmi", "10000 nmi")
    )
    mediterranean: bool | None = told("kept to the Mediterranean, where tides are small")
    foreign_ports: bool | None = told("calls at ports of other countries than her flag's")
    seamarks_in_sight: bool = yes_or_no("always navigated within sight of seamarks")
    local_waters: tuple[
        Literal["lake-constance", "westerschelde", "bermuda", "bermuda-inshore", "cayman", "virgin-islands"],
        ...,
    ] = listed("waters with a gear list of their own")
    codes: tuple[OffshoreCode, ...] = listed("codes followed beyond the law")


class Place(SpecModel):
    """Where the trial is held."""

    latitude: Angle | None = told("latitude, north positive", "43.3 °", ("-90 °", "90 °"))
    longitude: Angle | None = told("longitude, east positive", "5.4 °", ("-180 °", "180 °"))
    name: Text | None = told("name of the port")


class Trial(SpecModel):
    """When and where the trial is held, and with whom."""

    purpose: Literal["delivery", "survey", "commissioning"] = Field(
        default="delivery",
        description="what it is for: delivery to the buyer, a surveyor's survey, or the yard's commissioning",
    )
    date: datetime.date | None = told("first day of the trial, as 2027-05-14")
    delivery: datetime.date | None = told("day of delivery")
    place: Place = Field(default=Place.model_construct(), description="where the trial is held")
    water_temperature: Temperature | None = told(
        "sea water temperature expected", "18 °C", ("-2 °C", "36 °C")
    )
    air_temperature: Temperature | None = told("air temperature expected", "22 °C", ("-40 °C", "55 °C"))
    salinity: Salinity | None = told("salinity of the water", "35 g/kg", ("0 g/kg", "50 g/kg"))
    days: Annotated[int, Field(ge=1, le=30)] | None = told("days of the trial; one where hours are given")
    hours: Duration | None = told(
        "hours that may be spent each day; without them the plan is whole", "10 h", ("30 min", "500 h")
    )
    start: Annotated[str, Field(pattern=r"^([01]?[0-9]|2[0-3]):[0-5][0-9]$")] | None = told(
        "time of day at which work begins, as 08:30", "08:30"
    )
    people: People | None = told("people who do the checks: their names or how many", "2")
    sea_trial: Duration | None = told(
        "hours that may be spent away from the berth, in all", "4 h", ("15 min", "72 h")
    )
    priority: Annotated[int, Field(ge=1, le=3)] | None = told(
        "which checks are wanted: 1 those that decide, 2 a thorough trial too, 3 all"
    )
    scope: dict[Name, bool] = Field(
        default={},
        description="what is agreed to be done, by the ids of the scopes, as `haul-out: yes`",
        examples=["{haul-out: yes}"],
    )
    time_zone: Text | None = told("time zone, such as Europe/Paris", "Europe/Paris")


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
    usb_power: Power | None = told("rated power of one USB outlet", "18 W", ("2 W", "300 W"))
    lights: Count = Field(default=0, description="light fittings")
    red_lights: bool = yes_or_no("has red lights for the night")
    hatches: Count = Field(default=0, description="deck hatches")
    opening_ports: Count = Field(default=0, description="opening ports")
    windows: Count = Field(default=0, description="fixed windows")
    doors: Count = Field(default=0, description="doors")
    berths: Count = Field(default=0, description="berths")
    berth_length: Length | None = told("length of the berths", "2.0 m", ("1 m", "3 m"))
    volume: Volume | None = told(
        "net volume, for the ventilation of a machinery space", "4 m³", ("10 L", "500 m³")
    )
    headroom: Length | None = told("standing headroom", "1.95 m", ("0.5 m", "4 m"))
    flood_volume: Volume | None = told(
        "water that a cockpit holds up to the sill", "900 L", ("10 L", "30 m³")
    )
    code: Annotated[str, Field(pattern=r"^[A-Z0-9]{1,4}$")] | None = told("short code on the zone map")
