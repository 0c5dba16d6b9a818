"""Options that several commands share."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated, Literal

import typer


class Units(StrEnum):
    """Units in which values are shown."""

    metric = "metric"
    us = "us"
    both = "both"


class PaperSize(StrEnum):
    """Paper on which a plan is printed."""

    a4 = "a4"
    letter = "letter"


SpecFile = Annotated[Path, typer.Argument(help="The boat's spec, a YAML file.")]


UnitsOption = Annotated[
    Units | None,
    typer.Option(help="Units in which values are shown: those of the house file, otherwise metric."),
]


PacksOption = Annotated[
    list[Path] | None,
    typer.Option("--pack", help="A folder of packs of your own; may be given more than once."),
]


InstrumentsOption = Annotated[
    Path | None,
    typer.Option(
        "--instruments",
        help="Your instrument register; without it, instruments.yaml in the boat's folder or up to two above it.",
    ),
]


PaperOption = Annotated[
    PaperSize | None, typer.Option(help="Paper size: that of the house file, otherwise A4.")
]


HouseOption = Annotated[
    Path | None,
    typer.Option("--house", help="Your house file; without it, house.yaml beside the spec if there is one."),
]


def units_name(units: Units | None) -> Literal["metric", "us", "both"] | None:
    """Return the units as the library names them; nothing where none were asked for."""
    return units.value if units is not None else None
