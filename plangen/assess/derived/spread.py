"""The uncertainty of a figure, from the uncertainties of the readings that it is worked out of."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot

from plangen.assess.derived.data import Curve, Data, Point, Work
from plangen.formulas import OutOfRange

#: Expanded uncertainty of each reading by role and point.
Uncertainties = Mapping[str, Mapping[Point, float | None]]


def spread(work: Work, data: Data, result: Curve, uncertainties: Uncertainties) -> dict[Point, float] | None:
    """Return the expanded uncertainty at each point of a figure; nothing where that of a reading isn't known.

    Each reading in turn is moved by its own expanded uncertainty; the changes of the figure are added as
    squares, which takes the readings as independent of one another.

    Source: JCGM 100:2008 (GUM), 5.1.2 with the numerical method of the note to 5.1.3 (from memory).
    """
    changes: dict[Point, list[float]] = {point: [] for point in result}
    for role, curve in data.readings.items():
        for point, value in curve.items():
            own = uncertainties[role].get(point)
            if own is None:
                return None
            moved = Data({**data.readings, role: {**curve, point: value + own}}, data.inputs)
            try:
                after = work(moved)
            except OutOfRange:
                return None
            for place in result:
                changes[place].append(after[place] - result[place])
    return {point: hypot(*parts) for point, parts in changes.items()}
