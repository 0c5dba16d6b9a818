"""Voltage that a circuit loses, as per cent of the nominal voltage."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import Data, Point, Worker, pointwise
from plangen.formulas.voltage_drop import voltage_loss_percent


def _percent(here: Mapping[str, float], data: Data, point: Point) -> float:
    return voltage_loss_percent(here["lost"], data.number("nominal_voltage"))


VOLTAGE_DROP_PERCENT = Worker(
    "voltage lost on both sides together, of the nominal voltage", pointwise(_percent)
)
