"""Turning and zig-zag: ships' limits used as a yardstick for yachts."""

from __future__ import annotations

from plangen.formulas.declare import TEXT, formula, require_positive
from plangen.formulas.vocabulary import choose

#: Limit in ship's lengths.
_MANOEUVRE_LENGTHS = {"advance": 4.5, "tactical diameter": 5.0, "stopping": 15.0, "initial turning": 2.5}


@formula(length="metre", manoeuvre=TEXT, returns="metre")
def manoeuvring_limit(length: float, manoeuvre: str) -> float:
    """Return the greatest distance in metres that a standard manoeuvre may take.

    Arguments:
        length: waterline length, m.
        manoeuvre: "advance" or "tactical diameter" of the turning circle, "stopping" from full speed with
            full astern, or "initial turning", the track to a change of heading of 10 degrees with 10 degrees
            of helm.

    A ships' standard: a yacht does far better. Raises `OutOfRange` for another word and lengths not above
    zero.

    Source: IMO resolution MSC.137(76), Standards for ship manoeuvrability, para 5.3.

    >>> manoeuvring_limit(12.0, "tactical diameter")
    60.0
    """
    require_positive(length=length)
    return float(length * choose("manoeuvre", manoeuvre, _MANOEUVRE_LENGTHS))


def _between(seconds: float, at_ten: float, at_thirty: float) -> float:
    """Return the limit that runs straight from its value at 10 s to that at 30 s and is constant outside."""
    share = (min(max(seconds, 10.0), 30.0) - 10.0) / 20.0
    return at_ten + share * (at_thirty - at_ten)


@formula(length="metre", speed="metre/second", returns="degree")
def first_overshoot_limit(length: float, speed: float) -> float:
    """Return the greatest first overshoot in degrees of the 10/10 zig-zag.

    Arguments:
        length: waterline length, m.
        speed: speed at the start, m/s.

    Raises `OutOfRange` for values not above zero.

    Source: IMO resolution MSC.137(76) para 5.3: 10 degrees where length over speed is below 10 s, 20 degrees
    from 30 s, 5 + half of it between.

    >>> first_overshoot_limit(12.0, 3.6)
    10.0
    """
    require_positive(length=length, speed=speed)
    return float(_between(length / speed, 10.0, 20.0))


@formula(length="metre", speed="metre/second", returns="degree")
def second_overshoot_limit(length: float, speed: float) -> float:
    """Return the greatest second overshoot in degrees of the 10/10 zig-zag.

    Arguments:
        length: waterline length, m.
        speed: speed at the start, m/s.

    Raises `OutOfRange` for values not above zero.

    Source: IMO resolution MSC.137(76) para 5.3: 25 degrees where length over speed is below 10 s, 40 degrees
    from 30 s, 17.5 + 0.75 of it between.

    >>> second_overshoot_limit(12.0, 3.6)
    25.0
    """
    require_positive(length=length, speed=speed)
    return float(_between(length / speed, 25.0, 40.0))
