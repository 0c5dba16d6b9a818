"""What a rule's reading comes to on a boat: limits, what they are rounded to and shown as; the arithmetic stands beside each."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.packs.evaluate import Scope
from plangen.packs.facts import Assumed, Subject
from plangen.packs.model import CheckRule, ReadingRule
from plangen.plan.defaults import facts_of
from plangen.plan.expectations import draft_reading
from plangen.plan.format import Limits, decimals_of, limits_text, series_text
from plangen.plan.model import Expectation
from plangen.spec.quantity import registry
from tests.conftest import shipped, spec_from

SPEC = """vessel: {name: X, hull: motor-planing, length_hull: 10 m, beam: 3 m}
contract: {speed_at_rated: 20 kn}
engines: [{name: port, maker: Pattern Diesel, model: PD 235, serial: "4711"}]
"""


def drafted(
    units: str = "metric", assumed: dict[Any, Any] | None = None, **reading: object
) -> Expectation | None:
    library, loaded = shipped(), spec_from(SPEC)
    rule = CheckRule.model_validate(
        {
            "id": "r", "title": "r", "setting": "alongside", "source": "common-practice",
            "expect": [{"id": "a", "reading": "a of {{ engine.name }}", **reading}],
        }
    )  # fmt: skip
    facts = facts_of(loaded, library)
    for path, value in (assumed or {}).items():
        facts.assumed[path] = Assumed(value, "a guess", "common-practice")
    scope = Scope(facts, {"word": 1, "engine": Subject(facts.spec.engines[0], ("engines", 0))}, units)  # type: ignore[arg-type]
    found = draft_reading(ReadingRule.model_validate(rule.expect[0]), rule, scope, library)
    return found.expectation if found is not None else None


def expected(*args: Any, **reading: Any) -> Expectation:
    found = drafted(*args, **reading)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("reading", "low", "value", "high", "shown"),
    [
        # a share of the value: 15 % of 40 are 6
        ({"about": "40", "tolerance": "15 %", "unit": "flushes"}, 34, 40, 46, "40 flushes (34–46)"),
        ({"about": "40", "tolerance": "6", "unit": "flushes"}, 34, 40, 46, "40 flushes (34–46)"),
        ({"about": "40", "unit": "flushes"}, 40, 40, 40, "40 flushes"),
        ({"about": "12 V", "tolerance": "0.5 V", "unit": "V"}, 11.5, 12, 12.5, "12.0 V (11.5–12.5)"),
        ({"about": "12 V", "tolerance": "500 mV", "unit": "V"}, 11.5, 12, 12.5, "12.0 V (11.5–12.5)"),
        # of a reading in per cent a tolerance in per cent is points, one as a number a share: no, the plain number is points too
        ({"about": "50 %", "tolerance": "5 %", "unit": "%"}, 45, 50, 55, "50 % (45–55)"),
        ({"about": "50 %", "tolerance": "5", "unit": "%"}, 45, 50, 55, "50 % (45–55)"),
        # nothing measured lies below nothing, but a temperature may; what is negative itself keeps both its ends
        ({"about": "1 V", "tolerance": "3 V", "unit": "V"}, 0, 1, 4, "1 V (0–4)"),
        ({"about": "1 °C", "tolerance": "3 K", "unit": "°C"}, -2, 1, 4, "1 °C (-2–4)"),
        ({"about": "-1 V", "tolerance": "3 V", "unit": "V"}, -4, -1, 2, "-1 V (-4–2)"),
        ({"about": "-10 V", "tolerance": "10 %", "unit": "V"}, -11, -10, -9, "-10 V (-11–-9)"),
        ({"at_least": "12.65 V", "unit": "V"}, 12.65, None, None, "≥ 12.65 V"),
        ({"at_most": "3", "unit": ""}, None, None, 3, "≤ 3"),
        ({"at_most": "0", "unit": "drops"}, None, None, 0, "0 drops"),
        ({"at_most": "0 V", "unit": "V"}, None, None, 0, "≤ 0 V"),
        ({"between": ["12 V", "14.4 V"], "unit": "V"}, 12, None, 14.4, "12.0–14.4 V"),
        ({"between": ["-2 °C", "4 °C"], "unit": "°C"}, -2, None, 4, "-2 to 4 °C"),
        ({"between": ["0 °C", "4 °C"], "unit": "°C"}, 0, None, 4, "0–4 °C"),
        ({"at_least": "12 V", "at_most": "14.4 V", "unit": "V"}, 12, None, 14.4, "12.0–14.4 V"),
        # 2 of 10 m are 5 m: worked out, so as many decimals as show the difference; stated, as many as are stated
        ({"at_least": "vessel.length_hull / 2", "unit": "m"}, 5, None, None, "≥ 5.0 m"),
        ({"at_least": "vessel.length_hull / 3", "unit": "m", "decimals": 2}, 3.33, None, None, "≥ 3.33 m"),
        ({"at_most": "-0.001", "unit": "V", "decimals": 1}, None, None, 0, "≤ -0.0 V"),
    ],
)
def test_limits(reading: dict[str, Any], low: float, value: float, high: float, shown: str) -> None:
    found = expected(**reading)
    assert (found.low, found.value, found.high) == pytest.approx((low, value, high)) if None not in (low, value, high) else (
        (found.low, found.value, found.high) == (low, value, high)
    )  # fmt: skip
    assert found.shown == shown
    assert "-0.0" not in str(found.high)


PROMISE = {"unit": "kn", "contract_value": "contract.speed_at_rated"}


@pytest.mark.parametrize(
    ("reading", "limits", "computed"),
    [
        # the contract's 20 kn stand in the place of what was reckoned, which is kept beside it; 10 % of 20 are 2
        ({"about": "2 * q('9 kn')", "tolerance": "10 %"}, (18, 20, 22), 18),
        ({"at_least": "2 * q('9 kn')"}, (20, None, None), 18),
        ({"at_most": "2 * q('9 kn')"}, (None, None, 20), 18),
        # two limits stay as they are, and the contract's value lies between them
        ({"at_least": "q('9 kn')", "at_most": "q('30 kn')"}, (9, 20, 30), None),
        ({"between": ["q('9 kn')", "q('30 kn')"]}, (9, 20, 30), None),
        # what is the same anyhow isn't said twice; what can't be reckoned is no hindrance
        ({"about": "2 * q('10 kn')", "tolerance": "10 %"}, (18, 20, 22), None),
        (
            {"about": "vessel.air_draught / q('1 m') * q('1 kn')", "tolerance": "10 %"},
            (18, 20, 22),
            None,
        ),
        ({"about": "hull_speed(q('0 m'))", "tolerance": "10 %"}, (18, 20, 22), None),
    ],
)
def test_what_the_contract_promises_is_expected(
    reading: dict[str, Any], limits: tuple[float | None, ...], computed: float | None
) -> None:
    found = expected(**reading, **PROMISE)
    assert (found.low, found.value, found.high) == limits
    assert (found.computed, found.basis) == (computed, "contract")


def test_the_contract_comes_before_the_maker_and_a_guess_is_called_one() -> None:
    promised = {"about": "q('18 kn')", "unit": "kn", "maker": "q('19 kn')"}
    assert (expected(**promised).value, expected(**promised).basis) == (19, "maker")
    both = expected(**promised, contract_value="contract.speed_at_rated")
    assert (both.value, both.basis) == (20, "contract")
    guess = {("vessel", "draught"): registry.Quantity(1.5, "m")}
    drawn = expected("metric", guess, at_least="1 m", unit="m", maker="vessel.draught")
    assert (drawn.low, drawn.basis) == (1.5, "assumed")
    # what a promise reads is noted with all else that was read, and nothing that was read before makes it a guess
    sure = expected("metric", guess, about="vessel.draught", tolerance="10 %", unit="m", maker="q('2 m')")
    assert (sure.value, sure.basis) == (2, "maker")


def test_without_a_promise_nothing_is_computed_beside() -> None:
    found = expected(
        at_least="q('9 kn')", unit="kn", contract_value="vessel.air_draught / q('1 m') * q('1 kn')"
    )
    assert (found.low, found.computed, found.basis) == (9, None, "common-practice")


@pytest.mark.parametrize(
    ("reading", "words"),
    [
        ({"at_least": "vessel.air_draught", "unit": "m"}, "air_draught"),
        ({"about": "10 m", "tolerance": "vessel.air_draught", "unit": "m"}, "air_draught"),
        ({"at_least": "hull_speed(q('0 m'))", "unit": "kn"}, "above zero"),
        ({"at_least": "1 / 0", "unit": "kn"}, "division by zero"),
        ({"series": "vessel.air_draught", "about": "point", "unit": "m"}, "air_draught"),
        ({"series": "[q('1 m'), vessel.air_draught]", "about": "point", "unit": "m", "series_unit": "m"}, "air_draught"),
    ],
)  # fmt: skip
def test_without_a_value_the_reading_is_recorded_and_says_why(reading: dict[str, Any], words: str) -> None:
    found = expected(**reading, note="Look twice.")
    assert (found.low, found.value, found.high, found.series) == (None, None, None, ())
    assert found.shown == "record the reading"
    assert found.note is not None
    assert found.note.startswith("Look twice. (no expected value: ")
    assert words in found.note
    alone = expected(**reading).note
    assert alone is not None
    assert alone.startswith("no expected value: ")


def test_words_plates_and_what_is_only_written_down() -> None:
    words = expected(**{"is": "no leak at {{ engine.name }}"})
    assert (words.text, words.shown, words.reading) == ("no leak at port", "no leak at port", "a of port")
    plate = expected(record="plate")
    assert plate.shown == "Pattern Diesel / PD 235 / 4711"
    assert plate.plate == {"maker": "Pattern Diesel", "model": "PD 235", "serial": "4711"}
    assert expected(record="expiry-date").shown == "record the date; not before the trial"
    count = expected(record="count", series="[1, 2]")
    assert ([point.point for point in count.series], count.shown) == ([1, 2], "record the number")
    assert drafted(when="1 > 2", **{"is": "yes"}) is None
    parts = expected(
        **{"is": "yes", "parts": ["bow", {"part": "stern", "when": "1 > 2"}, "keel of {{ engine.name }}"]}
    )
    assert parts.parts == ("bow", "keel of port")


def test_a_formula_is_named_with_what_it_was_given_and_makes_a_value_computed() -> None:
    found = expected(about="hull_speed(q('36 ft'))", tolerance="10 %", unit="kn")
    # 1.34 × √36 = 8.04 kn
    assert found.value == pytest.approx(8.04, abs=0.06)
    assert (found.formula, found.basis) == ("hull_speed", "computed")
    assert "length_waterline" in found.inputs
    stated = expected(about="hull_speed(q('36 ft'))", tolerance="10 %", unit="kn", basis="standard")
    assert stated.basis == "standard"
    plain = expected(about="8 kn", unit="kn")
    assert (plain.formula, plain.inputs, plain.basis) == (None, {}, "common-practice")


def test_a_series_has_limits_at_each_of_its_points() -> None:
    # a tenth of each
    found = expected(
        series="[10, 20.5]",
        about="point * q('1 V')",
        tolerance="10 %",
        unit="V",
        series_unit="rpm",
        decimals=2,
    )
    assert [(one.point, one.low, one.value, one.high) for one in found.series] == [
        (10, pytest.approx(9), 10, pytest.approx(11)),
        (20.5, pytest.approx(18.45), 20.5, pytest.approx(22.55)),
    ]
    assert [one.shown for one in found.series] == ["10.00 V (9.00–11.00)", "20.50 V (18.45–22.55)"]
    assert found.shown == "at 10 rpm: 10.00 V (9.00–11.00); at 20.5 rpm: 20.50 V (18.45–22.55)"
    # points finer than a hundredth are rounded to it, as is no value
    thirds = expected(series="[1 / 3]", about="1", unit="", series_unit="")
    assert [one.point for one in thirds.series] == [0.33]
    assert (
        expected(series="[q('1 h'), q('90 min')]", about="1", unit="", series_unit="min").series[1].point
        == 90
    )
    free = expected(series="[1, 2]", record="count")
    assert [one.shown for one in free.series] == ["", ""]


@pytest.mark.parametrize(
    ("limits", "label", "decimals", "units", "text"),
    [
        # 10 m are 32.8 ft, 1 bar 14.5 psi (NIST SP 811, B.8); volts are volts everywhere
        (Limits(10, None, None), "m", 0, "metric", "≥ 10 m"),
        (Limits(10, None, None), "m", 0, "us", "≥ 33 ft"),
        (Limits(10, None, None), "m", 0, "both", "≥ 10 m [≥ 33 ft]"),
        (Limits(10, None, None), "V", 0, "both", "≥ 10 V"),
        (Limits(None, None, 2.0), "bar", 1, "us", "≤ 29 psi"),
        (Limits(None, None, 10.0), "K", 0, "us", "≤ 18.0 °F"),
        (Limits(None, None, 10.0), "K", 0, "metric", "≤ 10 K"),
        (Limits(0, None, 100.0), "°C", 0, "us", "32–212 °F"),
        (Limits(None, None, 0.0), "", 0, "metric", "0"),
        (Limits(None, None, None), "V", 0, "metric", "record the reading"),
        (Limits(None, 12.0, None), "V", 1, "metric", "12.0 V"),
        (Limits(12.0, 12.0, 12.0), "V", 1, "metric", "12.0 V"),
        (Limits(12.0, 12.5, None), "V", 1, "metric", "≥ 12.0 V"),
        (Limits(None, 12.5, 13.0), "V", 1, "metric", "≤ 13.0 V"),
    ],
)
def test_limits_are_written_in_the_units_that_are_asked_for(
    limits: Limits, label: str, decimals: int, units: Any, text: str
) -> None:
    assert limits_text(limits, label, decimals, units) == text


def test_points_are_written_with_their_unit_where_they_have_one() -> None:
    rows = [(1.5, Limits(1, None, None)), (2.0, Limits(2, None, None))]
    assert series_text(rows, "V", "h", 0, "metric") == "at 1.5 h: ≥ 1 V; at 2 h: ≥ 2 V"
    assert series_text(rows, "V", "", 0, "metric") == "at 1.5: ≥ 1 V; at 2: ≥ 2 V"


def test_a_number_needs_four_decimals_at_most() -> None:
    assert [decimals_of(x) for x in (3.0, 0.5, 0.00004, 1 / 3, 12.65)] == [0, 1, 0, 4, 2]
