"""The error of a tank's gauge at each metered volume."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import Data, Point, Worker, pointwise
from plangen.formulas import OutOfRange
from plangen.formulas.tanks import tank_gauge_error


def _error(here: Mapping[str, float], data: Data, point: Point) -> float:
    if point is None:
        raise OutOfRange("the volume at which the gauge was read isn't known")
    return tank_gauge_error(here["gauge"], point, data.number("capacity"))


TANK_GAUGE_ERROR = Worker("reading less metered volume, of the tank's capacity", pointwise(_error))
