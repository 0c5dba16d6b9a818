"""Options that several commands share."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

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


UnitsOption = Annotated[Units, typer.Option(help="Units in which values are shown.")]


PacksOption = Annotated[
    list[Path] | None,
    typer.Option("--pack", help="A folder of packs of your own; may be given more than once."),
]


PaperOption = Annotated[PaperSize, typer.Option(help="Paper size.")]


InstrumentsOption = Annotated[
    Path | None,
    typer.Option(
        "--instruments",
        help="Your instrument register; without it, instruments.yaml in the boat's folder or up to two above it.",
    ),
]
