"""Direct and alternating current."""

from __future__ import annotations

import datetime
from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Angle,
    Area,
    Charge,
    Count,
    Current,
    Duration,
    Flow,
    Frequency,
    Item,
    Length,
    Mass,
    Power,
    RefersTo,
    RotationalSpeed,
    Singular,
    SoundLevel,
    SpecModel,
    Temperature,
    Text,
    Voltage,
    listed,
    told,
    yes_or_no,
)

BankName = Annotated[str, RefersTo("dc.banks")]


class Bank(Item):
    """One battery bank."""

    chemistry: Literal["flooded", "agm", "gel", "tppl", "lithium-iron-phosphate"] | None = told(
        "battery chemistry"
    )
    capacity: Charge | None = told("rated capacity (20 h rate for lead)")
    voltage: Voltage | None = told("nominal voltage, if not the boat's")
    use: Literal["house", "start", "thruster", "windlass", "generator", "emergency", "electronics"] | None = (
        told("what it serves")
    )
    batteries: Count | None = told("batteries in the bank")
    age: Duration | None = told("age")
    cold_cranking: Current | None = told("cold cranking current of one battery")
    monitor: bool = yes_or_no("has a battery monitor with shunt")
    cable_length: Length | None = told("length of cable from bank to main bus, there and back")
    cable_section: Area | None = told("conductor section of that cable")
    battery_mass: Mass | None = told("mass of one battery")
    absorption_voltage: Voltage | None = told("maker's absorption voltage at 25 °C")
    float_voltage: Voltage | None = told("maker's float voltage at 25 °C")
    charge_limit: Current | None = told("greatest charge current that its maker allows")
    cut_off_voltage: Voltage | None = told("voltage at which its own protection opens when empty")
    fuse: Current | None = told("rating of its main fuse")


class Charger(Item):
    """One mains battery charger."""

    output: Current | None = told("rated output")
    charges: BankName | None = told("name of the bank that it charges")
    temperature_sensor: bool = yes_or_no("has a battery temperature sensor")


class DirectConverter(Item):
    """One DC-to-DC charger or converter."""

    output: Current | None = told("rated output")
    charges: BankName | None = told("name of the bank that it charges")
    fed_from: BankName | None = told("name of the bank that feeds it")


class SolarArray(Item):
    """One group of solar panels on its own regulator."""

    power: Power | None = told("rated peak power")
    panels: Count | None = told("number of panels")
    tilt: Angle | None = told("tilt from the horizontal")
    regulator: Literal["mppt", "pwm"] | None = told("kind of regulator")
    mounting: Literal["glued", "ventilated"] | None = told("glued down, or with air behind")
    open_circuit_voltage: Voltage | None = told("open-circuit voltage of one panel")
    short_circuit_current: Current | None = told("short-circuit current of one panel")
    in_series: Count | None = told("panels in series in each string")
    input_limit: Voltage | None = told("greatest input voltage of the regulator")
    charges: BankName | None = told("name of the bank that it charges")


class WindGenerator(Item):
    """One wind generator."""

    power: Power | None = told("rated power")
    rotor_diameter: Length | None = told("diameter of the rotor")
    charges: BankName | None = told("name of the bank that it charges")


class Inverter(Item):
    """One inverter, or inverter with charger."""

    power: Power | None = told("continuous power")
    peak: Power | None = told("power for a few seconds")
    fed_from: BankName | None = told("name of the bank that feeds it")
    charger_output: Current | None = told("output as a charger, if it is one")
    transfer: bool = yes_or_no("switches over from shore or generator by itself")
    idle_power: Power | None = told("maker's figure of its own use without load")
    transfer_time: Duration | None = told("maker's figure of the time in which it switches over")
    low_voltage_cut_off: Voltage | None = told("battery voltage at which it switches off")


class DirectCurrent(SpecModel):
    """The direct-current system."""

    nominal_voltage: Voltage | None = told("nominal voltage")
    banks: Annotated[tuple[Bank, ...], Singular("bank")] = listed("battery banks")
    chargers: Annotated[tuple[Charger, ...], Singular("charger")] = listed("mains battery chargers")
    converters: Annotated[tuple[DirectConverter, ...], Singular("converter")] = listed("DC-to-DC chargers")
    solar: Annotated[tuple[SolarArray, ...], Singular("array")] = listed("solar arrays")
    wind: Annotated[tuple[WindGenerator, ...], Singular("wind_generator")] = listed("wind generators")
    inverters: Annotated[tuple[Inverter, ...], Singular("inverter")] = listed("inverters")
    cross_connect: bool = yes_or_no("start and house banks can be paralleled")
    circuits: Count | None = told("DC circuits on the panels")
    remote_switches: bool = yes_or_no("battery switches are worked from afar")
    insulated: bool = yes_or_no("neither pole is joined to hull, engine or bonding")
    always_on: Current | None = told("current that is meant to flow with the battery switches off")
    charge_splitter: Literal["diode", "relay"] | None = told("how one alternator charges two banks")
    bonded: bool = yes_or_no("underwater metal is bonded")
    anodes: Count | None = told("sacrificial anodes under water")
    anode_mass: Mass | None = told("mass of all sacrificial anodes together")
    anode_alloy: Literal["zinc", "aluminium"] | None = told("alloy of the anodes")
    haul_out_interval: Duration | None = told("time between haul-outs")


class ShoreInlet(Item):
    """One shore-power inlet."""

    rated_current: Current | None = told("rated current")
    three_phase: bool = yes_or_no("takes three phases, 400 V between them where a phase has 230 V")
    serves: Text | None = told("what it feeds")


class Generator(Item):
    """One generating set."""

    power: Power | None = told("rated electrical power")
    speed: RotationalSpeed | None = told("running speed")
    fuel: Literal["diesel", "petrol"] | None = told("fuel")
    hours: Duration | None = told("running hours on the meter")
    autostart: bool = yes_or_no("can start by itself")
    regulation: Literal["droop", "isochronous", "inverter"] | None = told("how the speed is governed")
    performance_class: Literal["G1", "G2", "G3"] | None = told("performance class of ISO 8528-5")
    tank: Annotated[str, RefersTo("tanks")] | None = told("name of the tank that feeds it")
    start_bank: BankName | None = told("name of the bank that starts it")
    sound_shield: bool = yes_or_no("has a sound shield")
    poles: Count | None = told("poles of the alternator, 2 or 4")
    voltage_regulator: Literal["automatic", "capacitor", "inverter"] | None = told("what holds the voltage")
    no_load_frequency: Frequency | None = told("maker's figure of the frequency without load")
    rated_fuel_rate: Flow | None = told("maker's figure of fuel burnt at full load")
    coolant_temperature: Temperature | None = told("maker's coolant temperature at full load")
    sound_level: SoundLevel | None = told("maker's sound level 1 m from the set")
    last_service: datetime.date | None = told("date of the last service")


class AlternatingCurrent(SpecModel):
    """The alternating-current system."""

    system: Literal["230 V 50 Hz", "120 V 60 Hz", "120/240 V 60 Hz"] = Field(
        default="230 V 50 Hz",
        description="voltage to neutral and frequency; 400 V between phases is 230 V with three_phase on its inlet",
    )
    shore_inlets: Annotated[tuple[ShoreInlet, ...], Singular("inlet")] = listed("shore-power inlets")
    generators: Annotated[tuple[Generator, ...], Singular("generator")] = listed("generators")
    rcd: bool = Field(default=True, description="residual-current protection fitted (RCD, ELCI)")
    rcd_rating: Current | None = told("rated residual current")
    rcd_type: Literal["AC", "A", "F", "B"] | None = told("type of the residual-current device")
    rcd_selective: bool = yes_or_no("the main residual-current device is delayed (type S)")
    ground_fault_outlets: Count | None = told("sockets with a ground-fault interrupter of their own")
    galvanic_isolator: bool = yes_or_no("galvanic isolator fitted")
    galvanic_isolator_rating: Current | None = told("rated current of the galvanic isolator")
    isolation_transformer: bool = yes_or_no("isolation transformer fitted")
    transformer_boost: bool = yes_or_no("the isolation transformer raises a low shore voltage")
    polarity_indicator: bool = yes_or_no("reverse-polarity indicator fitted")
    source_selector: Literal["manual", "automatic"] | None = told(
        "how shore, generator and inverter are chosen"
    )
    earth_conductor_length: Length | None = told("longest protective conductor from inlet to a socket")
    earth_conductor_section: Area | None = told("section of that conductor")
    largest_motor: Power | None = told("largest motor that starts on the mains")
    shore_cable_length: Length | None = told("length of the shore cable")
    circuits: Count | None = told("AC circuits on the panel")
