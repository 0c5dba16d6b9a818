"""Ventilation of a compartment with a petrol engine, by the United States federal rule."""

from __future__ import annotations

from math import log

from plangen.formulas.declare import formula, require_positive


@formula(net_volume="foot**3", returns="foot**3/minute")
def petrol_blower_rating(net_volume: float) -> float:
    """Return the rated flow in cubic feet per minute of the exhaust blower of a petrol compartment.

    Arguments:
        net_volume: net volume of the compartment with those open to it, cubic feet.

    Raises `OutOfRange` for volumes not above zero.

    Source: 33 CFR 183.610 table 183.610 column 2, from a generator maker's manual and a design school's
    newsletter that print it (secondary).

    The newsletter's example of 319.7 cubic feet needs 259.8:

    >>> round(petrol_blower_rating(319.7), 1)
    259.9
    """
    require_positive(net_volume=net_volume)
    if net_volume < 34.0:
        return 50.0
    return float(1.5 * net_volume if net_volume <= 100.0 else net_volume / 2.0 + 100.0)


@formula(net_volume="foot**3", returns="foot**3/minute")
def petrol_blower_output(net_volume: float) -> float:
    """Return the flow in cubic feet per minute that the blower system is to move, measured at the outlet.

    Arguments:
        net_volume: net volume of the compartment with those open to it, cubic feet.

    Raises `OutOfRange` for volumes not above zero.

    Source: 33 CFR 183.610 table 183.610 column 3, seen as for `petrol_blower_rating`.

    >>> round(petrol_blower_output(319.7), 1)
    103.9
    """
    require_positive(net_volume=net_volume)
    if net_volume < 34.0:
        return 20.0
    return float(0.6 * net_volume if net_volume <= 100.0 else 0.2 * net_volume + 40.0)


@formula(net_volume="foot**3", returns="inch**2")
def petrol_natural_vent_area(net_volume: float) -> float:
    """Return the least area in square inches of the supply, and of the exhaust, of natural ventilation.

    Arguments:
        net_volume: net volume of the compartment with those open to it, cubic feet.

    The area of each opening or duct must exceed 3 square inches, which is the least result. Raises
    `OutOfRange` for volumes not above zero.

    Source: 33 CFR 183.630 (d) and (e), area = 5 ln (volume / 5), page read.

    >>> round(petrol_natural_vent_area(50.0), 2)
    11.51
    """
    require_positive(net_volume=net_volume)
    return float(max(3.0, 5.0 * log(net_volume / 5.0)))
