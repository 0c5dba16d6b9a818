"""Apparent slip of the propeller from the mean speed of reciprocal runs."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import SINGLE, Data, Point, Worker, pointwise
from plangen.formulas import OutOfRange
from plangen.formulas.propeller import apparent_slip, theoretical_propeller_speed


def _slip(here: Mapping[str, float], data: Data, point: Point) -> float:
    if point is SINGLE and "engine_speed" not in data.inputs:
        raise OutOfRange("the engine speed of the run isn't known")
    engine_speed = data.number("engine_speed") if point is SINGLE else point
    theoretical = theoretical_propeller_speed(data.number("pitch"), engine_speed, data.number("gear_ratio"))
    return apparent_slip(here["speed"], theoretical)


APPARENT_SLIP = Worker(
    "one less the speed over that without slip, which is pitch times shaft speed", pointwise(_slip)
)
