"""Calibrating the log against the speed through the water."""

from __future__ import annotations

from plangen.formulas.declare import formula, require_positive


@formula(true_speed="knot", log_speed="knot", returns="percent")
def log_calibration_factor(true_speed: float, log_speed: float) -> float:
    """Return the setting in percent that brings the log to the true speed.

    Arguments:
        true_speed: speed through the water from reciprocal runs, kn.
        log_speed: mean of the log's readings over the same runs, kn.

    Raises `OutOfRange` for values not above zero.

    Source: a chart plotter maker's manual, water speed offset, page read.

    Its example, the log at 8.5 and the true speed 10, sets 117 %:

    >>> int(log_calibration_factor(10.0, 8.5))
    117
    """
    require_positive(true_speed=true_speed, log_speed=log_speed)
    return float(100.0 * true_speed / log_speed)


@formula(log_speed="knot", true_speed="knot", returns="percent")
def log_error(log_speed: float, true_speed: float) -> float:
    """Return how far the log reads above the speed through the water, percent of that speed.

    Arguments:
        log_speed: mean of the log's readings over the runs, kn.
        true_speed: speed through the water from reciprocal runs, kn.

    Raises `OutOfRange` for values not above zero.

    Source: definition.

    >>> round(log_error(7.0, 6.9), 1)
    1.4
    """
    require_positive(log_speed=log_speed, true_speed=true_speed)
    return float(100.0 * (log_speed - true_speed) / true_speed)


@formula(length="foot", time="second", returns="knot")
def speed_past_a_float(length: float, time: float) -> float:
    """Return the speed in knots from the time in which a float passes along the hull.

    Arguments:
        length: length along the hull between the two observers, ft.
        time: time from one to the other, s.

    Raises `OutOfRange` for values not above zero.

    Source: knots = 0.59 x feet / seconds, a sailing writer's page on judging speed, page read.

    >>> round(speed_past_a_float(40.0, 4.0), 1)
    5.9
    """
    require_positive(length=length, time=time)
    return float(length * 0.3048 / time * 3600.0 / 1852.0)
