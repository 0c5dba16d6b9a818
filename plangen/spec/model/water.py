"""Fresh water, watermakers, heads, bilges and through-hulls."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Concentration,
    Count,
    Current,
    Equipment,
    Flow,
    Length,
    Power,
    Pressure,
    RefersTo,
    Salinity,
    Singular,
    SpecModel,
    Temperature,
    Volume,
    ZoneName,
    listed,
    told,
    yes_or_no,
)

TankName = Annotated[str, RefersTo("tanks")]


class WaterPump(Equipment):
    """One pressure-water pump."""

    flow: Flow | None = told("rated flow", "15 L/min", ("0.5 L/min", "300 L/min"))
    cut_in: Pressure | None = told("cut-in pressure", "1.4 bar", ("0.1 bar", "8 bar"))
    cut_out: Pressure | None = told("cut-out pressure", "2.8 bar", ("0.3 bar", "10 bar"))
    accumulator: Volume | None = told("volume of the accumulator", "2 L", ("0.2 L", "200 L"))
    tank: TankName | None = told("name of the tank that it draws from")
    kind: Literal["pressure", "foot", "hand"] | None = told("kind of pump")


class WaterHeater(Equipment):
    """One water heater."""

    capacity: Volume | None = told("capacity", "40 L", ("3 L", "1000 L"))
    element: Power | None = told("power of the electric element", "750 W", ("100 W", "20 kW"))
    engine_heated: bool = yes_or_no("heated from engine cooling water")
    mixing_valve: bool = yes_or_no("has a thermostatic mixing valve")
    thermostat: Temperature | None = told("temperature set", "65 °C", ("20 °C", "95 °C"))


class FreshWater(SpecModel):
    """The fresh-water system."""

    pumps: Annotated[tuple[WaterPump, ...], Singular("pump")] = listed("pressure-water pumps")
    heaters: Annotated[tuple[WaterHeater, ...], Singular("water_heater")] = listed("water heaters")
    outlets: Count | None = told("taps and showers", "6")
    shore_inlet: bool = yes_or_no("shore-water inlet with pressure reducer")
    filter: bool = yes_or_no("drinking-water filter")
    deck_showers: Count | None = told("deck showers", "1")
    deck_wash: Literal["fresh", "sea", "both", "none"] | None = told("deck wash water")
    deck_wash_flow: Flow | None = told(
        "rated flow of the deck-wash pump", "20 L/min", ("1 L/min", "500 L/min")
    )


class Watermaker(Equipment):
    """One reverse-osmosis watermaker."""

    rated_flow: Flow | None = told("rated product flow", "60 L/h", ("1 L/h", "2000 L/h"))
    rated_temperature: Temperature | None = told(
        "water temperature of the rating", "25 °C", ("0 °C", "40 °C")
    )
    rated_salinity: Salinity | None = told("salinity of the rating", "35 g/kg", ("1 g/kg", "50 g/kg"))
    pressure: Pressure | None = told("working pressure", "55 bar", ("5 bar", "90 bar"))
    pressure_limit: Pressure | None = told(
        "greatest pressure that the maker allows", "70 bar", ("10 bar", "100 bar")
    )
    membranes: Count | None = told("number of membranes", "2")
    drive: Literal["mains", "dc", "engine", "hydraulic"] | None = told("what drives the high-pressure pump")
    power: Power | None = told("electrical power taken", "1.1 kW", ("30 W", "50 kW"))
    energy_recovery: bool = yes_or_no("recovers energy from the brine")
    salt_rejection: Annotated[float, Field(gt=0.5, lt=1)] | None = told("salt rejection, as 0.994", "0.994")
    product_limit: Concentration | None = told(
        "dissolved solids at which product is rejected", "500 mg/L", ("50 mg/L", "2000 mg/L")
    )
    product_solids: Concentration | None = told(
        "dissolved solids of the product, as the maker states them", "250 mg/L", ("5 mg/L", "1500 mg/L")
    )
    tank: TankName | None = told("name of the tank that it fills")
    fresh_flush: bool = yes_or_no("flushes itself with fresh water")
    flush_volume: Volume | None = told("fresh water of one flush", "12 L", ("0.5 L", "500 L"))
    carbon_filter: bool = yes_or_no("has a carbon filter in the fresh-water flush")


class Head(Equipment):
    """One toilet with its room."""

    flush: Literal["manual", "electric", "vacuum", "composting"] | None = told("kind of flush")
    flush_water: Literal["sea", "fresh", "both"] | None = told("water it is flushed with")
    flush_volume: Volume | None = told("water of one flush", "2.2 L", ("0.1 L", "20 L"))
    pump_current: Current | None = told("current on the label of the flush pump", "10 A", ("0.2 A", "80 A"))
    tank: TankName | None = told("name of the holding tank")
    shower: bool = yes_or_no("has a shower")
    shower_sump: bool = yes_or_no("the shower drains through a sump pump")
    sump_current: Current | None = told("current on the label of the sump pump", "3 A", ("0.2 A", "40 A"))
    basin: bool = Field(default=True, description="has a basin")
    bidet: bool = yes_or_no("has a bidet spray")
    diverter: bool = yes_or_no("can be switched from tank to overboard")
    hose_date: datetime.date | None = told("date on the sanitation hose")
    lockout: bool = yes_or_no("stops flushing when the tank is full")


class Bilge(Equipment):
    """One bilge compartment."""

    pump_flow: Flow | None = told("rated flow of the electric pump", "60 L/min", ("1 L/min", "5000 L/min"))
    pump_current: Current | None = told(
        "current on the label of the electric pump", "4 A", ("0.2 A", "100 A")
    )
    shut_off_head: Length | None = told(
        "lift at which the electric pump's flow stops", "4 m", ("0.3 m", "50 m")
    )
    float_switch: bool = yes_or_no("the pump starts by itself")
    high_water_alarm: bool = yes_or_no("has a high-water alarm")
    hand_pump: bool = yes_or_no("has a hand pump")
    hand_pump_stroke: Volume | None = told(
        "volume of one stroke of the hand pump", "0.7 L", ("0.05 L", "5 L")
    )
    lift: Length | None = told("height from the bilge to the discharge", "1.2 m", ("0 m", "8 m"))
    volume: Volume | None = told("volume of the compartment up to the cabin sole", "600 L", ("1 L", "200 m³"))
    zones: tuple[ZoneName, ...] = listed("zones whose water comes to this bilge")
    oily_water: bool = yes_or_no("under machinery, so that oil may be in it")
    watertight: bool = yes_or_no("closed off by watertight bulkheads")


class ThroughHull(Equipment):
    """One opening through the hull under or near the waterline."""

    purpose: Literal[
        "engine-intake", "generator-intake", "head-intake", "head-discharge", "holding-tank-discharge", "drain", "watermaker-intake",
        "air-conditioning-intake", "cockpit-drain", "deck-wash-intake", "transducer", "bilge-discharge", "exhaust",
    ] | None = told("what it serves")  # fmt: skip
    bore: Length | None = told("inside diameter", "38 mm", ("6 mm", "300 mm"))
    depth: Length | None = told("depth below the waterline", "0.4 m", ("-1 m", "6 m"))
    material: (
        Literal[
            "bronze", "dezincification-resistant-brass", "brass", "stainless-steel", "composite", "aluminium"
        ]
        | None
    ) = told("material")
    seacock: bool = Field(default=True, description="closes with a seacock")
    fitted: Annotated[int, Field(ge=1900, le=2100)] | None = told("year in which it was fitted", "2019")
    hose_date: datetime.date | None = told("date on the hose")
