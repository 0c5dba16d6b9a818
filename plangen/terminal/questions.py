"""What the terminal says of open questions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from plangen.terminal.console import console

if TYPE_CHECKING:
    from plangen.plan.model import Plan, Question


def _decides(question: Question) -> str:
    many = question.expected_values
    parts = [f"{many} expected value{'' if many == 1 else 's'}"] if many else []
    if question.checks:
        more = len(question.checks) - 5
        parts.append(f"checks {', '.join(question.checks[:5])}" + (f" and {more} more" if more > 0 else ""))
    if question.adds:
        more = len(question.adds) - 5
        listed = ", ".join(question.adds[:5]) + (f" and {more} more" if more > 0 else "")
        parts.append(f"whether these are added: {listed}")
    if question.laws:
        parts.append(f"law of {', '.join(question.laws)}")
    return "decides " + "; ".join(parts)


def say_questions(plan: Plan) -> None:
    """Print the open questions, the weightiest first."""
    if not plan.questions:
        console.print("The spec answers every question that the checks ask.")
        return
    for question in plan.questions:
        assumed = f"  assumed {question.assumed}" if question.assumed else ""
        assumed += "  (yours to answer)" if question.to == "owner" else ""
        console.print(Text.assemble((question.key, "bold"), f"  {question.asks}{assumed}"), soft_wrap=True)
        console.print(Text(f"    {_decides(question)}"), soft_wrap=True)
