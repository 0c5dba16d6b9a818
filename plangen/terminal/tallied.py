"""What the terminal says of a tally over hulls."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.packs.grades import GRADES
from plangen.print.tally import by_interest, centre_text, deviation_text, limits_text
from plangen.print.words import CAUSE_WORDS, GRADE_WORDS, HANDOVER_WORDS
from plangen.series.model import FEW
from plangen.series.statistics import FEWEST_FOR_OUTLIERS
from plangen.terminal.console import console, table_of

if TYPE_CHECKING:
    from plangen.series.model import GroupYield, Tally

#: What finds room on a screen; the files hold all.
_MOST_HULLS, _MOST_FAILING, _MOST_READINGS = 30, 15, 12


def say_tally(tally: Tally, files: Sequence[Path]) -> None:
    """Print what hulls come to: where each stands, what fails, what stands apart, causes."""
    _say_hulls(tally)
    _say_yield("stage", tally.by_stage)
    _say_yield("system", tally.by_system)
    _say_failing(tally)
    _say_readings(tally)
    for cause in tally.causes:
        where = _named(cause.hulls)
        words = f"{cause.text}. " if cause.text else ""
        console.print(
            Text.assemble(
                ("cause ", ""),
                (cause.id, "bold"),
                f": {words}On {where}. {CAUSE_WORDS[cause.standing]}: {cause.why}",
            ),
            soft_wrap=True,
        )
    whole = tally.whole
    if whole.judged:
        console.print(
            Text(
                f"passed at first: {whole.passed} of {whole.judged} checks ({100 * whole.passed / whole.judged:.0f} %); "
                f"hulls without a fail: {whole.hulls}"
            ),
            soft_wrap=True,
        )
    if len(tally.hulls) < FEW:
        console.print(
            Text(
                f"{len(tally.hulls)} hulls are few: the brackets hold the range in which the true share lies, 95 times of 100"
            ),
            soft_wrap=True,
        )
    for path in files:
        console.print(Text(f"wrote {path}"))


def _say_hulls(tally: Tally) -> None:
    grades = [grade for grade in GRADES if any(grade in dict(hull.open_snags) for hull in tally.hulls)]
    open_columns = [f"open: {GRADE_WORDS[grade].lower()}" for grade in grades]
    numbers = ["to do", "failed at first", *open_columns]
    stages = ["stage"] if any(hull.stage for hull in tally.hulls) else []
    table = table_of("hull", "option sets", *numbers, *stages, "handover", numbers=numbers)
    hulls = [hull for hull in tally.hulls if hull.is_open]
    shown = tally.hulls if len(tally.hulls) <= _MOST_HULLS else hulls[:_MOST_HULLS]
    for hull in shown:
        counts = dict(hull.open_snags)
        options = ", ".join(hull.options)
        cells = [hull.to_do, hull.failed_at_first, *(counts.get(grade, 0) for grade in grades)]
        table.add_row(
            Text(hull.name, "bold"),
            Text(options),
            *(str(cell or "") for cell in cells),
            *([Text(hull.stage)] if stages else []),
            HANDOVER_WORDS[hull.handover],
        )
    console.print(table)
    if len(shown) < len(tally.hulls):
        console.print(Text(f"{len(shown)} of {len(tally.hulls)} hulls; the files hold all"))


def _say_yield(what: str, groups: Sequence[GroupYield]) -> None:
    if not groups:
        return
    console.print()
    table = table_of(
        what,
        "passed at first",
        "judged",
        "share",
        "hulls without a fail",
        numbers=("passed at first", "judged", "share"),
    )
    failing = [group for group in groups if group.passed < group.judged]
    for group in sorted(failing, key=lambda group: group.share or 0.0):
        share = f"{100 * group.passed / group.judged:.0f} %"
        table.add_row(Text(group.title), str(group.passed), str(group.judged), share, Text(str(group.hulls)))
    if failing:
        console.print(table)
    clean = len(groups) - len(failing)
    if clean:
        more = " more" if failing else ""
        console.print(
            Text(f"{clean}{more} {what}{'s' if clean != 1 else ''}: all that was judged passed at first")
        )


def _say_failing(tally: Tally) -> None:
    if not tally.failing:
        return
    console.print()
    table = table_of(
        "failing check", "grade", "failed on", "added up", "open on", "by option set", numbers=("added up",)
    )
    for one in tally.failing[:_MOST_FAILING]:
        table.add_row(
            Text(f"{one.item}: {one.title}"),
            GRADE_WORDS[one.grade].lower(),
            Text(str(one.failed)),
            f"{100 * one.cumulated:.0f} %",
            Text(_named(one.still_open)),
            Text("; ".join(str(share) for share in one.options)),
        )
    console.print(table)
    if len(tally.failing) > _MOST_FAILING:
        console.print(Text(f"{_MOST_FAILING} of {len(tally.failing)} failing checks; the files hold all"))


def _say_readings(tally: Tally) -> None:
    several = [one for one in by_interest(tally.readings) if one.spread.number > 1]
    if not several:
        return
    console.print()
    table = table_of(
        "reading",
        "n",
        "mean",
        "deviation",
        "limits",
        "outside",
        "stands apart",
        numbers=("n", "deviation", "outside"),
    )
    for one in several[:_MOST_READINGS]:
        apart = ", ".join(f"{reading.hull} {reading.value:.10g}" for reading in one.outliers)
        few = "too few to tell" if one.spread.number < FEWEST_FOR_OUTLIERS else ""
        table.add_row(
            Text(f"{one.item}: {one.words}"),
            str(one.spread.number),
            Text(centre_text(one)),
            deviation_text(one),
            Text(limits_text(one)),
            str(one.failing or ""),
            Text(apart or few),
        )
    console.print(table)
    if len(several) > _MOST_READINGS:
        console.print(
            Text(
                f"{_MOST_READINGS} of {len(several)} readings, what stands apart or fails first; the files hold all"
            )
        )


def _named(hulls: Sequence[str]) -> str:
    more = len(hulls) - 6
    return ", ".join(hulls[:6]) + (f" and {more} more" if more > 0 else "")
