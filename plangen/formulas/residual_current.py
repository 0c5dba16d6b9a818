"""Trip times of devices that sense current flowing to earth."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, TEXT, formula, require_positive, require_within
from plangen.formulas.vocabulary import choose, choose_listed

#: Longest break time, s, by kind of device and multiple of the rated residual current.
BREAK_TIMES = {
    "general": {1.0: 0.300, 2.0: 0.150, 5.0: 0.040},
    "selective": {1.0: 0.500, 2.0: 0.200, 5.0: 0.150},
    "BS 4293": {1.0: 0.200, 5.0: 0.040},
    "ELCI": {1.0: 0.100},
}
#: Shortest break time of a selective device, s.
SELECTIVE_DELAYS = {1.0: 0.130, 5.0: 0.050}
#: Test current over rated current, by the wave that the tester sends.
TEST_WAVES = {"AC": 1.0, "A": 1.4}


@formula(device=TEXT, multiple=NUMBER, returns="second")
def residual_current_break_time(device: str, multiple: float = 1.0) -> float:
    """Return the longest time in s that a residual-current device may take to trip.

    At half its rated current it must not trip.

    Arguments:
        device: "general", "selective" (type S), "BS 4293" (older, also BS 7288), or "ELCI".
        multiple: test current over rated residual current: 1, 2 or 5; 1 or 5 for BS 4293, 1 for ELCI.

    Some modern 30 mA devices are certified 40 ms at 250 mA, not at 5 times. Raises `OutOfRange` outside.

    Source: IEC 61008-1 and 61009-1, BS 4293 and BS 7288, as a trip-time table of an inspectors' magazine
    gives them; ELCI: ABYC E-11.11.1 as quoted, 30 mA in 100 ms.

    >>> residual_current_break_time("general", 5.0)
    0.04
    """
    times = choose("device", device, BREAK_TIMES)
    return times[choose_listed("multiple", multiple, times)]


@formula(multiple=NUMBER, returns="second")
def selective_minimum_time(multiple: float = 1.0) -> float:
    """Return the shortest time in s that a selective (type S) residual-current device may take to trip.

    Arguments:
        multiple: test current over rated residual current: 1 or 5.

    Raises `OutOfRange` for another.

    Source: IEC 61008-1 and 61009-1, as two testers' manuals restate them.

    >>> selective_minimum_time(1.0)
    0.13
    """
    return SELECTIVE_DELAYS[choose_listed("multiple", multiple, SELECTIVE_DELAYS)]


@formula(rated_residual_current="milliampere", multiple=NUMBER, wave=TEXT, returns="milliampere")
def residual_test_current(rated_residual_current: float, multiple: float = 1.0, wave: str = "AC") -> float:
    """Return the current in mA that a tester must send for a test of a residual-current device.

    Arguments:
        rated_residual_current: rated residual current, mA.
        multiple: 0.5, 1, 2 or 5.
        wave: "AC" for full waves, "A" for half waves, which need 1.4 times the current.

    Raises `OutOfRange` outside.

    Source: the factor 1.4 as electricians report it from BS 7671 and testers' settings.

    >>> round(residual_test_current(30.0, 5.0, "A"))
    210
    """
    require_positive(rated_residual_current=rated_residual_current)
    times = choose_listed("multiple", multiple, (0.5, 1.0, 2.0, 5.0))
    return times * choose("wave", wave, TEST_WAVES) * rated_residual_current


@formula(current="milliampere", returns="second")
def ground_fault_interrupter_time(current: float) -> float:
    """Return the longest time in s that a class A ground-fault circuit interrupter may take to trip.

    It must not trip at 4 mA, and must at 6 mA.

    Arguments:
        current: current to ground, mA, 6 to 264.

    Raises `OutOfRange` outside.

    Source: UL 943 as an electricians' page and a device maker's manual restate it: (20/I)^1.43 s.

    >>> round(ground_fault_interrupter_time(30.0), 2)
    0.56
    """
    require_within("current", current, 6.0, 264.0)
    return float((20.0 / current) ** 1.43)


@formula(breaker_type=TEXT, rating="ampere", voltage="volt", returns="ohm")
def loop_impedance_limit(breaker_type: str, rating: float, voltage: float = 230.0) -> float:
    """Return the greatest earth-fault loop impedance in ohm at which a circuit-breaker trips at once.

    Arguments:
        breaker_type: "B", "C" or "D".
        rating: rated current of the breaker, A.
        voltage: nominal voltage to earth, V.

    Raises `OutOfRange` outside.

    Source: BS 7671 table 41.3 as a trade page reprints it: 0.95 U0 over 5, 10 or 20 times the rating.

    >>> round(loop_impedance_limit("B", 16.0), 2)
    2.73
    """
    require_positive(rating=rating, voltage=voltage)
    times = choose("breaker type", breaker_type, {"B": 5.0, "C": 10.0, "D": 20.0})
    return 0.95 * voltage / (times * rating)


@formula(rated_residual_current="milliampere", returns="ohm")
def residual_loop_impedance_limit(rated_residual_current: float) -> float:
    """Return the greatest earth-fault loop impedance in ohm behind a residual-current device.

    Arguments:
        rated_residual_current: rated residual current, mA.

    Raises `OutOfRange` unless it is above zero.

    Source: IEC 60364-4-41, touch voltage of no more than 50 V, from memory.

    >>> round(residual_loop_impedance_limit(30.0))
    1667
    """
    require_positive(rated_residual_current=rated_residual_current)
    return 50.0 / (rated_residual_current / 1000)
