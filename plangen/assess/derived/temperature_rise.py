"""By how much something leaves warmer than it came in."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import Data, Point, Worker, pointwise


def _rise(here: Mapping[str, float], data: Data, point: Point) -> float:
    return here["outlet"] - here["inlet"]


TEMPERATURE_RISE = Worker("temperature at the outlet less that at the inlet", pointwise(_rise))
