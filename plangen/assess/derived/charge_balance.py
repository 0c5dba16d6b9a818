"""What a bank gained or lost, from the charge counted in and out."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import Data, Point, Worker, pointwise
from plangen.formulas.charge_time import charge_balance


def _balance(here: Mapping[str, float], data: Data, point: Point) -> float:
    return charge_balance(here["charge_in"], here["charge_out"], str(data.inputs["chemistry"]))


CHARGE_BALANCE = Worker(
    "charge put in, times the charge efficiency of the chemistry, less the charge taken out",
    pointwise(_balance),
)
