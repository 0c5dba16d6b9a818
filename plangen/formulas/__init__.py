"""Trade formulas: pure functions of floats in declared units, each with its source and worked example.

Every module in this package is imported, so a new formula needs no entry anywhere else.
"""

from importlib import import_module
from pkgutil import iter_modules

from plangen.formulas.declare import FORMULAS, Formula, OutOfRange

for _module in iter_modules(__path__):
    import_module(f"{__name__}.{_module.name}")

__all__ = ["FORMULAS", "Formula", "OutOfRange"]
