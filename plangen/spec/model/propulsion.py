"""Engines, drives and what hangs on them."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Current,
    Equipment,
    Flow,
    Length,
    NominalVoltage,
    Power,
    Pressure,
    RefersTo,
    RotationalSpeed,
    SpecModel,
    Speed,
    Temperature,
    told,
    yes_or_no,
)

Fuel = Literal["diesel", "petrol", "electric"]
Ratio = Annotated[float, Field(gt=0, le=20)]


class Propeller(SpecModel):
    """The propeller of one engine."""

    diameter: Length | None = told("diameter", "450 mm", ("100 mm", "2 m"))
    pitch: Length | None = told("pitch", "330 mm", ("50 mm", "3 m"))
    blades: Annotated[int, Field(ge=2, le=7)] | None = told("number of blades", "3")
    kind: Literal["fixed", "folding", "feathering", "controllable"] | None = told("kind of propeller")


class Alternator(SpecModel):
    """The alternator of one engine."""

    rated_current: Current | None = told("rated output", "80 A", ("3 A", "500 A"))
    voltage: NominalVoltage | None = told("nominal voltage", "12 V", ("5 V", "120 V"))
    pulley_ratio: Ratio | None = told("alternator turns per engine turn", "2.2")
    maximum_speed: RotationalSpeed | None = told(
        "greatest speed that its maker allows", "12000 rpm", ("2000 rpm", "25000 rpm")
    )
    charges: Annotated[str, RefersTo("dc.banks")] | None = told("name of the bank that it charges")
    external_regulator: bool = yes_or_no("regulated from outside the alternator")


class Engine(Equipment):
    """One propulsion engine with its gear, shaft and propeller."""

    fuel: Fuel | None = told("fuel")
    power: Power | None = told("rated power at the crankshaft", "42 kW", ("0.5 kW", "4000 kW"))
    displacement: Annotated[float, Field(gt=0, le=100)] | None = told(
        "swept volume in litres, a plain number", "1.5"
    )
    rated_speed: RotationalSpeed | None = told(
        "engine speed at rated power", "3000 rpm", ("500 rpm", "12000 rpm")
    )
    idle_speed: RotationalSpeed | None = told("idle speed", "850 rpm", ("100 rpm", "2000 rpm"))
    full_throttle_low: RotationalSpeed | None = told(
        "lowest speed at full throttle by its maker", "2900 rpm", ("500 rpm", "12000 rpm")
    )
    full_throttle_high: RotationalSpeed | None = told(
        "highest speed at full throttle by its maker", "3100 rpm", ("500 rpm", "12000 rpm")
    )
    turbocharged: bool = yes_or_no("has a turbocharger")
    control: Literal["cable", "electronic"] | None = told("how throttle and gear are controlled")
    rated_fuel_rate: Flow | None = told(
        "fuel rate at rated power, from the maker's curve", "11.5 L/h", ("0.2 L/h", "1200 L/h")
    )
    gear_ratio: Ratio | None = told("engine turns per propeller turn", "2.6")
    propeller: Propeller | None = told("the propeller")
    drive: Literal["shaft", "sail-drive", "stern-drive", "outboard", "pod", "jet"] | None = told(
        "kind of drive"
    )
    shaft_seal: Literal["packed", "dripless", "lip"] | None = told("kind of shaft seal")
    shaft_diameter: Length | None = told("propeller shaft diameter", "30 mm", ("10 mm", "250 mm"))
    coupling_diameter: Length | None = told(
        "outside diameter of the shaft coupling", "127 mm", ("40 mm", "600 mm")
    )
    seal_alarm: bool = yes_or_no("the sail-drive has a water alarm between its seals")
    water_in_fuel_alarm: bool = yes_or_no("has an alarm for water in the fuel filter")
    cooling: Literal["heat-exchanger", "raw-water", "keel", "air"] | None = told("kind of cooling")
    exhaust: Literal["wet", "dry", "underwater"] | None = told("kind of exhaust")
    exhaust_bore: Length | None = told("inside diameter of the exhaust hose", "51 mm", ("15 mm", "500 mm"))
    back_pressure_limit: Pressure | None = told(
        "maker's limit of exhaust back pressure", "15 kPa", ("1 kPa", "60 kPa")
    )
    thermostat: Temperature | None = told(
        "temperature at which the thermostat opens", "71 °C", ("35 °C", "100 °C")
    )
    oil_pressure_rated: Pressure | None = told(
        "maker's lowest oil pressure at rated speed", "3 bar", ("0.2 bar", "12 bar")
    )
    oil_pressure_idle: Pressure | None = told(
        "maker's lowest oil pressure at idle", "0.8 bar", ("0.1 bar", "6 bar")
    )
    alternator: Alternator | None = told("the alternator")
    tank: Annotated[str, RefersTo("tanks")] | None = told("name of the tank that feeds it")
    start_bank: Annotated[str, RefersTo("dc.banks")] | None = told("name of the bank that starts it")
    rope_cutter: bool = yes_or_no("has a rope cutter on the shaft or leg")
    fitted_kill_cord: bool = yes_or_no("has a kill switch with lanyard")
    seal_date: datetime.date | None = told("date when the shaft seal or sail-drive seal was renewed")
    speed_at_rated: Speed | None = told(
        "maker's or builder's figure of boat speed at rated engine speed", "7.8 kn", ("1 kn", "80 kn")
    )
