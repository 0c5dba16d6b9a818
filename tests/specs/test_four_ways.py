"""A story: two people, four ways back from the boat, two rounds, a renamed item and a changed spec, and nothing is lost."""

from __future__ import annotations

import io
import json
from pathlib import Path

import openpyxl
from pypdf import PdfReader, PdfWriter

from plangen import api
from plangen.collect.field_names import note_field, reading_field
from plangen.collect.returned import read_returned
from plangen.folder import folder_of, take_forms, write_draft
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.print.carried.document import carried_document
from plangen.print.pdf import write_pdf
from plangen.print.sheets_table import sheets_xlsx

SPEC = """vessel: {{name: Tern, hull: motor-planing, length_hull: 7 m, persons: 4}}
engines: [{{name: {engine}{formerly}, fuel: petrol, power: 90 kW, drive: outboard}}]
heads: [{{name: head, flush: manual}}]
tanks: [{{name: fuel tank, holds: fuel, capacity: {capacity}}}, {{name: water tank, holds: fresh, capacity: 80 L}}]
"""


def drafted(folder: Path, engine: str, formerly: str, capacity: str) -> tuple[Plan, Path]:
    spec = folder / "tern.yaml"
    spec.write_text(SPEC.format(engine=engine, formerly=formerly, capacity=capacity), encoding="utf-8")
    plan = api.draft(api.load_spec(spec))
    hers = folder_of(plan, folder / "plans")
    write_draft(plan, hers, {"sheets.xlsx": sheets_xlsx(plan)})
    return plan, hers


def numbers_of(plan: Plan) -> list[tuple[PlannedCheck, Expectation]]:
    """Return readings that are one number, of different checks; those of the engine first."""
    found = [
        (check, expected)
        for check in plan.checks
        for expected in check.expect
        if expected.numeric and expected.code and not expected.series and not expected.record
    ]
    by_check = {check.id: (check, expected) for check, expected in reversed(found)}
    return sorted(by_check.values(), key=lambda one: (one[0].item != "motor", one[0].id))


def by_list(plan: Plan, *lines: str, head: str) -> bytes:
    return "\n".join([f"{head}, plan {plan.short_digest}", *lines]).encode()


def by_spreadsheet(folder: Path, code: str, typed: str) -> bytes:
    book = openpyxl.load_workbook(folder / "sheets.xlsx")
    sheet = book["Readings"]
    sheet["B2"], sheet["B3"] = "BK", "2030-05-11"
    heads = {str(cell.value): cell.column for cell in sheet[4]}
    row = next(row for row in range(5, sheet.max_row + 1) if sheet.cell(row, 1).value == code)
    sheet.cell(row, heads["found"]).value = typed
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


def by_field_page(plan: Plan, check: str, reading: str, typed: str) -> bytes:
    row = {"check": check, "reading": reading, "typed": typed, "by": "BK", "at": "2030-05-11T10:00:00Z"}
    boat = {"name": "Tern", "hull": "motor-planing", "length_hull": 7.0}
    said = {"format": "plangen-field/1", "boat": boat, "plan": plan.digest, "units": "metric", "attempt": 1}
    return json.dumps(said | {"device": "abcd", "readings": [row]}).encode()


def by_form(plan: Plan, check: PlannedCheck, values: dict[str, str]) -> bytes:
    """Fill the pages of one check's round; the others would come back blank."""
    (own,) = (one for one in plan.rounds if check.id in one.checks)
    checks = tuple(one for one in plan.checks if one.id in own.checks)
    pages = plan.model_copy(update={"checks": checks, "rounds": (own,), "sessions": ()})
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(write_pdf(carried_document(pages), plan.digest))))
    for page in writer.pages:
        if "/Annots" in page:
            writer.update_page_form_field_values(page, values, auto_regenerate=False)
    made = io.BytesIO()
    writer.write(made)
    return made.getvalue()


def test_the_story(tmp_path: Path) -> None:
    plan, folder = drafted(tmp_path, "motor", "", "100 L")
    (motor, its), (_, seen), (third, read), (fourth, noted) = numbers_of(plan)[:4]
    assert motor.item == "motor"

    take_forms(folder, [read_returned(by_list(plan, f"{its.code} 13,717", "found: cracked cleat base, port, deck, stop", head="by AM, 2030-05-10"), "notes.txt")])  # fmt: skip
    take_forms(folder, [read_returned(by_spreadsheet(folder, seen.code, "21.391"), "sheets.xlsx")])
    take_forms(folder, [read_returned(by_field_page(plan, third.id, read.id, "7,853"), "mate.json")])
    form = {
        reading_field(fourth, fourth.expect.index(noted)): "5.119",
        note_field(fourth.id): "needle sticks at half",
    }
    take_forms(folder, [read_returned(by_form(plan, fourth, form), "filled.pdf")])

    again, same = drafted(tmp_path, "outboard", ", formerly: motor", "120 L")
    assert same == folder
    assert again.digest != plan.digest
    renamed = next(check for check in again.checks if check.rule == motor.rule and check.item == "outboard")
    code = next(one.code for one in renamed.expect if one.id == its.id)
    take_forms(folder, [read_returned(by_list(again, f"{code} 14,233", head="retest, by BK, 2030-05-20"), "second.txt")])  # fmt: skip

    text = (folder / "findings.yaml").read_text(encoding="utf-8")
    for typed in ("13,717", "21.391", "7,853", "5.119", "14,233"):
        assert typed in text or typed.replace(",", ".") in text, typed
    for words in ("cracked cleat base", "needle sticks at half", "AM", "BK"):
        assert words in text
    findings = api.load_findings(folder / "findings.yaml", again)
    assert len(findings.checks[renamed.id]) == 2, "the renamed item keeps its first round"
    assessment = api.assess_findings(again, findings)
    assert any("cracked cleat base" in snag.title or "cracked cleat base" in (snag.note or "") for snag in assessment.snags)  # fmt: skip
