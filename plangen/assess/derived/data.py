"""What a figure is worked out of: the readings by role and point, and the values of the spec."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import isclose

#: The point of a reading that is no series.
SINGLE = None

Point = float | None
#: Values by the point at which they hold.
Curve = Mapping[Point, float]


@dataclass(frozen=True)
class Data:
    """The readings and inputs of one figure, each in the unit that the figure is declared with."""

    readings: Mapping[str, Curve]
    inputs: Mapping[str, float | str]

    def number(self, name: str) -> float:
        """Return an input that is a number."""
        return float(self.inputs[name])

    def series(self, role: str) -> dict[float, float]:
        """Return a reading by its points."""
        return {point: value for point, value in self.readings[role].items() if point is not None}


#: Works a figure out; raises `OutOfRange` where its formula doesn't hold.
Work = Callable[[Data], Curve]


@dataclass(frozen=True)
class Worker:
    """How one figure is worked out, and that in a few words."""

    how: str
    work: Work


def pointwise(work: Callable[[Mapping[str, float], Data, Point], float]) -> Work:
    """Return the work on whole series from that on the readings at one point.

    A reading that is no series holds at every point; a point that one of the series lacks is left out.
    """

    def over_points(data: Data) -> Curve:
        lists = [curve for curve in data.readings.values() if SINGLE not in curve]
        points: list[Point] = list(lists[0]) if lists else [SINGLE]
        result: dict[Point, float] = {}
        for point in points:
            here = {role: at_point(curve, point) for role, curve in data.readings.items()}
            present = {role: value for role, value in here.items() if value is not None}
            if len(present) == len(here):
                result[point] = work(present, data, point)
        return result

    return over_points


def at_point(curve: Curve, point: Point) -> float | None:
    """Return the value at a point, or the only value of a reading that is no series.

    >>> at_point({1500.0: 5.1, 3000.0: 7.4}, 3000.0), at_point({None: 7.4}, 3000.0), at_point({1500.0: 5.1}, 3000.0)
    (7.4, 7.4, None)
    >>> at_point({1500.0: 5.1}, 1502.0), at_point({1500.0: 5.1}, 1503.1), at_point({0.0: 1.5}, 0.0000005), at_point({0.0: 1.5}, None)
    (5.1, None, 1.5, None)
    """
    if SINGLE in curve:
        return curve[SINGLE]
    for other, value in curve.items():
        if other is not None and point is not None and isclose(other, point, rel_tol=2e-3, abs_tol=1e-6):
            return value
    return None
