"""The commissioning sheet: who did and who checked each check, serial numbers, torque marks, and the release of each stage."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from plangen.plan.model import Plan, PlannedCheck, PlannedStage
from plangen.print.html import Document, Paper, render


@dataclass(frozen=True)
class SheetLine:
    """One check: what the plate is expected to say, where it asks for one."""

    check: PlannedCheck
    asks_plate: bool
    plate: str


@dataclass(frozen=True)
class StageTable:
    """The checks of a stage by system, with who releases it; without stages, all checks."""

    stage: PlannedStage
    systems: tuple[tuple[str, tuple[SheetLine, ...]], ...]

    @property
    def checks(self) -> int:
        """Return how many checks it has."""
        return sum(len(lines) for _, lines in self.systems)


def commissioning_document(plan: Plan, paper: Paper = "A4") -> Document:
    """Return the commissioning sheet of a plan."""
    html = render("commissioning.html.j2", plan=plan, tables=list(_tables(plan)), paper=paper)
    return Document(html, "style.css", "commissioning.css")


def _tables(plan: Plan) -> Iterator[StageTable]:
    whole = PlannedStage(id="all", title="All checks", hold="whoever releases her")
    for stage in plan.stages or (whole,):
        own = [check for check in plan.checks if not plan.stages or check.stage == stage.id]
        yield StageTable(
            stage,
            tuple(
                (line.title, tuple(_line(check) for check in own if check.system == line.system))
                for line in plan.summary
                if any(check.system == line.system for check in own)
            ),
        )


def _line(check: PlannedCheck) -> SheetLine:
    plates = [one for one in check.expect if one.record in ("plate", "serial-number")]
    stated = next((one.shown for one in plates if one.plate), "")
    return SheetLine(check, bool(plates), stated)
