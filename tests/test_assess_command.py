"""`plangen assess`, as a user runs it: files, exit codes, spreadsheets that can't bite, and no half-written file."""

from __future__ import annotations

import csv
import io
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader, PdfWriter

from plangen.plan.day import Round
from plangen.plan.model import Plan
from plangen.plan.yaml_text import yaml_text
from plangen.print.csv_table import harmless
from plangen.print.snag_tables import snags_csv, snags_xlsx
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, read_yaml_file
from tests.assess.building import check, expectation, plan
from tests.print.test_report import SETTINGS, assessed, trial

Snags = dict[str, object]


def assess(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "plangen", "assess", str(folder), *arguments],
        capture_output=True, text=True, check=False, env={**os.environ, "COLUMNS": "160"},
    )  # fmt: skip


def laid_out(folder: Path, planned: Plan, checks: object, snags: object = None) -> Path:
    folder.mkdir(exist_ok=True)
    rounds = tuple(
        Round(id=one, number=number, kind="boat", title=one, setting=one, minutes=5, checks=tuple(c.id for c in planned.checks if c.setting == one))
        for number, one in enumerate(dict.fromkeys(check.setting for check in planned.checks), start=1)
    )  # fmt: skip
    whole = planned.model_copy(update={"settings": SETTINGS, "rounds": rounds})
    (folder / "plan.yaml").write_text(yaml_text(whole.plain()), encoding="utf-8")
    data = {"boat": planned.boat.name, "plan": planned.digest, "checks": checks, "snags": snags or {}}
    (folder / "findings.yaml").write_text(yaml_text(data), encoding="utf-8")
    return folder


@pytest.fixture
def boat(tmp_path: Path) -> Path:
    """A folder with the trial of the report's tests."""
    planned, found = trial()
    plain = found.model_dump(mode="json", by_alias=True, exclude_defaults=True)
    folder = laid_out(tmp_path / "boat", planned, plain["checks"], plain["snags"])
    return folder


@pytest.fixture
def sound(tmp_path: Path) -> Callable[[str], Path]:
    """Make a boat of one check, at which was found what is given."""

    def made(found: str) -> Path:
        planned = plan(check("one@boat", expectation("dry", text="yes"), grade="stop"))
        return laid_out(tmp_path / "sound", planned, {"one@boat": [{"found": {"dry": found}}]})

    return made


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if not path.name.startswith("."))


def test_assess_writes_every_file_and_says_that_handover_is_not_advisable(boat: Path) -> None:
    done = assess(boat)
    assert done.returncode == 1, done.stderr
    assert names(boat) == [
        "assessment.yaml", "findings.yaml", "plan.yaml", "report.pdf", "retest.html", "retest.pdf", "snags.csv", "snags.xlsx"
    ]  # fmt: skip
    assert "Handover is not advisable: 1 snag" in done.stdout
    assert "held back: 1 250.00 EUR" in done.stdout
    written = read_yaml_file(boat / "assessment.yaml", None, LARGEST_DERIVED_FILE).plain()
    assert written["handover"]["answer"] == "no"
    assert [snag["state"] for snag in written["snags"]] == ["disputed", "mended", "open", "open"]


def test_nothing_failed_gives_exit_code_0_and_no_retest(sound: Callable[[str], Path]) -> None:
    folder = sound("yes")
    done = assess(folder)
    assert done.returncode == 0, done.stderr
    assert "Handover is advisable" in done.stdout
    assert "retest.pdf" not in names(folder)


def test_without_pdf_only_the_data_is_written(boat: Path) -> None:
    assert assess(boat, "--no-pdf").returncode == 1
    assert not [name for name in names(boat) if name.endswith(".pdf")]


def test_letter_paper_is_taken_for_report_and_retest(boat: Path) -> None:
    """ANSI/ASME Y14.1: Letter is 8.5 x 11 in, 612 x 792 points of 1/72 in."""
    assess(boat, "--paper", "letter")
    for name in ("report.pdf", "retest.pdf"):
        box = PdfReader(boat / name).pages[0].mediabox
        assert (round(float(box.width)), round(float(box.height))) == (612, 792)


def test_the_retest_holds_what_failed_and_no_gear_list(boat: Path) -> None:
    assess(boat)
    reader = PdfReader(boat / "retest.pdf")
    fields = " ".join(reader.get_fields() or {})
    assert "stop@gas" in fields
    assert "close@tank" in fields
    assert "hand@pump" not in fields
    text = " ".join(page.extract_text() for page in reader.pages)
    assert "the law demands" not in text
    assert reader.metadata is not None
    assert str(reader.metadata.title).startswith("Retest")


def test_a_retest_that_was_filled_in_is_not_written_over(boat: Path) -> None:
    assess(boat)
    writer = PdfWriter(clone_from=boat / "retest.pdf")
    field = next(name for name in PdfReader(boat / "retest.pdf").get_fields() or {} if name.endswith("/note"))
    for page in writer.pages:
        writer.update_page_form_field_values(page, {field: "all well now"}, auto_regenerate=False)
    writer.write(boat / "retest.pdf")
    filled = (boat / "retest.pdf").read_bytes()
    assess(boat)
    assert (boat / "retest.pdf").read_bytes() == filled
    assert (boat / "retest-2.pdf").is_file()


def test_the_same_findings_give_the_same_bytes(boat: Path) -> None:
    assess(boat)
    first = {name: (boat / name).read_bytes() for name in names(boat)}
    assess(boat)
    assert {name: (boat / name).read_bytes() for name in names(boat)} == first


def test_findings_of_another_version_of_the_plan_are_taken_with_a_warning(
    sound: Callable[[str], Path],
) -> None:
    folder = sound("yes")
    text = (folder / "findings.yaml").read_text()
    (folder / "findings.yaml").write_text(text.replace("0" * 64, "1" * 64))
    done = assess(folder, "--no-pdf")
    assert done.returncode == 0
    assert "another version of the plan" in done.stderr


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("findings.yaml", b"boat: Test\nchecks:\n  one@boot: [{found: {dry: yes}}]\n", "nearest: one@boat"),
        ("findings.yaml", b"boat: Other\n", "another boat"),
        ("findings.yaml", b"\xff\xfe", "UTF-8"),
        ("findings.yaml", None, "can't be read"),
        ("plan.yaml", None, "can't be read"),
        ("plan.yaml", b"boat: {}\n", "draft it again"),
    ],
)
def test_faulty_input_gives_exit_code_2_and_writes_nothing(
    sound: Callable[[str], Path], name: str, content: bytes | None, said: str
) -> None:
    folder = sound("yes")
    (folder / name).unlink() if content is None else (folder / name).write_bytes(content)
    before = names(folder)
    done = assess(folder)
    assert done.returncode == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert names(folder) == before


FORMULAS = ["=HYPERLINK(0)", "+1+1", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "; =1+1", "ok;@x", "＝1"]


@pytest.fixture
def hostile(tmp_path: Path) -> Path:
    planned = plan(
        *(
            check(f"c{number}@boat", expectation("said", text="yes"), title=text, item=text)
            for number, text in enumerate(FORMULAS)
        )
    )
    found = {
        f"c{n}@boat": [{"found": {"said": "no"}, "note": text, "by": text}] for n, text in enumerate(FORMULAS)
    }
    snags = {f"c{n}@boat": {"who": text, "note": text} for n, text in enumerate(FORMULAS)}
    folder = laid_out(tmp_path / "hostile", planned, found, snags)
    assert assess(folder, "--no-pdf").returncode == 0
    return folder


def test_no_cell_of_the_csv_is_a_formula(hostile: Path) -> None:
    """OWASP, CSV Injection: cells must not begin with =, +, -, @, tab or carriage return; nor after a separator."""
    text = (hostile / "snags.csv").read_bytes().decode("utf-8-sig")
    for delimiter in (",", ";", "\t"):
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=delimiter):
            for cell in row:
                bare = cell.lstrip('" ')
                assert not bare.startswith(("=", "+", "-", "@", "\t", "\r", "＝")), (delimiter, cell)


def test_no_cell_of_the_workbook_is_a_formula_and_its_text_is_whole(hostile: Path) -> None:
    sheet = load_workbook(hostile / "snags.xlsx")["Snags"]
    cells = [cell for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert not [cell for cell in cells if cell.data_type == "f"]
    values = {str(cell.value) for cell in cells}
    assert {"=HYPERLINK(0)", "+1+1", "-2+3", "@SUM(A1)"} <= values
    assert all(cell.quotePrefix for cell in cells if str(cell.value) in ("=HYPERLINK(0)", "@SUM(A1)"))


def test_plain_text_is_left_as_it_is() -> None:
    assert harmless("level: 101 L; -0.5 below") == "level: 101 L; '-0.5 below"
    assert harmless("12.6 V, −5 °C, a-b") == "12.6 V, −5 °C, a-b"


def test_sums_dates_and_numbers_are_values_in_the_workbook() -> None:
    _, assessment = assessed()
    book = load_workbook(io.BytesIO(snags_xlsx(assessment)))
    rows = [dict(zip([c.value for c in book["Snags"][1]], row, strict=True)) for row in book["Snags"].iter_rows(min_row=2, values_only=True)]  # fmt: skip
    drip = next(row for row in rows if row["Check id"] == "date@tap")
    assert drip["Sum"] == 1250
    assert drip["Currency"] == "EUR"
    assert drip["Due"].date().isoformat() == "2027-06-01"
    assert [row["No."] for row in rows] == [1, 2, 3, 4]
    assert list(book["Totals"].iter_rows(min_row=2, values_only=True)) == [("held back", "EUR", 1250)]


def test_no_snags_give_tables_with_headings_only() -> None:
    _, assessment = assessed()
    empty = assessment.model_copy(update={"snags": (), "sums_held_back": {}})
    assert len(snags_csv(()).decode("utf-8-sig").splitlines()) == 1
    assert load_workbook(io.BytesIO(snags_xlsx(empty)))["Snags"].max_row == 1


@pytest.mark.parametrize(("moment", "more"), [(2, ["--no-pdf"])])
def test_killed_while_writing_every_file_is_the_old_one_or_the_new_one_whole(
    boat: Path, moment: int, more: list[str]
) -> None:
    assess(boat, *more)
    old = {name: (boat / name).read_bytes() for name in names(boat)}
    text = (boat / "findings.yaml").read_text()
    (boat / "findings.yaml").write_text(text.replace("rain came on", "snow came on"))
    assess(boat, *more)
    new = {name: (boat / name).read_bytes() for name in names(boat)}
    for name, content in old.items():
        (boat / name).write_bytes(content)
    (boat / "findings.yaml").write_bytes(new["findings.yaml"])
    killing = (
        "import os, signal, sys\n"
        "count, fsync = 0, os.fsync\n"
        "def killed(handle):\n"
        "    global count\n"
        "    count += 1\n"
        f"    os.ftruncate(handle, 10) if count == {moment} else fsync(handle)\n"
        f"    count == {moment} and os.kill(os.getpid(), signal.SIGKILL)\n"
        "os.fsync = killed\n"
        f"sys.argv = ['plangen', 'assess', {str(boat)!r}, *{more!r}]\n"
        "from plangen.cli import main\n"
        "main()\n"
    )
    done = subprocess.run([sys.executable, "-c", killing], capture_output=True, check=False)
    assert done.returncode in (-signal.SIGKILL, 1)
    for name in new:
        assert (boat / name).read_bytes() in (old[name], new[name]), name
