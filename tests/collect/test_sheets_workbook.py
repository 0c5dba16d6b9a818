"""The sheets as a spreadsheet: what is printed in it, what is typed into it, and that nothing in it is a formula."""

from __future__ import annotations

import datetime
import io
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from plangen.collect.collect import Collected, collect
from plangen.collect.list_lines import LineList
from plangen.collect.output_names import unfilled_name
from plangen.collect.returned import read_returned
from plangen.findings.blank import findings_text
from plangen.findings.model import Findings
from plangen.findings.read import read_findings
from plangen.print.sheets_table import sheets_xlsx
from tests.collect.test_line_list import coded_plan, one
from tests.conftest import faults


def book() -> tuple[Workbook, Worksheet]:
    opened = load_workbook(io.BytesIO(sheets_xlsx(coded_plan())))
    return opened, opened["Readings"]


def content(opened: Workbook) -> bytes:
    stream = io.BytesIO()
    opened.save(stream)
    return stream.getvalue()


def taken(opened: Workbook) -> tuple[Collected, Findings]:
    plan = coded_plan()
    read = read_returned(content(opened), "somewhere/sheets.xlsx")
    done = collect(findings_text(plan), "findings.yaml", plan, [read])
    assert collect(done.text, "findings.yaml", plan, [read]).text == done.text
    return done, read_findings(done.text, "findings.yaml", plan)


def test_it_has_every_code_once_and_the_plans_digest() -> None:
    plan, (_, sheet) = coded_plan(), book()
    codes = [cell.value for cell in sheet["A"][4:]]
    assert codes == [expected.code for check in plan.checks for expected in check.expect]
    assert sheet["B1"].value == plan.digest[:8]
    assert [cell.value for cell in sheet[4]] == [
        "code", "round", "what to do", "good if", "found", "remark", "photo",
    ]  # fmt: skip
    assert sheets_xlsx(plan) == sheets_xlsx(plan)


def test_no_cell_is_a_formula_and_what_is_typed_stays_text() -> None:
    checks = [check.model_copy(update={"do": "=1+1"}) for check in coded_plan().checks]
    plan = coded_plan().model_copy(update={"checks": tuple(checks)})
    for sheet in load_workbook(io.BytesIO(sheets_xlsx(plan))).worksheets:
        for row in sheet.iter_rows():
            assert all(cell.data_type != "f" for cell in row)
            assert all(cell.number_format == "@" for cell in row if cell.has_style)


def test_a_blank_one_says_nothing() -> None:
    done, _ = taken(book()[0])
    assert done.text == findings_text(coded_plan())
    assert not done.forms[0].faults


def test_it_is_read_back_whatever_the_spreadsheet_made_of_it() -> None:
    opened, sheet = book()
    sheet["B2"], sheet["B3"] = "AM", datetime.datetime(2027, 5, 10)
    row = {cell.value: cell.row for cell in sheet["A"]}
    sheet.cell(row["1.1a"], 5, 12.7)
    sheet.cell(row["1.1a"], 6, "gauge sticks")
    sheet.cell(row["1.1a"], 7, 12)
    sheet.cell(row["1.1b"], 5, True)
    sheet.cell(row["1.2"], 5, "not: vent")
    sheet.cell(row["1.4"], 5, "=NX1")
    sheet.cell(row["1.5"], 5, "4,1; 5,0; 6,2")
    sheet.cell(row["1.3"], 9, "beside the table")
    also = opened["Also found"]
    for column, text in enumerate(("loose rail", "bow, port", "stop", "since June", 7), start=1):
        also.cell(2, column, text)
    done, findings = taken(opened)
    rest = one(findings, "rest@house")
    assert (rest.by, str(rest.when), rest.note, rest.photos) == ("AM", "2027-05-10", "gauge sticks", ("12",))
    assert rest.values == {"resting-voltage": 12.7, "terminals-tight": "yes"}
    assert one(findings, "drain@head").values == {"drains-dry": "no: vent"}
    assert one(findings, "serial@engine").values == {"serial-number": "=NX1"}
    assert one(findings, "speed@boat").values == {"speed-at-steps": ["4,1", "5,0", "6,2"]}
    assert one(findings, "water@bilge").note == "beside the table"
    (rail,) = findings.also_found
    assert (rail.what, rail.place, rail.grade, rail.note, rail.photos, rail.by) == (
        "loose rail", "bow, port", "stop", "since June", ("7",), "AM",
    )  # fmt: skip
    assert not done.forms[0].faults
    assert not done.forms[0].no_digest


def test_a_filled_one_is_never_written_over(tmp_path: Path) -> None:
    opened, sheet = book()
    (tmp_path / "sheets.xlsx").write_bytes(content(opened))
    assert unfilled_name(tmp_path, "sheets.xlsx") == "sheets.xlsx"
    sheet["E6"] = "yes"
    (tmp_path / "sheets.xlsx").write_bytes(content(opened))
    assert unfilled_name(tmp_path, "sheets.xlsx") == "sheets-2.xlsx"


@pytest.mark.parametrize("damaged", [b"PK\x03\x04" + b"0" * 99, b"", b"text"])
def test_what_is_no_workbook_is_refused(damaged: bytes) -> None:
    (problem,) = faults(lambda: read_returned(damaged, "sheets.xlsx"))
    assert problem.mark.file == "sheets.xlsx"


def test_text_and_pdf_are_told_apart() -> None:
    read = read_returned("7.4 ok\r\n7.5 \xe9".encode("cp1252"), "notes")
    assert isinstance(read, LineList)
    assert [line.text for line in read.lines] == ["7.4 ok", "7.5 é"]
    assert faults(lambda: read_returned(b"a\0b", "notes.txt"))
