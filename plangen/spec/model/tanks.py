"""Tanks of every liquid."""

from __future__ import annotations

import datetime
from typing import Literal

from pydantic import Field

from plangen.spec.model.base import Count, Equipment, Flow, Length, Volume, told, yes_or_no


class Tank(Equipment):
    """One tank."""

    holds: Literal[
        "fuel", "petrol", "fresh", "grey", "black", "lubricating-oil", "waste-oil", "hydraulic-oil"
    ] = Field(description="what it holds")
    capacity: Volume | None = told("gross capacity", "200 L", ("4 L", "50000 L"))
    usable: Volume | None = told("usable capacity", "185 L", ("3 L", "50000 L"))
    material: Literal["polyethylene", "stainless-steel", "aluminium", "steel", "grp", "flexible"] | None = (
        told("material")
    )
    gauge: Literal["sender", "ultrasonic", "pressure", "sight-tube", "dipstick", "none"] | None = told(
        "kind of gauge"
    )
    shape: Literal["rectangular", "wedge", "hull-shaped"] | None = told("shape")
    vent_bore: Length | None = told("inside diameter of the vent", "19 mm", ("4 mm", "150 mm"))
    vent_length: Length | None = told("length of the vent hose", "2 m", ("0.05 m", "30 m"))
    vent_rise: Length | None = told(
        "height of the vent's outlet above the top of the tank", "1 m", ("0 m", "6 m")
    )
    vent_filter: bool = yes_or_no("has a filter in the vent")
    height: Length | None = told("inside height of the tank", "0.5 m", ("0.05 m", "4 m"))
    inspection_hatches: Count | None = told("inspection hatches", "1")
    deck_fill: bool = Field(default=True, description="filled from a deck fitting")
    pump_out: bool = yes_or_no("has a deck pump-out fitting")
    overboard_discharge: bool = yes_or_no("can be emptied overboard")
    discharge_flow: Flow | None = told(
        "rated flow of the pump that empties it overboard", "40 L/min", ("1 L/min", "1000 L/min")
    )
    auto_discharge: bool = yes_or_no("empties itself when it is full")
    crossover: bool = yes_or_no("has a crossover valve to another tank")
    low_alarm: bool = yes_or_no("has a low-level alarm")
    full_alarm: bool = yes_or_no("has a high-level alarm or lockout")
    hose_date: datetime.date | None = told("date on the fill and vent hoses")
