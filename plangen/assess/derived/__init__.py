"""Figures worked out of several readings, each with its own verdict where the plan expects one."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.assess.model import CheckVerdict, DerivedFigure
from plangen.plan.model import Plan


def derive(plan: Plan, checks: Sequence[CheckVerdict]) -> tuple[DerivedFigure, ...]:
    """Return every derived figure for which the readings are there."""
    return ()
