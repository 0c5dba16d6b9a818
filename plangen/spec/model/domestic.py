"""Gas, galley, refrigeration, climate and laundry."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Charge,
    Count,
    Current,
    Flow,
    Item,
    Length,
    Mass,
    Power,
    Pressure,
    Singular,
    SpecModel,
    Temperature,
    Voltage,
    Volume,
    listed,
    told,
    yes_or_no,
)


class Gas(SpecModel):
    """The liquefied petroleum gas system."""

    kind: Literal["butane", "propane", "mixed"] | None = told("gas")
    cylinders: Count | None = told("cylinders")
    cylinder_mass: Mass | None = told("gas in a full cylinder")
    regulator_pressure: Pressure | None = told("regulator outlet pressure")
    solenoid: bool = yes_or_no("remote shut-off")
    detector: bool = yes_or_no("gas detector with alarm")
    leak_tester: bool = yes_or_no("bubble leak tester in the locker")
    hose_date: datetime.date | None = told("date on the hoses")
    locker_zone: Annotated[str, Field(max_length=80)] | None = told("where the gas locker is")


class Appliance(Item):
    """One galley appliance."""

    kind: Literal[
        "cooker",
        "hob",
        "oven",
        "microwave",
        "dishwasher",
        "extractor",
        "ice-maker",
        "kettle",
        "grill",
        "coffee-maker",
        "waste-compactor",
        "waste-disposer",
    ] = Field(description="kind of appliance")
    energy: Literal["gas", "mains", "dc", "diesel", "alcohol"] | None = told("what it runs on")
    power: Power | None = told("rated power taken; a microwave's own output is power_output")
    power_output: Power | None = told("microwave output power")
    burners: Count | None = told("burners or zones")
    largest_burner: Power | None = told("power of its largest burner or zone")
    induction: bool = yes_or_no("heats by induction")
    ducted: bool = yes_or_no("an extractor that blows outside")
    water_used: Volume | None = told("water of one wash")
    gimballed: bool = yes_or_no("swings in gimbals")


class Galley(SpecModel):
    """The galley."""

    appliances: Annotated[tuple[Appliance, ...], Singular("appliance")] = listed("appliances")
    sea_water_tap: bool = yes_or_no("has a sea-water tap")


class ColdBox(Item):
    """One refrigerator, freezer or ice box."""

    kind: Literal["refrigerator", "freezer", "ice-maker", "wine-cooler"] = Field(
        default="refrigerator", description="kind"
    )
    capacity: Volume | None = told("volume")
    current: Current | None = told("current taken when the compressor runs")
    voltage: Voltage | None = told("voltage it runs on")
    cooling: Literal["air", "keel", "sea-water"] | None = told("how the condenser is cooled")
    set_temperature: Temperature | None = told("temperature set")
    daily_charge: Charge | None = told("charge that it uses in a day, as its maker states")
    insulation: Length | None = told("thickness of the insulation at the sides")
    ice_mass: Mass | None = told("ice made in 24 hours")


class AirConditioner(Item):
    """One air-conditioning unit."""

    capacity: Power | None = told("cooling capacity")
    volume: Volume | None = told("volume of the rooms that it cools")
    reverse_cycle: bool = yes_or_no("also heats")
    current: Current | None = told("running current at mains voltage")
    sea_pump_flow: Flow | None = told("flow of its sea-water pump")


class Heater(Item):
    """One cabin heater."""

    kind: Literal["diesel-air", "diesel-water", "electric", "stove", "gas"] | None = told("kind")
    output: Power | None = told("rated output")
    flued: bool = Field(default=True, description="its exhaust goes outside through a flue")


class Climate(SpecModel):
    """Air conditioning, heating and ventilation."""

    air_conditioners: Annotated[tuple[AirConditioner, ...], Singular("air_conditioner")] = listed(
        "air-conditioning units"
    )
    heaters: Annotated[tuple[Heater, ...], Singular("heater")] = listed("cabin heaters")
    fans: Count | None = told("cabin fans")


class LaundryMachine(Item):
    """One washing machine or drier."""

    kind: Literal["washer", "drier", "washer-drier"] = Field(default="washer", description="kind")
    load: Mass | None = told("rated load")
    water_used: Volume | None = told("water of one wash")
    vented: bool = yes_or_no("a drier that blows its moist air outside")
    power: Power | None = told("rated power")
