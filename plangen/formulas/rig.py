"""Tension of standing rigging by the folding rule: how much a length of two metres stretches."""

from __future__ import annotations

from plangen.formulas.declare import TEXT, formula, require_within
from plangen.formulas.vocabulary import choose

#: Stretch in millimetres of two metres of wire for each 5 % of its breaking load.
_STRETCH = {"1x19": 1.0, "compact strand": 0.95, "rod": 0.70}


@formula(tension="percent", construction=TEXT, returns="millimetre")
def wire_stretch(tension: float, construction: str = "1x19") -> float:
    """Return by how many millimetres two metres of a wire lengthen at a tension.

    Arguments:
        tension: tension wanted, % of the breaking load.
        construction: "1x19", "compact strand" or "rod".

    Valid up to 30 %; cap shrouds are set at 15 to 20 and never above 25. Raises `OutOfRange` outside and for
    another word.

    Source: Seldén Mast, Hints and advice, the folding rule method (1x19); Cruisers Forum, tuning your rig
    (compact strand, rod: the figure for rod is from memory).

    A published example, 15 % on 1x19 wire is 3 mm:

    >>> wire_stretch(15.0)
    3.0
    """
    require_within("tension", tension, 0.0, 30.0)
    return float(tension / 5.0 * choose("construction", construction, _STRETCH))
