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

    Each reading in turn is moved up and down by its own expanded uncertainty; half of what the figure changes by between the
    two is added as a square, which takes the readings as independent of one another. Where a figure holds on one side
    only, that side's whole change counts.

    Source: JCGM 100:2008 (GUM), 5.1.2 with the numerical method of the note to 5.1.3 (from memory).
    """
    changes: dict[Point, list[float]] = {point: [] for point in result}
    for role, curve in data.readings.items():
        for point, value in curve.items():
            own = uncertainties[role].get(point)
            if own is None:
                return None
            sides = [
                side
                for moved in (value + own, value - own)
                if (side := _worked_out(work, data, role, {**curve, point: moved})) is not None
            ]
            if not sides:
                return None
            for place in result:
                ends = [side[place] for side in sides]
                changes[place].append((ends[0] - ends[1]) / 2 if len(ends) > 1 else ends[0] - result[place])
    return {point: hypot(*parts) for point, parts in changes.items()}


def _worked_out(work: Work, data: Data, role: str, curve: Curve) -> Curve | None:
    try:
        return work(Data({**data.readings, role: curve}, data.inputs))
    except OutOfRange:
        return None
