"""`plangen tally`, as a yard runs it: exit codes, tables that can't bite, the same bytes, hulls left out, little memory."""

from __future__ import annotations

import csv
import io
import tracemalloc
from pathlib import Path

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader

from plangen.assess.assess import assess_findings
from plangen.series.tally import SeriesTally
from tests.assess.building import findings
from tests.series.building import hull_plan, plangen, write_hull

GOOD = {"voltage": 12.8, "terminals-tight": "yes"}
HOSTILE = '=HYPERLINK("http://x"); <b>"A"</b>'


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    """Seven hulls, of which one fails a check with a cause and one reads a low flow."""
    plans = tmp_path / "plans"
    for number in range(1, 8):
        layers = ("model", "option-sport") if number > 4 else ("model",)
        planned = hull_plan(f"Hull {number}", layers=layers, builder="Pattern Yard", model="Eleven")
        volts = {**GOOD, "terminals-tight": "no"} if number == 5 else GOOD
        snags = (
            {"volts@bank": {"cause": "lug-crimp", "cause_text": HOSTILE, "note": HOSTILE}}
            if number == 5
            else {}
        )
        flow = {"flow": 31.0 if number == 2 else 38.0 + number / 10}
        write_hull(plans / f"hull-{number}", planned, {"volts@bank": volts, "flow@bilge": flow}, snags)
    return tmp_path


def rows(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_bytes().decode("utf-8-sig"))))


def test_a_folder_of_hulls_gives_tables_and_paper(yard: Path) -> None:
    done = plangen("tally", yard / "plans", "--out", yard / "out")
    assert done.returncode == 0, done.stderr
    assert "passed at first: 13 of 14 checks (93 %)" in done.stdout
    assert "7 hulls are few" in done.stdout
    assert "Hull 2 31" in done.stdout
    out = yard / "out"
    assert [row["Hull"] for row in rows(out / "tally-hulls.csv")] == [f"Hull {n}" for n in range(1, 8)]
    (failing,) = rows(out / "tally-failing-checks.csv")
    assert (failing["Failed: count"], failing["Failed: of"], failing["Still open on"]) == ("1", "7", "Hull 5")
    assert failing["By option set"] == ""
    (apart,) = rows(out / "tally-stand-apart.csv")
    assert (apart["Hull"], apart["Found"], apart["Outside the limits"]) == ("Hull 2", "31.0", "no")
    assert len(rows(out / "tally-readings.csv")) == 14
    text = "".join(page.extract_text() for page in PdfReader(out / "tally.pdf").pages)
    for words in (
        "Pattern Yard Eleven",
        "What fails",
        "lug-crimp",
        "First-pass yield",
        "How readings spread",
        "What is open",
    ):
        assert words in text


def test_no_cell_acts_as_a_formula(yard: Path) -> None:
    assert plangen("tally", yard / "plans", "--out", yard / "out", "--no-pdf").returncode == 0
    book = load_workbook(yard / "out" / "tally.xlsx")
    assert book.sheetnames == [
        "Hulls", "First-pass yield", "Failing checks", "Spread", "Stand apart", "Open", "Causes", "Left out",
    ]  # fmt: skip
    cells = [cell for sheet in book.worksheets for row in sheet.iter_rows() for cell in row]
    assert HOSTILE in [cell.value for cell in cells]
    assert "f" not in {cell.data_type for cell in cells}
    (cause,) = rows(yard / "out" / "tally-causes.csv")
    assert cause["In words"] == "'" + HOSTILE


def test_the_same_hulls_give_the_same_bytes(yard: Path) -> None:
    contents = []
    for name in ("one", "two"):
        assert plangen("tally", yard / "plans", "--out", yard / name).returncode == 0
        contents.append({path.name: path.read_bytes() for path in (yard / name).glob("tally*")})
    assert contents[0] == contents[1]
    assert len(contents[0]) == 11


def test_assessed_or_not_the_counts_are_the_same(yard: Path) -> None:
    plangen("tally", yard / "plans", "--out", yard / "one", "--no-pdf")
    for number in (2, 5):
        plangen("assess", yard / "plans" / f"hull-{number}", "--no-pdf")
    plangen("tally", yard / "plans", "--out", yard / "two", "--no-pdf")
    for path in (yard / "one").iterdir():
        assert path.read_bytes() == (yard / "two" / path.name).read_bytes()


def test_bad_hulls_are_named_and_left_out_and_the_others_are_counted(yard: Path) -> None:
    plans = yard / "plans"
    (plans / "hull-3" / "plan.yaml").write_text("boat: [", encoding="utf-8")
    (plans / "hull-4" / "findings.yaml").write_text(
        "boat: Hull 4\nchecks: {volts@bnk: []}\n", encoding="utf-8"
    )
    (plans / "hull-6" / "findings.yaml").unlink()
    write_hull(plans / "copy", hull_plan("Hull 7"), {})
    write_hull(plans / "hull-7", hull_plan("Hull 7"), {"flow@bilge": {"flow": 35}})
    done = plangen("tally", plans, "--out", yard / "out")
    assert done.returncode == 1
    assert "nearest: volts@bank" in done.stderr
    left = {Path(row["Folder"]).name: row["Why"] for row in rows(yard / "out" / "tally-left-out.csv")}
    assert set(left) == {"hull-3", "hull-4", "hull-6", "hull-7"}
    assert "the name of the hull in" in left["hull-7"]
    assert len(rows(yard / "out" / "tally-hulls.csv")) == 4
    assert "Left out:" in PdfReader(yard / "out" / "tally.pdf").pages[0].extract_text()


def test_without_a_single_good_hull_nothing_is_written(yard: Path) -> None:
    (yard / "empty").mkdir()
    done = plangen("tally", yard / "empty", yard / "nowhere", "--out", yard / "out")
    assert done.returncode == 2
    assert "there is no such folder" in done.stderr
    assert not (yard / "out").exists()


def test_a_hull_given_twice_counts_once_and_files_are_passed_over(yard: Path) -> None:
    one = yard / "plans" / "hull-1"
    (yard / "plans" / "instruments.yaml").write_text("instruments:\n", encoding="utf-8")
    done = plangen("tally", one, one, yard / "plans" / "instruments.yaml", "--out", yard / "out", "--no-pdf")
    assert done.returncode == 0, done.stderr
    assert len(rows(yard / "out" / "tally-hulls.csv")) == 1


def test_hulls_without_findings_are_a_tally_too(tmp_path: Path) -> None:
    write_hull(tmp_path / "a", hull_plan("A"), {})
    done = plangen("tally", tmp_path, "--out", tmp_path / "out")
    assert done.returncode == 0, done.stderr
    assert "can't be said yet" in done.stdout


def test_of_each_hull_little_is_kept() -> None:
    base = assess_findings(
        hull_plan("A"), findings({"volts@bank": {**GOOD, "voltage": 12.1}, "flow@bilge": {"flow": 20}})
    )
    counted = SeriesTally()
    counted.add(base)
    tracemalloc.start()
    for number in range(500):
        counted.add(base.model_copy(update={"boat": f"Hull {number}"}, deep=True))
    kept, _ = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert kept / 500 < 4096
    assert len(counted.result().hulls) == 501
