"""Gas, galley, refrigeration, climate and laundry."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Charge,
    Count,
    Current,
    Equipment,
    Flow,
    Length,
    Mass,
    NominalVoltage,
    Power,
    Pressure,
    Singular,
    SpecModel,
    Temperature,
    Volume,
    listed,
    told,
    yes_or_no,
)


class Gas(SpecModel):
    """The liquefied petroleum gas system."""

    kind: Literal["butane", "propane", "mixed"] | None = told("gas")
    cylinders: Count | None = told("cylinders", "2")
    cylinder_mass: Mass | None = told("gas in a full cylinder", "2.75 kg", ("0.1 kg", "100 kg"))
    regulator_pressure: Pressure | None = told(
        "regulator outlet pressure", "30 mbar", ("10 mbar", "100 mbar")
    )
    solenoid: bool = yes_or_no("remote shut-off")
    detector: bool = yes_or_no("gas detector with alarm")
    leak_tester: bool = yes_or_no("bubble leak tester in the locker")
    hose_date: datetime.date | None = told("date on the hoses")
    locker_zone: Annotated[str, Field(max_length=80)] | None = told("where the gas locker is")


class Appliance(Equipment):
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
    power: Power | None = told(
        "rated power taken; a microwave's own output is power_output", "6 kW", ("20 W", "30 kW")
    )
    power_output: Power | None = told("microwave output power", "800 W", ("100 W", "3 kW"))
    burners: Count | None = told("burners or zones", "3")
    largest_burner: Power | None = told("power of its largest burner or zone", "2.5 kW", ("100 W", "10 kW"))
    induction: bool = yes_or_no("heats by induction")
    ducted: bool = yes_or_no("an extractor that blows outside")
    water_used: Volume | None = told("water of one wash", "10 L", ("1 L", "80 L"))
    gimballed: bool = yes_or_no("swings in gimbals")


class Galley(SpecModel):
    """The galley."""

    appliances: Annotated[tuple[Appliance, ...], Singular("appliance")] = listed("appliances")
    sea_water_tap: bool = yes_or_no("has a sea-water tap")


class ColdBox(Equipment):
    """One refrigerator, freezer or ice box."""

    kind: Literal["refrigerator", "freezer", "ice-maker", "wine-cooler"] = Field(
        default="refrigerator", description="kind"
    )
    capacity: Volume | None = told("volume", "130 L", ("5 L", "2000 L"))
    current: Current | None = told("current taken when the compressor runs", "5 A", ("0.3 A", "60 A"))
    voltage: NominalVoltage | None = told("voltage it runs on", "12 V", ("6 V", "400 V"))
    cooling: Literal["air", "keel", "sea-water"] | None = told("how the condenser is cooled")
    set_temperature: Temperature | None = told("temperature set", "5 °C", ("-35 °C", "18 °C"))
    daily_charge: Charge | None = told(
        "charge that it uses in a day, as its maker states", "40 Ah", ("1 Ah", "1000 Ah")
    )
    insulation: Length | None = told("thickness of the insulation at the sides", "60 mm", ("5 mm", "250 mm"))
    ice_mass: Mass | None = told("ice made in 24 hours", "10 kg", ("0.2 kg", "300 kg"))


class AirConditioner(Equipment):
    """One air-conditioning unit."""

    capacity: Power | None = told("cooling capacity", "4.7 kW", ("0.5 kW", "100 kW"))
    volume: Volume | None = told("volume of the rooms that it cools", "22 m³", ("1 m³", "500 m³"))
    reverse_cycle: bool = yes_or_no("also heats")
    current: Current | None = told("running current at mains voltage", "5 A", ("0.5 A", "150 A"))
    sea_pump_flow: Flow | None = told("flow of its sea-water pump", "20 L/min", ("1 L/min", "1000 L/min"))


class Heater(Equipment):
    """One cabin heater."""

    kind: Literal["diesel-air", "diesel-water", "electric", "stove", "gas"] | None = told("kind")
    output: Power | None = told("rated output", "4 kW", ("0.2 kW", "60 kW"))
    flued: bool = Field(default=True, description="its exhaust goes outside through a flue")


class Climate(SpecModel):
    """Air conditioning, heating and ventilation."""

    air_conditioners: Annotated[tuple[AirConditioner, ...], Singular("air_conditioner")] = listed(
        "air-conditioning units"
    )
    heaters: Annotated[tuple[Heater, ...], Singular("heater")] = listed("cabin heaters")
    fans: Count | None = told("cabin fans", "4")


class LaundryMachine(Equipment):
    """One washing machine or drier."""

    kind: Literal["washer", "drier", "washer-drier"] = Field(default="washer", description="kind")
    load: Mass | None = told("rated load", "5 kg", ("0.5 kg", "20 kg"))
    water_used: Volume | None = told("water of one wash", "45 L", ("5 L", "300 L"))
    vented: bool = yes_or_no("a drier that blows its moist air outside")
    power: Power | None = told("rated power", "2 kW", ("50 W", "10 kW"))
