"""What the terminal says of a file that came back from the boat."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from plangen.terminal.console import console

if TYPE_CHECKING:
    from plangen.collect.collect import FormTaken


def say_collected(form: FormTaken) -> None:
    """Print what a filled form brought, and what somebody has to look at."""
    more = f", {len(form.also_found)} also found" if form.also_found else ""
    more += f", {form.photos} photos" if form.photos else ""
    counted = f"{form.name}: {form.taken} checks taken, {form.known} known already{more}"
    console.print(Text(counted), soft_wrap=True)
    if form.no_digest:
        console.print(Text("  it names no plan: its codes are read as this folder's plan has them"))
    if form.other_plan is not None and form.is_list:
        warning = f"  warning: its codes are those of plan {form.other_plan}, another version; they are kept as remarks"
        console.print(Text(warning), soft_wrap=True)
    elif form.other_plan is not None:
        warning = f"  warning: filled on plan {form.other_plan}, another version of this boat's plan; what was taken is under second_look"
        console.print(Text(warning), soft_wrap=True)
    if form.pages_missing:
        console.print(Text(f"  warning: {form.pages_missing} checks of the plan have no fields in it"))
    if form.undated_retest:
        warning = "  warning: a retest without a date; where it says the same as before, it isn't told from the first round"
        console.print(Text(warning), soft_wrap=True)
    for words, lines in (
        ("not of this plan, kept apart", form.apart),
        ("look by hand", form.faults),
        ("also found", form.also_found),
        ("kept as a remark", form.remarks),
        ("two readings, both kept; ask and read again", form.disagreements),
        ("the page showed another verdict", form.shown_otherwise),
    ):
        for line in lines:
            console.print(Text(f"  {words}: {line}"), soft_wrap=True)
