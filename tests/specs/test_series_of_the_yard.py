"""The yard's six hulls with what was read on them: they fit their plans, and the tally says what the invented data say."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.series.building import plangen
from tests.walkthroughs import walked_yard

HULLS = range(101, 107)


@pytest.fixture(scope="module")
def yard() -> Path:
    """The hulls drafted, with the ready findings and instruments copied over them as the README says."""
    return walked_yard() / "plans"


@pytest.fixture(scope="module")
def out() -> Path:
    """The tally of all six."""
    return walked_yard() / "tally"


def rows(path: Path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_bytes().decode("utf-8-sig"))))


def test_every_hull_is_counted_by_stage(out: Path) -> None:
    hulls = {row["Hull"]: row["Stage"] for row in rows(out / "tally-hulls.csv")}
    assert list(hulls) == [f"Hull {number}" for number in HULLS]
    assert [hulls[f"Hull {number}"] for number in (101, 106)] == ["Launched and lying afloat", "Sea trial"]
    stages = {row["What"]: row for row in rows(out / "tally-first-pass-yield.csv") if row["By"] == "stage"}
    assert list(stages) == ["Fit-out complete", "Launched and lying afloat", "Sea trial"]
    # twice the bilge feed, twice the shower, a tank, and the serial number of an engine
    afloat = stages["Launched and lying afloat"]
    assert int(afloat["Checks judged"]) - int(afloat["Checks passed at first"]) == 6
    # steering and full throttle on the five hulls that went to sea, and the windlass of the first, tried too early
    assert (stages["Sea trial"]["Checks passed at first"], stages["Sea trial"]["Checks judged"]) == (
        "11",
        "11",
    )


def test_the_bilge_feed_fails_with_the_sport_option_only(out: Path) -> None:
    failing = {row["Check id"]: row for row in rows(out / "tally-failing-checks.csv")}
    bilge = failing["bilge-pump-delivery@engine-bilge"]
    assert bilge["By option set"] == "sport: 2 of 3 with, 0 of 3 without"
    assert (bilge["Hulls"], bilge["Still open on"]) == ("Hull 102, Hull 105", "Hull 105")
    assert failing["shower-drains@head"]["By option set"] == "comfort: 2 of 4 with, 0 of 2 without"
    assert failing["tank-standing-leak@port-fuel"]["By option set"] == ""
    assert set(failing) == {
        bilge["Check id"],
        "shower-drains@head",
        "tank-standing-leak@port-fuel",
        "engine-plate@starboard-engine",
    }


def test_two_readings_stand_apart_and_one_of_them_is_within_its_limits(out: Path) -> None:
    apart = [
        (row["Hull"], row["Reading id"], row["Outside the limits"])
        for row in rows(out / "tally-stand-apart.csv")
    ]
    assert sorted(apart, reverse=True) == [("Hull 105", "voltage-drop", "yes"), ("Hull 104", "force", "no")]


def test_the_cause_is_proved_gone_on_a_later_hull(out: Path) -> None:
    linked = rows(out / "tally-causes.csv")
    assert {row["Hull"] for row in linked} == {"Hull 102", "Hull 105"}
    assert {(row["Standing"], row["Proved on"]) for row in linked} == {("proved gone", "Hull 106")}


def test_speeds_are_held_against_each_hulls_contract(out: Path) -> None:
    speed = next(row for row in rows(out / "tally-spread.csv") if row["Reading id"] == "mean-of-means")
    assert speed["Of what"] == "difference from the lower limit"
    assert float(speed["Lower limit"]) < float(speed["to"])


def test_the_paper_names_the_model_and_what_to_look_at(out: Path) -> None:
    pages = [page.extract_text() for page in PdfReader(out / "tally.pdf").pages]
    assert len(pages) <= 5
    assert "Pattern Yard Eleven" in pages[0]
    assert "bilge-feed-cable" in pages[0]


def test_the_gauge_is_recalled_and_two_readings_are_out_of_calibration(yard: Path, tmp_path: Path) -> None:
    done = plangen("recall", "PG-03", yard, "--csv", tmp_path / "recall.csv")
    assert done.returncode == 0, done.stderr
    assert "12 readings on 6 of 6 hulls" in done.stdout
    out = {row["Hull"] for row in rows(tmp_path / "recall.csv") if row["Calibration"]}
    assert out == {"Hull 106"}
