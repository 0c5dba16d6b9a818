"""Salt that a watermaker holds back, from what goes in and what comes out."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import Data, Point, Worker, pointwise
from plangen.formulas.sea_water import sea_water_dissolved_solids, sea_water_salinity
from plangen.formulas.watermaker import salt_rejection

#: Conductivities are read brought to this temperature.
_REFERENCE_TEMPERATURE = 25.0


def _rejection(here: Mapping[str, float], data: Data, point: Point) -> float:
    return salt_rejection(here["feed"] if "feed" in here else _solids(here), here["product"])


def _solids(here: Mapping[str, float]) -> float:
    salinity = sea_water_salinity(here["feed_conductivity"], _REFERENCE_TEMPERATURE)
    return sea_water_dissolved_solids(salinity, _REFERENCE_TEMPERATURE)


SALT_REJECTION = Worker(
    "one less the product's dissolved solids over the feed's; a feed given as conductivity is turned into "
    "salinity by PSS-78",
    pointwise(_rejection),
)
