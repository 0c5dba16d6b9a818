"""`plangen why`: why a check is in the plan."""

from __future__ import annotations

from typing import Annotated

import typer

from plangen.cli.faults import input_faults
from plangen.cli.options import HouseOption, PacksOption, SpecFile, UnitsOption, units_name


def why(
    spec: SpecFile,
    check: Annotated[str, typer.Argument(help="Id of a check, as rule@item.")],
    units: UnitsOption = None,
    pack: PacksOption = None,
    house: HouseOption = None,
) -> None:
    """Say why a check is in the plan and where each expected value comes from.

    Example: plangen why specs/catamaran.yaml holding-tank-lockout@port-forward-head
    """
    from plangen import api
    from plangen.terminal.reason import say_reason

    with input_faults():
        reason = api.explain(api.load_spec(spec, pack or (), house), check, units_name(units))
    say_reason(reason)
