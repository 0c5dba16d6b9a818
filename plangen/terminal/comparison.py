"""What the terminal says of two plans side by side."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.terminal.console import console

if TYPE_CHECKING:
    from plangen.plan.compare import Comparison, Difference
    from plangen.plan.model import PlannedCheck

#: Why a check is left out of a plan, in a few words.
LEFT_OUT = {
    "time": "no time beside what is kept in hand",
    "sea-time": "no time at sea",
    "people": "too few people",
    "darkness": "no darkness",
    "daylight": "too little daylight",
    "series": "not routine on this hull",
    "order": "what comes before is left out",
    "priority": "priority not asked for",
}


#: How many checks that were left out before, or now are, a draft still names one by one.
FEW = 5


def say_comparison(comparison: Comparison, choice_counted: bool = False) -> None:
    """Print what differs between two plans, one line for each reading, step or other thing that does.

    With `choice_counted`, many checks that only the hours, the people or the scope brought in or took out are one line.
    """
    if comparison.is_empty:
        console.print("the two plans have the same checks, alike in all that is said of them")
        return
    for words, differing, reason in (
        ("added", comparison.added, "was left out"),
        ("gone", comparison.gone, "left out"),
    ):
        checks = list(differing)
        by_reason = Counter(comparison.left_out.get(check.id) for check in checks) if choice_counted else {}
        for why, many in by_reason.items():
            if why is not None and many > FEW:
                chosen = [check for check in checks if comparison.left_out.get(check.id) == why]
                checks = [check for check in checks if check not in chosen]
                said = (
                    f"{words:7}  {many} checks  ({reason}: {LEFT_OUT.get(why, why)}); first {chosen[0].title}"
                )
                console.print(Text(said), soft_wrap=True)
        _say_checks(words, checks, comparison.left_out, reason)
    for change in comparison.changed:
        first, *more = change.checks
        also = "".join(f", @{id.partition('@')[2]}" for id in more)
        console.print(Text(f"changed  {first}{also}  {change.title}"), soft_wrap=True)
        for difference in change.differences:
            console.print(Text(f"    {_line(difference)}"), soft_wrap=True)
    counts = (len(comparison.added), len(comparison.gone), comparison.changed_checks)
    console.print(Text("{} added, {} gone, {} changed".format(*counts)))


def _say_checks(words: str, checks: Sequence[PlannedCheck], left_out: dict[str, str], reason: str) -> None:
    for check in checks:
        why = left_out.get(check.id)
        note = f"  ({reason}: {LEFT_OUT.get(why, why)})" if why else ""
        console.print(Text(f"{words:7}  {check.id}  {check.title}{note}"), soft_wrap=True)


def _line(difference: Difference) -> str:
    if not difference.before:
        return f"{difference.what}, new: {difference.after}"
    if not difference.after:
        return f"{difference.what}, gone: {difference.before}"
    return f"{difference.what}: {difference.before} -> {difference.after}"
