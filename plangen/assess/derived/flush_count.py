"""Whether the flushes that filled a holding tank fit the water of one flush."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import Data, Point, Worker, pointwise
from plangen.formulas.holding_tank import flushes_to_fill


def _excess(here: Mapping[str, float], data: Data, point: Point) -> float:
    share = {"lockout_share": data.number("lockout_share")} if "lockout_share" in data.inputs else {}
    measured = data.number("flushes_measured") if "flushes_measured" in data.inputs else 1.0
    worked_out = flushes_to_fill(data.number("capacity"), here["flush_volume"] / measured, **share)
    return 100.0 * (here["counted"] - worked_out) / worked_out


FLUSH_COUNT = Worker(
    "flushes counted, against those that the tank takes at the measured water of one flush",
    pointwise(_excess),
)
