"""Frequency and voltage of an engine-driven alternating-current generator."""

from __future__ import annotations

from typing import NamedTuple

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose


class PerformanceClass(NamedTuple):
    """Limits of one performance class of ISO 8528-5, per cent of rated."""

    droop: float
    steady_voltage: float
    dip_on_load: float


#: G2 was read in a specification that quotes it; G1 and G3 are from memory.
PERFORMANCE_CLASSES = {
    "G1": PerformanceClass(8.0, 5.0, 25.0),
    "G2": PerformanceClass(5.0, 2.5, 20.0),
    "G3": PerformanceClass(3.0, 1.0, 15.0),
}


@formula(no_load="hertz", full_load="hertz", rated="hertz", returns="percent")
def frequency_droop(no_load: float, full_load: float, rated: float) -> float:
    """Return the fall of a generator's frequency from no load to full load, per cent of rated.

    Arguments:
        no_load: frequency without load, Hz.
        full_load: frequency at full load, Hz.
        rated: rated frequency, 50 or 60 Hz.

    Raises `OutOfRange` for a rise and for values outside 40 to 75 Hz.

    Source: definition in ISO 8528-5, from memory.

    >>> round(frequency_droop(62.0, 60.0, 60.0), 1)
    3.3
    """
    for name, value in (("no_load", no_load), ("full_load", full_load), ("rated", rated)):
        require_within(name, value, 40.0, 75.0)
    if full_load > no_load:
        raise OutOfRange(f"full load is {full_load:g} Hz, above the {no_load:g} Hz without load")
    return 100 * (no_load - full_load) / rated


@formula(performance_class=TEXT, returns="percent")
def frequency_droop_limit(performance_class: str) -> float:
    """Return the greatest fall of frequency from no load to full load that a generator's class allows, %.

    Arguments:
        performance_class: "G1", "G2" or "G3".

    Raises `OutOfRange` for another.

    Source: ISO 8528-5 performance classes; G2 as a specification quotes it, G1 and G3 from memory.

    >>> frequency_droop_limit("G2")
    5.0
    """
    return choose("performance class", performance_class, PERFORMANCE_CLASSES).droop


@formula(rated_frequency="hertz", droop="percent", returns="hertz")
def no_load_frequency(rated_frequency: float, droop: float) -> float:
    """Return the frequency in Hz without load of a generator that gives its rated one at full load.

    Arguments:
        rated_frequency: rated frequency, 40 to 75 Hz.
        droop: fall from no load to full load, 0 to 8 %; a small mechanical governor has 2.5 to 4.2 %.

    Raises `OutOfRange` outside.

    Source: definition of droop. A mechanical governor set to 61.5 to 62.5 Hz without load is what a
    generator maker's manual asks for at 60 Hz; 2.5 % is its low end:

    >>> round(no_load_frequency(60.0, 2.5), 6)
    61.5
    """
    require_within("rated_frequency", rated_frequency, 40.0, 75.0)
    require_within("droop", droop, 0.0, 8.0)
    return rated_frequency * (1 + droop / 100)


@formula(rated_voltage="volt", performance_class=TEXT, returns="volt")
def generator_voltage_tolerance(rated_voltage: float, performance_class: str) -> float:
    """Return the steady deviation in V, either way, that a generator's class allows from no to full load.

    Arguments:
        rated_voltage: rated voltage, V.
        performance_class: "G1", "G2" or "G3". Small sets without a voltage regulator often need 8 to 10 %.

    Raises `OutOfRange` outside.

    Source: as `frequency_droop_limit`.

    >>> generator_voltage_tolerance(230.0, "G2")
    5.75
    """
    require_positive(rated_voltage=rated_voltage)
    return (
        choose("performance class", performance_class, PERFORMANCE_CLASSES).steady_voltage
        / 100
        * rated_voltage
    )


@formula(rated_voltage="volt", performance_class=TEXT, returns="volt")
def generator_dip_voltage(rated_voltage: float, performance_class: str) -> float:
    """Return the lowest voltage in V to which a generator may dip when a load is put on.

    Arguments:
        rated_voltage: rated voltage, V.
        performance_class: "G1", "G2" or "G3".

    Raises `OutOfRange` outside.

    Source: as `frequency_droop_limit`: 20 % for G2, read; 25 and 15 % for G1 and G3, from memory.

    >>> generator_dip_voltage(230.0, "G2")
    184.0
    """
    require_positive(rated_voltage=rated_voltage)
    dip = choose("performance class", performance_class, PERFORMANCE_CLASSES).dip_on_load
    return (100 - dip) / 100 * rated_voltage


@formula(speed="rpm", poles=NUMBER, returns="hertz")
def generator_frequency(speed: float, poles: float) -> float:
    """Return the frequency in Hz of a synchronous generator.

    Arguments:
        speed: speed of the generator, rpm.
        poles: number of poles, 2, 4, 6 or 8.

    Raises `OutOfRange` outside.

    Source: one cycle for each pair of poles and turn.

    >>> generator_frequency(1500.0, 4.0)
    50.0
    """
    require_positive(speed=speed)
    if poles not in (2, 4, 6, 8):
        raise OutOfRange(f"poles is {poles:g}; known: 2, 4, 6, 8")
    return speed * poles / 120
