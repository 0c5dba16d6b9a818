"""Frequency and voltage of an engine-driven alternating-current generator."""

from __future__ import annotations

from typing import NamedTuple

from plangen.formulas.declare import NUMBER, TEXT, OutOfRange, formula, require_positive
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


@formula(performance_class=TEXT, returns="percent")
def frequency_droop_limit(performance_class: str) -> float:
    """Return the greatest fall of frequency from no load to full load that a generator's class allows, %.

    Arguments:
        performance_class: "G1", "G2" or "G3".

    Raises `OutOfRange` for another.

    Source: ISO 8528-5 performance classes; G2 as a tender specification (mrb78.info) quotes it, G1 and G3 from memory.

    >>> frequency_droop_limit("G2")
    5.0
    """
    return choose("performance class", performance_class, PERFORMANCE_CLASSES).droop


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
