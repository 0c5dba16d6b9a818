"""What the terminal says of why a check is in the plan."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.terminal.console import console

if TYPE_CHECKING:
    from plangen.plan.why import Input, Reason


def say_reason(reason: Reason) -> None:
    """Print why a check is in the plan."""
    check = reason.check.check
    console.print(Text.assemble((check.id, "bold"), f"  {check.title}"))
    if check.protects:
        console.print(Text(f"against    {check.protects}"))
    console.print(Text(f"rule       {check.rule}, {reason.place}"))
    console.print(Text(f"in plan    {reason.condition}"))
    _say_inputs(reason.condition_inputs)
    if check.after:
        console.print(Text(f"after      {', '.join(check.after)}"))
    for reading in reason.readings:
        expected = reading.expectation
        console.print()
        console.print(Text.assemble((expected.reading, "bold"), f": {expected.shown}"))
        console.print(Text(f"  basis    {expected.basis}"))
        if expected.computed is not None:
            console.print(
                Text(f"  computed {expected.computed:g} {expected.unit}, which the {expected.basis} beats")
            )
        if reading.formula:
            console.print(Text(f"  formula  {reading.formula}"))
        if reading.arithmetic:
            console.print(Text(f"  reckoned {reading.arithmetic}"))
        _say_inputs(reading.inputs)
        console.print(Text(f"  source   {reading.source}"))
        if expected.note:
            console.print(Text(f"  note     {expected.note}"))


def _say_inputs(inputs: Sequence[Input]) -> None:
    for one in inputs:
        console.print(Text(f"  input    {one.key} = {one.value}  ({one.origin})"))
