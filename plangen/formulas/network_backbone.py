"""Supply and termination of an NMEA 2000 backbone."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

#: Resistance of one terminator, ohm.
TERMINATOR = 120.0


@formula(length="metre", load_equivalence=NUMBER, resistance="ohm/metre", returns="volt")
def backbone_voltage_drop(length: float, load_equivalence: float, resistance: float = 0.057) -> float:
    """Return the voltage in V that an NMEA 2000 backbone loses, with all load at its far end.

    Arguments:
        length: length of the backbone from the power tap to its end, up to 100 m.
        load_equivalence: sum of the load equivalence numbers of the devices on it.
        resistance: resistance of one supply conductor, ohm/m, 0.005 to 0.1: 0.053 to 0.057 for light cable, about 0.012
            for heavy (from memory).

    Most makers allow 1.5 V on a 12 V battery, one 1.67 V. Raises `OutOfRange` outside.

    Source: three marine electronics makers' installation manuals: 0.1 x load x length x resistance.

    >>> round(backbone_voltage_drop(12.0, 20.0, 0.053), 2)
    1.27
    """
    require_positive(length=length, load_equivalence=load_equivalence)
    require_within("length", length, 0.0, 100.0)
    require_within("resistance", resistance, 0.005, 0.1)
    return 0.1 * load_equivalence * length * resistance


@formula(terminators=NUMBER, returns="ohm")
def backbone_resistance(terminators: float = 2.0) -> float:
    """Return the resistance in ohm between the two signal conductors of an unpowered NMEA 2000 backbone.

    Arguments:
        terminators: terminators fitted: 2 in a sound backbone; 1 shows 120 ohm, 3 show 40 ohm.

    Raises `OutOfRange` for less than 1 or more than 4.

    Source: a terminator of 120 ohm at each end (an equipment maker's manual), in parallel.

    >>> backbone_resistance()
    60.0
    """
    if terminators not in (1, 2, 3, 4):
        raise OutOfRange(f"terminators is {terminators:g}; known: 1 to 4")
    return TERMINATOR / terminators
