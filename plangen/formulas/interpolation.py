"""Reading between the rows of a published table, never beyond them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from plangen.formulas.declare import OutOfRange


def interpolate(name: str, x: float, rows: Sequence[tuple[float, float]]) -> float:
    """Return y at x by straight lines between the rows (x, y), which rise in x.

    Raises `OutOfRange`, with the name of the quantity, beyond the first and the last row.

    >>> interpolate("load", 1.5, [(1.0, 10.0), (2.0, 20.0)])
    15.0
    """
    if not rows[0][0] <= x <= rows[-1][0]:
        raise OutOfRange(f"{name} is {x:g}; the table runs from {rows[0][0]:g} to {rows[-1][0]:g}")
    upper = bisect_left(rows, (x, float("-inf")))
    if rows[upper][0] == x:
        return rows[upper][1]
    (x0, y0), (x1, y1) = rows[upper - 1], rows[upper]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
