"""The flag that she flies, as its law pack is titled."""

from __future__ import annotations

from plangen.plan.model import Plan


def flag_of(plan: Plan) -> str:
    """Return the title of the law of her flag, without what it says of its extent; the spec's own word where none is held."""
    flag = plan.boat.flag or ""
    title = next((law.title for law in plan.law if law.jurisdiction == flag), "")
    return title.partition(" (")[0] or flag.replace("-", " ").title()
