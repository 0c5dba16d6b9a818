"""Figures worked out of several readings, each with its own verdict where the plan expects one."""

from __future__ import annotations

from collections.abc import Sequence

from plangen.assess.derived.judge import judge_figure
from plangen.assess.derived.work_out import Figures
from plangen.assess.model import CheckVerdict, DerivedFigure
from plangen.plan.model import Plan


def derive(plan: Plan, checks: Sequence[CheckVerdict]) -> tuple[DerivedFigure, ...]:
    """Return every derived figure for which the readings are there, in the order of the plan.

    A figure builds on the last attempt at each check; where a reading was left blank that another figure
    gives, that figure stands in its place.
    """
    figures = Figures(plan, {check.id: check for check in checks})
    return tuple(
        judge_figure(check, index, outcome, figures)
        for check in plan.checks
        for index in range(len(check.derive))
        if (outcome := figures.outcome(check, index)) is not None
    )
