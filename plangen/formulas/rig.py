"""Tension of standing rigging by the folding rule: how much a length of two metres stretches."""

from __future__ import annotations

from plangen.formulas.declare import TEXT, formula, require_within
from plangen.formulas.vocabulary import choose

#: Stretch in millimetres of two metres of wire for each 5 % of its breaking load.
_STRETCH = {"1x19": 1.0, "compact strand": 0.95, "rod": 0.70}


@formula(stretch="millimetre", construction=TEXT, returns="percent")
def wire_tension(stretch: float, construction: str = "1x19") -> float:
    """Return the tension of a wire, percent of its breaking load, from the stretch of two metres of it.

    Arguments:
        stretch: lengthening of a measured two metres from slack, mm.
        construction: "1x19", "compact strand" or "rod".

    Valid for stainless rigging after it has bedded in, and for stretches from 0 to 8 mm. Raises `OutOfRange`
    outside and for another word.

    Source: a spar maker's rigging hints, p. 45, page read (1x19); a cruising forum (compact strand, rod: the
    figure for rod is from memory).

    A published example, 3 mm on 1x19 wire, is 15 %:

    >>> wire_tension(3.0)
    15.0
    """
    require_within("stretch", stretch, 0.0, 8.0)
    return float(5.0 * stretch / choose("construction", construction, _STRETCH))


@formula(tension="percent", construction=TEXT, returns="millimetre")
def wire_stretch(tension: float, construction: str = "1x19") -> float:
    """Return by how many millimetres two metres of a wire lengthen at a tension.

    Arguments:
        tension: tension wanted, % of the breaking load.
        construction: "1x19", "compact strand" or "rod".

    Valid up to 30 %; cap shrouds are set at 15 to 20 and never above 25. Raises `OutOfRange` outside and for
    another word.

    Source: as `wire_tension`.

    >>> wire_stretch(20.0)
    4.0
    """
    require_within("tension", tension, 0.0, 30.0)
    return float(tension / 5.0 * choose("construction", construction, _STRETCH))
