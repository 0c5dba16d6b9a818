"""Direct and alternating current."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from plangen.spec.model.base import (
    Angle,
    Area,
    Charge,
    Count,
    Current,
    Duration,
    Equipment,
    Flow,
    Frequency,
    Length,
    Mass,
    NominalVoltage,
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


class Bank(Equipment):
    """One battery bank."""

    chemistry: Literal["flooded", "agm", "gel", "tppl", "lithium-iron-phosphate"] | None = told(
        "battery chemistry"
    )
    capacity: Charge | None = told("rated capacity (20 h rate for lead)", "400 Ah", ("5 Ah", "20000 Ah"))
    voltage: NominalVoltage | None = told("nominal voltage, if not the boat's", "12 V", ("2 V", "800 V"))
    use: Literal["house", "start", "thruster", "windlass", "generator", "emergency", "electronics"] | None = (
        told("what it serves")
    )
    batteries: Count | None = told("batteries in the bank", "2")
    age: Duration | None = told("age", "3 years", ("0 days", "40 years"))
    cold_cranking: Current | None = told("cold cranking current of one battery", "800 A", ("50 A", "3000 A"))
    monitor: bool = yes_or_no("has a battery monitor with shunt")
    cable_length: Length | None = told(
        "length of cable from bank to main bus, there and back", "3 m", ("0.1 m", "60 m")
    )
    cable_section: Area | None = told("conductor section of that cable", "70 mm²", ("1 mm²", "500 mm²"))
    battery_mass: Mass | None = told("mass of one battery", "25 kg", ("1 kg", "800 kg"))
    absorption_voltage: Voltage | None = told(
        "maker's absorption voltage at 25 °C", "14.4 V", ("2 V", "900 V")
    )
    float_voltage: Voltage | None = told("maker's float voltage at 25 °C", "13.5 V", ("2 V", "900 V"))
    charge_limit: Current | None = told(
        "greatest charge current that its maker allows", "100 A", ("1 A", "3000 A")
    )
    cut_off_voltage: Voltage | None = told(
        "voltage at which its own protection opens when empty", "10.5 V", ("1.5 V", "700 V")
    )
    fuse: Current | None = told("rating of its main fuse", "250 A", ("1 A", "3000 A"))


class Charger(Equipment):
    """One mains battery charger."""

    output: Current | None = told("rated output", "40 A", ("1 A", "1000 A"))
    charges: BankName | None = told("name of the bank that it charges")
    temperature_sensor: bool = yes_or_no("has a battery temperature sensor")


class DirectConverter(Equipment):
    """One DC-to-DC charger or converter."""

    output: Current | None = told("rated output", "30 A", ("1 A", "1000 A"))
    charges: BankName | None = told("name of the bank that it charges")
    fed_from: BankName | None = told("name of the bank that feeds it")


class SolarArray(Equipment):
    """One group of solar panels on its own regulator."""

    power: Power | None = told("rated peak power", "300 W", ("5 W", "30 kW"))
    panels: Count | None = told("number of panels", "2")
    tilt: Angle | None = told("tilt from the horizontal", "0 °", ("-90 °", "90 °"))
    regulator: Literal["mppt", "pwm"] | None = told("kind of regulator")
    mounting: Literal["glued", "ventilated"] | None = told("glued down, or with air behind")
    open_circuit_voltage: Voltage | None = told("open-circuit voltage of one panel", "22 V", ("3 V", "200 V"))
    short_circuit_current: Current | None = told(
        "short-circuit current of one panel", "9 A", ("0.1 A", "50 A")
    )
    in_series: Count | None = told("panels in series in each string", "1")
    input_limit: Voltage | None = told("greatest input voltage of the regulator", "100 V", ("10 V", "1000 V"))
    charges: BankName | None = told("name of the bank that it charges")


class WindGenerator(Equipment):
    """One wind generator."""

    power: Power | None = told("rated power", "400 W", ("10 W", "10 kW"))
    rotor_diameter: Length | None = told("diameter of the rotor", "1.2 m", ("0.3 m", "8 m"))
    charges: BankName | None = told("name of the bank that it charges")


class Inverter(Equipment):
    """One inverter, or inverter with charger."""

    power: Power | None = told("continuous power", "2000 W", ("50 W", "100 kW"))
    peak: Power | None = told("power for a few seconds", "4000 W", ("50 W", "300 kW"))
    fed_from: BankName | None = told("name of the bank that feeds it")
    charger_output: Current | None = told("output as a charger, if it is one", "70 A", ("1 A", "1000 A"))
    transfer: bool = yes_or_no("switches over from shore or generator by itself")
    idle_power: Power | None = told("maker's figure of its own use without load", "12 W", ("0.1 W", "500 W"))
    transfer_time: Duration | None = told(
        "maker's figure of the time in which it switches over", "20 ms", ("0 s", "120 s")
    )
    low_voltage_cut_off: Voltage | None = told(
        "battery voltage at which it switches off", "10.5 V", ("2 V", "700 V")
    )


class DirectCurrent(SpecModel):
    """The direct-current system."""

    nominal_voltage: NominalVoltage | None = told("nominal voltage", "12 V", ("6 V", "120 V"))
    banks: Annotated[tuple[Bank, ...], Singular("bank")] = listed("battery banks")
    chargers: Annotated[tuple[Charger, ...], Singular("charger")] = listed("mains battery chargers")
    converters: Annotated[tuple[DirectConverter, ...], Singular("converter")] = listed("DC-to-DC chargers")
    solar: Annotated[tuple[SolarArray, ...], Singular("array")] = listed("solar arrays")
    wind: Annotated[tuple[WindGenerator, ...], Singular("wind_generator")] = listed("wind generators")
    inverters: Annotated[tuple[Inverter, ...], Singular("inverter")] = listed("inverters")
    cross_connect: bool = yes_or_no("start and house banks can be paralleled")
    circuits: Count | None = told("DC circuits on the panels", "20")
    remote_switches: bool = yes_or_no("battery switches are worked from afar")
    insulated: bool = yes_or_no("neither pole is joined to hull, engine or bonding")
    always_on: Current | None = told(
        "current that is meant to flow with the battery switches off", "30 mA", ("0 mA", "50 A")
    )
    charge_splitter: Literal["diode", "relay"] | None = told("how one alternator charges two banks")
    bonded: bool = yes_or_no("underwater metal is bonded")
    anodes: Count | None = told("sacrificial anodes under water", "2")
    anode_mass: Mass | None = told("mass of all sacrificial anodes together", "6 kg", ("50 g", "2000 kg"))
    anode_alloy: Literal["zinc", "aluminium"] | None = told("alloy of the anodes")
    haul_out_interval: Duration | None = told("time between haul-outs", "12 months", ("1 months", "10 years"))


class ShoreInlet(Equipment):
    """One shore-power inlet."""

    rated_current: Current | None = told("rated current", "16 A", ("2 A", "400 A"))
    three_phase: bool = yes_or_no("takes three phases, 400 V between them where a phase has 230 V")
    serves: Text | None = told("what it feeds")


class Generator(Equipment):
    """One generating set."""

    power: Power | None = told("rated electrical power", "8 kW", ("0.5 kW", "500 kW"))
    speed: RotationalSpeed | None = told("running speed", "1500 rpm", ("1000 rpm", "6000 rpm"))
    fuel: Literal["diesel", "petrol"] | None = told("fuel")
    autostart: bool = yes_or_no("can start by itself")
    regulation: Literal["droop", "isochronous", "inverter"] | None = told("how the speed is governed")
    performance_class: Literal["G1", "G2", "G3"] | None = told("performance class of ISO 8528-5")
    tank: Annotated[str, RefersTo("tanks")] | None = told("name of the tank that feeds it")
    start_bank: BankName | None = told("name of the bank that starts it")
    sound_shield: bool = yes_or_no("has a sound shield")
    poles: Count | None = told("poles of the alternator, 2 or 4", "4")
    voltage_regulator: Literal["automatic", "capacitor", "inverter"] | None = told("what holds the voltage")
    no_load_frequency: Frequency | None = told(
        "maker's figure of the frequency without load", "51.5 Hz", ("45 Hz", "66 Hz")
    )
    rated_fuel_rate: Flow | None = told(
        "maker's figure of fuel burnt at full load", "2.8 L/h", ("0.1 L/h", "200 L/h")
    )
    coolant_temperature: Temperature | None = told(
        "maker's coolant temperature at full load", "78 °C", ("35 °C", "110 °C")
    )
    sound_level: SoundLevel | None = told(
        "maker's sound level 1 m from the set", "65 dB", ("30 dB", "120 dB")
    )


class AlternatingCurrent(SpecModel):
    """The alternating-current system."""

    system: Literal["230 V 50 Hz", "120 V 60 Hz", "120/240 V 60 Hz"] = Field(
        default="230 V 50 Hz",
        description="voltage to neutral and frequency; 400 V between phases is 230 V with three_phase on its inlet",
    )
    shore_inlets: Annotated[tuple[ShoreInlet, ...], Singular("inlet")] = listed("shore-power inlets")
    generators: Annotated[tuple[Generator, ...], Singular("generator")] = listed("generators")
    rcd: bool = Field(default=True, description="residual-current protection fitted (RCD, ELCI)")
    rcd_rating: Current | None = told("rated residual current", "30 mA", ("5 mA", "1000 mA"))
    rcd_type: Literal["AC", "A", "F", "B"] | None = told("type of the residual-current device")
    rcd_selective: bool = yes_or_no("the main residual-current device is delayed (type S)")
    galvanic_isolator: bool = yes_or_no("galvanic isolator fitted")
    galvanic_isolator_rating: Current | None = told(
        "rated current of the galvanic isolator", "16 A", ("5 A", "400 A")
    )
    isolation_transformer: bool = yes_or_no("isolation transformer fitted")
    transformer_boost: bool = yes_or_no("the isolation transformer raises a low shore voltage")
    polarity_indicator: bool = yes_or_no("reverse-polarity indicator fitted")
    source_selector: Literal["manual", "automatic"] | None = told(
        "how shore, generator and inverter are chosen"
    )
    earth_conductor_length: Length | None = told(
        "longest protective conductor from inlet to a socket", "18 m", ("1 m", "200 m")
    )
    earth_conductor_section: Area | None = told(
        "section of that conductor", "2.5 mm²", ("0.5 mm²", "150 mm²")
    )
    largest_motor: Power | None = told("largest motor that starts on the mains", "1.5 kW", ("50 W", "200 kW"))
    shore_cable_length: Length | None = told("length of the shore cable", "15 m", ("1 m", "150 m"))
    circuits: Count | None = told("AC circuits on the panel", "6")
