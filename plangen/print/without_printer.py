"""What comes with a plan and needs no printer: the spreadsheet and the field page."""

from __future__ import annotations

from plangen.plan.model import Plan
from plangen.print.field.page import field_page
from plangen.print.sheets_table import sheets_xlsx


def files_without_printer(plan: Plan) -> dict[str, bytes]:
    """Return them by their names."""
    return {"sheets.xlsx": sheets_xlsx(plan), "plan.html": field_page(plan)}
