"""How high the list of safety gear to buy or find stands, so that a short one shares its page."""

from __future__ import annotations

from plangen.plan.model import Plan
from plangen.print.carried.page import WIDTH, height

#: Millimetres: the heading, the heads of the table, a label, a row of the roomy table, a paper in one of three columns.
_HEAD, _HEADS, _LABEL, _ROW, _PAPER = 24.0, 7.0, 8.0, 8.2, 7.0
#: Rows up to which the table is roomy; a longer one fills its page.
_ROOMY = 20


def shopping_height(plan: Plan) -> float:
    """Return about how high the list stands in millimetres; nothing where there is none."""
    if not plan.shopping:
        return 0.0
    required = [line for line in plan.shopping if line.strength == "required"]
    goods = [line for line in required if line.list == "shopping"]
    papers = [line for line in required if line.list == "papers"]
    if len(goods) > _ROOMY:
        return 10 * _HEAD
    said = [f"No text held for {place.place}: {place.ask}" for place in plan.unheld]
    said += [f"{law.title}: {law.says}" for law in plan.law if law.state in ("visitor", "outside")]
    said += [f"{law.title} changes. {change}." for law in plan.law for change in law.changes]
    aboard = " ".join(f"nnn {line.title}" for line in plan.gear if line.aboard)
    advised = "; ".join(f"1 × {line.title}" for line in plan.shopping if line.strength == "recommended")
    return (
        _HEAD
        + sum(height(words, WIDTH) for words in said)
        + (_HEADS + _ROW * len(goods) if goods else 0.0)
        + (height(aboard, WIDTH, 9, 3.0) if aboard else 0.0)
        + (_LABEL + _PAPER * -(-len(papers) // 3) if papers else 0.0)
        + (height(advised, WIDTH, 9, 3.0) if advised else 0.0)
    )
