"""Engines, drives and what hangs on them."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Current,
    Duration,
    Flow,
    Item,
    Length,
    Power,
    Pressure,
    RefersTo,
    RotationalSpeed,
    SpecModel,
    Speed,
    Temperature,
    Text,
    Voltage,
    told,
    yes_or_no,
)

Fuel = Literal["diesel", "petrol", "electric"]
Ratio = Annotated[float, Field(gt=0, le=20)]


class Propeller(SpecModel):
    """The propeller of one engine."""

    diameter: Length | None = told("diameter")
    pitch: Length | None = told("pitch")
    blades: Annotated[int, Field(ge=2, le=7)] | None = told("number of blades")
    kind: Literal["fixed", "folding", "feathering", "controllable"] | None = told("kind of propeller")


class Alternator(SpecModel):
    """The alternator of one engine."""

    rated_current: Current | None = told("rated output")
    voltage: Voltage | None = told("nominal voltage")
    pulley_ratio: Ratio | None = told("alternator turns per engine turn")
    maximum_speed: RotationalSpeed | None = told("greatest speed that its maker allows")
    charges: Annotated[str, RefersTo("dc.banks")] | None = told("name of the bank that it charges")
    external_regulator: bool = yes_or_no("regulated from outside the alternator")


class Engine(Item):
    """One propulsion engine with its gear, shaft and propeller."""

    maker: Text | None = told("maker")
    model: Text | None = told("maker's model")
    year: Annotated[int, Field(ge=1900, le=2100)] | None = told("year of make")
    fuel: Fuel | None = told("fuel")
    power: Power | None = told("rated power at the crankshaft")
    displacement: Annotated[float, Field(gt=0, le=100)] | None = told(
        "swept volume in litres, a plain number"
    )
    rated_speed: RotationalSpeed | None = told("engine speed at rated power")
    idle_speed: RotationalSpeed | None = told("idle speed")
    full_throttle_low: RotationalSpeed | None = told("lowest speed at full throttle by its maker")
    full_throttle_high: RotationalSpeed | None = told("highest speed at full throttle by its maker")
    turbocharged: bool = yes_or_no("has a turbocharger")
    control: Literal["cable", "electronic"] | None = told("how throttle and gear are controlled")
    rated_fuel_rate: Flow | None = told("fuel rate at rated power, from the maker's curve")
    hours: Duration | None = told("running hours on the meter")
    gear_ratio: Ratio | None = told("engine turns per propeller turn")
    propeller: Propeller | None = told("the propeller")
    drive: Literal["shaft", "sail-drive", "stern-drive", "outboard", "pod", "jet"] | None = told(
        "kind of drive"
    )
    shaft_seal: Literal["packed", "dripless", "lip"] | None = told("kind of shaft seal")
    shaft_diameter: Length | None = told("propeller shaft diameter")
    coupling_diameter: Length | None = told("outside diameter of the shaft coupling")
    seal_alarm: bool = yes_or_no("the sail-drive has a water alarm between its seals")
    water_in_fuel_alarm: bool = yes_or_no("has an alarm for water in the fuel filter")
    cooling: Literal["heat-exchanger", "raw-water", "keel", "air"] | None = told("kind of cooling")
    exhaust: Literal["wet", "dry", "underwater"] | None = told("kind of exhaust")
    exhaust_bore: Length | None = told("inside diameter of the exhaust hose")
    back_pressure_limit: Pressure | None = told("maker's limit of exhaust back pressure")
    thermostat: Temperature | None = told("temperature at which the thermostat opens")
    oil_pressure_rated: Pressure | None = told("maker's lowest oil pressure at rated speed")
    oil_pressure_idle: Pressure | None = told("maker's lowest oil pressure at idle")
    alternator: Alternator | None = told("the alternator")
    tank: Annotated[str, RefersTo("tanks")] | None = told("name of the tank that feeds it")
    start_bank: Annotated[str, RefersTo("dc.banks")] | None = told("name of the bank that starts it")
    rope_cutter: bool = yes_or_no("has a rope cutter on the shaft or leg")
    fitted_kill_cord: bool = yes_or_no("has a kill switch with lanyard")
    last_service: datetime.date | None = told("date of the last service")
    seal_date: datetime.date | None = told("date when the shaft seal or sail-drive seal was renewed")
    speed_at_rated: Speed | None = told("maker's or builder's figure of boat speed at rated engine speed")
