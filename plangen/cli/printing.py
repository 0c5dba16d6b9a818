"""PDFs with progress on the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from plangen.cli.options import PaperSize

if TYPE_CHECKING:
    from plangen.plan.model import Plan
    from plangen.print.html import Document


def print_pdf(document: Document, digest: str, what: str) -> bytes | None:
    """Make a PDF with progress on the terminal; where that can't be done, say why in one line."""
    from plangen.print.pdf import PrintingUnavailable, write_pdf
    from plangen.terminal.console import errors

    try:
        with errors.status(f"{what}: starting the printer") as status:
            return write_pdf(document, digest, lambda step: status.update(f"{what}: {step}"))
    except PrintingUnavailable as reason:
        errors.print(str(reason), markup=False)
        return None


def paper_name(paper: PaperSize | None, plan: Plan | None) -> Literal["A4", "letter"]:
    """Return the paper's name as the printer knows it: what was asked for, or else what the plan's house file says."""
    of_house = plan.house.paper if plan is not None and plan.house is not None else None
    chosen = paper.value if paper is not None else of_house
    return "letter" if chosen == "letter" else "A4"
