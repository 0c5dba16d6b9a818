"""A good boat passes: honest readings of eight sound boats, and no check that bars handover fails or stays undecided."""

from __future__ import annotations

import pytest

from tests.boats.aboard import BOATS, DECIDING, boat, sound_boat, sound_findings, table

GOOD = ("pass", "recorded", "does-not-apply", "met")


@pytest.mark.parametrize("name", list(BOATS))
def test_a_sound_boat_passes_every_check_that_bars_handover(name: str) -> None:
    rules = {check.id: check.rule for check in boat(name).plan.checks}
    wrong = [
        f"{check.id} {reading.id}: found {reading.found}, {reading.expected}: {reading.verdict}"
        for check in sound_boat(name).checks
        if check.grade in DECIDING and check.attempts
        for reading in check.attempts[-1].readings
        if reading.verdict not in GOOD
        and not (reading.verdict == "not-done" and reading.id in unread(name, check.id))
        and f"{rules[check.id]}/{reading.id}"
        not in table("sound.yaml")["boats"][name].get("known_faults", ())
    ]
    assert wrong == []


def unread(name: str, check: str) -> list[str]:
    return [id for id, value in sound_findings(name)[check].items() if value is None]


@pytest.mark.parametrize("name", list(BOATS))
def test_every_reading_that_decides_is_in_the_table(name: str) -> None:
    expected = {
        (check.id, one.id): check.rule
        for check in boat(name).plan.checks
        for one in check.expect
        if one.numeric
        or (one.series and any(row.low is not None or row.high is not None for row in one.series))
    }
    missing = {
        f"{expected[id, reading]}/{reading}"
        for id, readings in sound_findings(name).items()
        for reading, value in readings.items()
        if value is None and (id, reading) in expected
    }
    assert missing == set()


def test_every_line_of_the_table_is_used_and_says_why() -> None:
    used = {
        f"{check.rule}/{one.id}" for name in BOATS for check in boat(name).plan.checks for one in check.expect
    }
    assert set(table("sound.yaml")["readings"]) - used == set()
    assert [
        key
        for key, line in table("sound.yaml")["readings"].items()
        if len(line) != 2 or len(str(line[1])) < 3
    ] == []
