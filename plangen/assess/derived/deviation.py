"""The compass: coefficients A to E of a swing, and what they leave over on each heading."""

from __future__ import annotations

from plangen.assess.derived.data import SINGLE, Curve, Data, Work, Worker
from plangen.formulas.compass import (
    DeviationCoefficients,
    deviation_coefficients,
    deviation_on_heading,
    fitted_deviation_coefficients,
)

_PRINCIPAL = {0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0}


def _coefficients(data: Data) -> DeviationCoefficients:
    swing = data.series("deviation")
    return deviation_coefficients(swing) if set(swing) == _PRINCIPAL else fitted_deviation_coefficients(swing)


def _one(letter: str) -> Work:
    def work(data: Data) -> Curve:
        return {SINGLE: float(getattr(_coefficients(data), letter))}

    return work


def _residual(data: Data) -> Curve:
    coefficients = _coefficients(data)
    return {
        heading: deviation - deviation_on_heading(heading, *coefficients)
        for heading, deviation in data.series("deviation").items()
    }


_HOW = {
    "a": "mean of the deviations on all headings",
    "b": "half of the deviation on east less that on west",
    "c": "half of the deviation on north less that on south",
    "d": "a quarter of north-east less south-east plus south-west less north-west",
    "e": "a quarter of north less east plus south less west",
}

COEFFICIENTS = {f"deviation-coefficient-{letter}": Worker(how, _one(letter)) for letter, how in _HOW.items()}
DEVIATION_RESIDUAL = Worker(
    "deviation read, less that which coefficients A to E give; a large rest is a heading read wrong",
    _residual,
)
