"""Pressure accumulators in fresh-water systems."""

from __future__ import annotations

from plangen.formulas.declare import OutOfRange, formula, require_positive

ATMOSPHERE = 1.01325


@formula(volume="litre", precharge="bar", cut_in="bar", cut_out="bar", returns="litre")
def accumulator_drawdown(volume: float, precharge: float, cut_in: float, cut_out: float) -> float:
    """Return the litres drawn from an accumulator between pump stop and pump start.

    Arguments:
        volume: of the accumulator, L.
        precharge: air pressure with no water pressure, bar gauge.
        cut_in: pressure at which the pump starts, bar gauge.
        cut_out: pressure at which the pump stops, bar gauge.

    Boyle's law with absolute pressures, isothermal. Raises `OutOfRange` unless all are above zero, the
    pre-charge is not above the cut-in and the cut-in is below the cut-out.

    Source: Boyle's law.

    >>> round(accumulator_drawdown(8.0, 1.2, 1.4, 2.8), 2)
    2.69
    """
    require_positive(volume=volume, precharge=precharge, cut_in=cut_in, cut_out=cut_out)
    if precharge > cut_in:
        raise OutOfRange(f"pre-charge {precharge:g} bar is above the cut-in {cut_in:g} bar")
    if cut_in >= cut_out:
        raise OutOfRange(f"cut-in {cut_in:g} bar is not below the cut-out {cut_out:g} bar")
    air = volume * (precharge + ATMOSPHERE)
    return air / (cut_in + ATMOSPHERE) - air / (cut_out + ATMOSPHERE)


@formula(cut_in="bar", returns="bar")
def accumulator_precharge(cut_in: float) -> float:
    """Return the air pressure in bar to set in an accumulator with no water pressure.

    Arguments:
        cut_in: pressure at which the pump starts, bar gauge.

    2 psi (0.14 bar) below the cut-in. Raises `OutOfRange` for a cut-in that is not above 0.14 bar.

    Source: EngineerFix, "What should the psi be on a well pressure tank" (2 psi below cut-in); the band of 18 to
    22 psi for a 25 psi cut-in in other guides lies within 0.4 bar of it.

    A cut-in of 25 psi (1.72 bar) asks for 23 psi (1.59 bar):

    >>> round(accumulator_precharge(1.724), 2)
    1.59
    """
    two_psi = 0.1379
    if not cut_in > two_psi:
        raise OutOfRange(f"cut-in is {cut_in:g} bar; it must be above {two_psi:g} bar")
    return cut_in - two_psi
