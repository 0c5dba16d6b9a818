"""Heads and holding tanks: how many flushes and how many days fill one."""

from __future__ import annotations

import math

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within


@formula(
    capacity="litre", flush_volume="litre", body_volume="litre", lockout_share=NUMBER, returns="dimensionless"
)
def flushes_to_fill(
    capacity: float, flush_volume: float, body_volume: float = 0.0, lockout_share: float = 1.0
) -> float:
    """Return the number of whole flushes that fill a holding tank from empty to its lockout level.

    Arguments:
        capacity: gross capacity of the tank, L.
        flush_volume: water per flush, L.
        body_volume: what a person adds per use, L: 0 for a trial with clean water, 0.2 to 0.3 in use.
        lockout_share: share of the capacity at which the full-tank switch acts; lockouts act at 0.9 to 1.

    Raises `OutOfRange` for a capacity or flush volume not above zero, a negative body volume, or a lockout
    share outside 0.5 to 1.

    Source: volume balance; body volume and lockout level from memory (common practice).

    >>> flushes_to_fill(120.0, 3.0)
    40.0
    >>> [flushes_to_fill(80.0, litres, lockout_share=0.9) for litres in (0.5, 1.0, 2.0, 3.0, 5.7)]
    [144.0, 72.0, 36.0, 24.0, 12.0]
    """
    require_positive(capacity=capacity, flush_volume=flush_volume)
    require_within("lockout_share", lockout_share, 0.5, 1.0)
    if not body_volume >= 0:
        raise OutOfRange(f"body volume is {body_volume:g}; it must not be below zero")
    return float(math.floor(lockout_share * capacity / (flush_volume + body_volume) + 1e-9))


@formula(capacity="litre", persons=NUMBER, daily_volume="litre/day", returns="day")
def holding_tank_days(capacity: float, persons: float, daily_volume: float = 12.0) -> float:
    """Return the days until a holding tank is full in use.

    Arguments:
        capacity: gross capacity of all holding tanks, L.
        persons: aboard.
        daily_volume: litres per person and day; 11 L is at the low end of what is published, 12 to 15 L is
            prudent.

    Raises `OutOfRange` unless all are above zero.

    Source: daily volume: Practical Sailor, "Vacuum flush toilets for sailboats", gives 3 US gal (11 L) as the least;
    common practice above.

    >>> holding_tank_days(120.0, 4.0)
    2.5
    """
    require_positive(capacity=capacity, persons=persons, daily_volume=daily_volume)
    return capacity / (persons * daily_volume)
