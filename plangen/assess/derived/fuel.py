"""Fuel for each mile, and how far the tanks go, from measured rate and speed."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import Data, Point, Worker, pointwise
from plangen.formulas.fuel_and_range import fuel_per_mile, range_under_power


def _per_mile(here: Mapping[str, float], data: Data, point: Point) -> float:
    return fuel_per_mile(here["rate"], here["speed"])


def _range(here: Mapping[str, float], data: Data, point: Point) -> float:
    reserve = {"reserve": data.number("reserve")} if "reserve" in data.inputs else {}
    return range_under_power(data.number("usable_fuel"), here["rate"], here["speed"], **reserve)


FUEL_PER_MILE = Worker("fuel rate of all engines over the speed", pointwise(_per_mile))
RANGE_UNDER_POWER = Worker(
    "usable fuel less the reserve (a tenth where none is named) over the fuel rate, times the speed",
    pointwise(_range),
)
