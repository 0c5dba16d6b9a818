"""The types of hull."""

from __future__ import annotations

from typing import Literal, get_args

HullType = Literal[
    "sailing-monohull",
    "sailing-catamaran",
    "sailing-trimaran",
    "motor-displacement",
    "motor-semi-displacement",
    "motor-planing",
    "motor-catamaran",
]

HULL_TYPES: tuple[str, ...] = get_args(HullType)
