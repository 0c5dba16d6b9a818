"""Davits, cranes and lifting platforms, and lines loaded at the middle."""

from __future__ import annotations

from plangen.formulas.declare import OutOfRange, formula, require_positive


@formula(safe_working_load="tonne", returns="tonne")
def proof_load(safe_working_load: float) -> float:
    """Return the load in tonnes with which lifting gear is proved.

    Arguments:
        safe_working_load: safe working load, t.

    Raises `OutOfRange` for loads not above zero.

    Source: a class society's crane table, as quoted by Jim Jota, Load testing of lifting equipment on yachts (secondary):
    1.25 x to 20 t, 5 t more to 50 t, 1.1 x above.

    >>> proof_load(0.5)
    0.625
    """
    require_positive(safe_working_load=safe_working_load)
    if safe_working_load <= 20.0:
        return float(1.25 * safe_working_load)
    return float(safe_working_load + 5.0 if safe_working_load <= 50.0 else 1.1 * safe_working_load)


@formula(load="newton", span="metre", sag="metre", returns="newton")
def line_tension_at_midspan(load: float, span: float, sag: float) -> float:
    """Return the tension in newtons of a line between two points, such as a jackstay, loaded at its middle.

    Arguments:
        load: load across the line at its middle, N.
        span: distance between the ends, m.
        sag: how far the middle moves under the load, m.

    A nearly straight line multiplies the load many times over. Raises `OutOfRange` where the sag is below a
    hundredth of the span, since the stretch of the line then rules, and for values not above zero.

    Source: balance of forces, as in sling angle tables.

    Legs at 30 degrees from the horizontal each carry the whole load:

    >>> round(line_tension_at_midspan(1000.0, 2.0 * 3.0**0.5, 1.0))
    1000
    """
    require_positive(load=load, span=span, sag=sag)
    if sag < span / 100.0:
        raise OutOfRange(
            f"sag is {sag:g} m on a span of {span:g} m; below a hundredth of it the stretch rules"
        )
    return float(load / 2.0 * ((span / 2.0) ** 2 + sag**2) ** 0.5 / sag)
