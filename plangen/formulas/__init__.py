"""Trade formulas: pure functions of floats in declared units, each with its source and worked example."""

from plangen.formulas import displacement_speed
from plangen.formulas.declare import FORMULAS, Formula, OutOfRange

__all__ = ["FORMULAS", "Formula", "OutOfRange", "displacement_speed"]
