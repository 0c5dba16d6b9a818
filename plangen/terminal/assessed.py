"""What the terminal says of an assessment."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.assess.instruments import instrument_faults
from plangen.terminal.console import console, errors, table_of

if TYPE_CHECKING:
    from plangen.assess.model import Assessment
    from plangen.findings.model import Findings
    from plangen.plan.model import Plan


def say_assessment(
    plan: Plan,
    findings: Findings,
    assessment: Assessment,
    files: Sequence[Path],
    missing_photos: Mapping[str, str],
) -> None:
    """Print what findings and plan came to, and which photos that the findings name weren't found."""
    console.print(Text.assemble((plan.boat.name, "bold"), f"  plan {plan.short_digest}"))
    if findings.plan and findings.plan != plan.digest:
        errors.print(Text("the findings were written for another version of the plan; draft her again"))
    counts = ("checks", "done", "to_do", "passed", "failed", "too_close", "limited")
    table = table_of(
        "system", *(name.replace("_", " ") for name in counts), numbers=[n.replace("_", " ") for n in counts]
    )
    for line in assessment.summary:
        if line.done:
            table.add_row(Text(line.title), *(str(getattr(line, name)) for name in counts))
    all_systems = (str(sum(getattr(line, name) for line in assessment.summary)) for name in counts)
    table.add_row(Text("all", "bold"), *all_systems)
    console.print(table)
    states = Counter(snag.state for snag in assessment.snags)
    shown = ", ".join(f"{count} {state}" for state, count in states.items())
    console.print(Text(f"snags: {len(assessment.snags)}" + (f" ({shown})" if shown else "")))
    for words, totals in (
        ("held back", assessment.sums_held_back),
        ("price reduced by", assessment.price_reductions),
    ):
        for currency, total in totals.items():
            console.print(Text(f"{words}: {total} {currency}"))
    if to_price := assessment.money.to_price:
        console.print(Text(f"still to be settled or priced: snag {', '.join(map(str, to_price))}"))
    for name, why in missing_photos.items():
        console.print(Text(f"photo {name}: {why}"), soft_wrap=True)
    for fault, many in instrument_faults((*assessment.checks, *assessment.gone)).items():
        readings = f"{many} reading{'s' if many != 1 else ''}"
        console.print(Text(f"instrument: {fault} ({readings})"), soft_wrap=True)
    say_stages(assessment)
    for path in files:
        console.print(Text(f"wrote {path}"))
    console.print(Text(assessment.handover.line, "bold"), soft_wrap=True)


def say_stages(assessment: Assessment) -> None:
    """Print where each stage stands and why, a line each, with what was recorded while it was closed."""
    for stage in assessment.stages:
        console.print(
            Text.assemble(f"stage {stage.title}: ", (stage.state, "bold"), f", {stage.why}"), soft_wrap=True
        )
        if stage.early:
            more = f" and {len(stage.early) - 3} more" if len(stage.early) > 3 else ""
            console.print(
                Text(f"  recorded while it was closed: {', '.join(stage.early[:3])}{more}"), soft_wrap=True
            )
        if stage.witness:
            console.print(Text(f"  {stage.witnessed}"), soft_wrap=True)
