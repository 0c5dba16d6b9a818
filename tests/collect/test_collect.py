"""Forms merged into findings: nothing lost, nothing twice, nothing written over."""

from __future__ import annotations

import datetime

import pytest

from plangen.collect.collect import Collected, collect
from plangen.collect.pdf_fields import FilledForm
from plangen.findings.blank import findings_text
from plangen.findings.model import Findings
from plangen.findings.read import read_findings
from plangen.plan.model import Plan
from tests.assess.building import check, expectation, series
from tests.collect.forms import CHECKS, form, small_plan
from tests.conftest import faults

VOLTS = "check/rest@house/reading/resting-voltage"
TIGHT = "check/rest@house/reading/terminals-tight"
BY = "check/rest@house/by"
NOTE = "check/rest@house/note"
GAUGE = "check/gauge@tank/reading/gauge-at-quarters"
DATE = "round/alongside/date"
HEAD = f"boat: Tern\nplan: {'a' * 64}\n"


def collected(text: str | None, *forms: FilledForm, plan: Plan | None = None) -> tuple[Collected, Findings]:
    """Collect forms, and hold that collecting them once more changes nothing."""
    planned = plan or small_plan()
    done = collect(text or findings_text(planned), "findings.yaml", planned, forms)
    again = collect(done.text, "findings.yaml", planned, forms)
    assert again.text == done.text
    assert not any(one.taken or one.apart or one.remarks for one in again.forms)
    return done, read_findings(done.text, "findings.yaml", planned)


def test_a_blank_form_changes_nothing() -> None:
    text = findings_text(small_plan())
    assert collected(None, form(small_plan(), {}))[0].text == text


def test_the_blank_entry_is_filled_in_place() -> None:
    typed = {
        VOLTS: "12.7",
        f"{TIGHT}/yes": True,
        BY: "AL",
        NOTE: "cold",
        DATE: "2027-03-14",
        f"{GAUGE}/2": "61",
    }
    done, _ = collected(None, form(small_plan(), typed))
    assert (
        "  rest@house:\n    - found:\n        resting-voltage: 12.7\n        terminals-tight: yes\n"
        "      by: AL\n      when: 2027-03-14\n      note: cold\n"
    ) in done.text
    assert "        gauge-at-quarters: [null, 61, null]\n" in done.text
    blank, now = findings_text(small_plan()).splitlines(), done.text.splitlines()
    assert len(blank) == len(now)
    assert [line for line in now if line.lstrip().startswith("#")] == [
        line for line in blank if line.lstrip().startswith("#")
    ]


def test_initials_at_the_check_go_before_those_of_the_round() -> None:
    typed = {"round/alongside/by": "BK", VOLTS: "12.7", BY: "AL", f"{GAUGE}/1": "28", DATE: "3/4/2027"}
    _, findings = collected(None, form(small_plan(), typed))
    assert [findings.attempts(id)[0].by for id in ("rest@house", "gauge@tank")] == ["AL", "BK"]
    assert findings.attempts("rest@house")[0].when is None
    assert findings.remarks == ("round 1: date 3/4/2027",)


def test_two_people_who_agree_are_written_once_and_the_second_is_named() -> None:
    planned = small_plan()
    _, findings = collected(
        None, form(planned, {VOLTS: "12.7", BY: "AL"}), form(planned, {VOLTS: "12,70 V", BY: "BK"})
    )
    (attempt,) = findings.attempts("rest@house")
    assert (attempt.by, attempt.values) == ("AL", {"resting-voltage": 12.7})
    assert findings.remarks == ("rest@house: BK found the same as AL",)


def test_two_people_who_disagree_are_both_kept_and_named() -> None:
    planned = small_plan()
    done, findings = collected(
        None, form(planned, {VOLTS: "12.7", BY: "AL"}), form(planned, {VOLTS: "12.1", BY: "BK"})
    )
    first, second = findings.attempts("rest@house")
    assert (first.by, first.values, first.beside) == ("AL", {"resting-voltage": 12.7}, None)
    assert (second.by, second.values, second.beside) == ("BK", {"resting-voltage": 12.1}, 1)
    assert done.forms[1].disagreements == ("rest@house: resting voltage: 12.7 (AL) or 12.1 (BK)",)


def test_two_people_who_did_different_checks_are_both_there() -> None:
    planned = small_plan()
    done, findings = collected(
        None,
        form(planned, {VOLTS: "12.7", BY: "AL"}),
        form(planned, {f"{GAUGE}/1": "28", "check/gauge@tank/by": "BK"}),
    )
    assert not done.forms[1].disagreements
    assert [findings.attempts(id)[0].by for id in ("rest@house", "gauge@tank")] == ["AL", "BK"]


def test_the_same_form_filled_further_fills_the_attempts_blanks() -> None:
    planned = small_plan()
    first = {VOLTS: "12.7", BY: "AL", f"{GAUGE}/2": "6,10"}
    done, findings = collected(None, form(planned, first))
    more = {**first, f"{TIGHT}/no": True, NOTE: "loose", f"{GAUGE}/1": "28", f"{GAUGE}/3": "88 L"}
    done, findings = collected(done.text, form(planned, more))
    (rest,), (gauge,) = findings.attempts("rest@house"), findings.attempts("gauge@tank")
    assert rest.values == {"resting-voltage": 12.7, "terminals-tight": "no"}
    assert rest.note == "loose"
    assert gauge.values == {"gauge-at-quarters": [28, "6,10", "88 L"]}
    assert '[28, "6,10", "88 L"]' in done.text


@pytest.mark.parametrize(
    ("is_retest", "day", "beside"),
    [(False, "2027-03-15", None), (True, "", None), (False, "2027-03-14", 1), (False, "", 1), (False, "2027-03-13", 1)],
)  # fmt: skip
def test_a_later_day_or_a_retests_sheet_is_another_round(
    is_retest: bool, day: str, beside: int | None
) -> None:
    planned = small_plan()
    text = HEAD + "checks:\n  rest@house:\n    - found: {resting-voltage: 12.1}\n      by: AL\n"
    text += "      when: 2027-03-14\n" if not is_retest else ""
    _, findings = collected(text, form(planned, {VOLTS: "12.7", BY: "AL", DATE: day}, is_retest=is_retest))
    first, second = findings.attempts("rest@house")
    assert first.values == {"resting-voltage": 12.1}
    assert (second.values, second.beside) == ({"resting-voltage": 12.7}, beside)


def test_a_retest_of_another_day_with_the_same_reading_is_recorded() -> None:
    planned = small_plan()
    text = HEAD + "checks:\n  rest@house:\n    - found: {resting-voltage: 12.1}\n      when: 2027-03-14\n"
    _, findings = collected(text, form(planned, {VOLTS: "12.1", DATE: "2027-03-20"}, is_retest=True))
    assert [attempt.when for attempt in findings.attempts("rest@house")] == [
        datetime.date(2027, 3, 14),
        datetime.date(2027, 3, 20),
    ]


def test_a_retest_finds_the_head_of_its_round() -> None:
    """A retest holds fewer checks, so its second run of a setting may be the first that it has."""
    checks = (CHECKS[0], CHECKS[2], CHECKS[1])
    planned, retest = small_plan(*checks), small_plan(*checks[1:])
    _, findings = collected(
        None, form(retest, {f"{GAUGE}/1": "30", "round/alongside/by": "AL"}, is_retest=True), plan=planned
    )
    assert findings.attempts("gauge@tank")[0].by == "AL"


STYLES = {
    "comments": HEAD + "checks:\n  rest@house: # c1\n    # c2\n    - found: # c3\n        resting-voltage: # c4\n"
    "        # c5\n        terminals-tight: yes # c6\n      # c7\n  # c8\n  gauge@tank:\n    - note: x\n# c9\n",
    "wide": HEAD + "checks:\n        rest@house:\n          -   found:\n                 resting-voltage:\n"
    "        gauge@tank:\n          - note: |\n              # text\n              - more\n\n",
    "narrow": HEAD + "checks:\n rest@house:\n - found:\n    resting-voltage: ~\n gauge@tank:\n - note: >-\n    folded\n    text\n",
    "flow": HEAD + "checks:\n  rest@house:\n    - {found: {terminals-tight: yes}, by: AL}\n  gauge@tank:\n    - found: {gauge-at-quarters: [1]}\n",
    "quoted": HEAD + "checks:\n  'rest@house':\n    - \"found\":\n        \"resting voltage\":\n        'terminals tight': ''\n      note: 'it''s'\n",
    "dash alone": HEAD + "checks:\n  rest@house:\n    -\n      found:\n        resting-voltage:\n    -\n      note: second\n",
    "null": HEAD + "checks:\n  rest@house: # later\n  gauge@tank:\n",
    "no checks": HEAD + "checks: # none yet\n",
    "without": HEAD,
    "empty": HEAD + "checks: {}\nremarks: []\napart:\n",
    "other order": "remarks:\n- sun\n" + HEAD + "second_look: [gauge@tank]\nchecks:\n  rest@house:\n    - note: a\n\nsnags:\n  rest@house:\n    who: yard\n\n# end",
    "end": HEAD + "checks:\n  rest@house:\n    - note: a\n...\n",
    "windows": (HEAD + "checks:\n  rest@house:\n    - found:\n        resting-voltage:\n").replace("\n", "\r\n"),
    "kept line ends": HEAD + "checks:\n  rest@house:\n    - note: |+\n        text\n\n\n  gauge@tank:\n    - note: a\n",
    "odd line ends": HEAD + "# a\x85# b\u2028# c\u2029checks:\n  rest@house:\n    - note: a\n",
    "two attempts": HEAD + "checks:\n  rest@house:\n    - found: {resting-voltage: 11}\n      by: AL\n    - found:\n        resting-voltage:\n      by:\n",
}  # fmt: skip


@pytest.mark.parametrize("style", STYLES)
def test_findings_written_in_another_style_keep_comments_and_values(style: str) -> None:
    planned, text = small_plan(), STYLES[style]
    before = read_findings(text, "x", planned)
    typed = {VOLTS: "12.7", BY: "BK", NOTE: "n: # 1", f"{GAUGE}/2": "61", "kit/meter": True,
             "check/serial@engine/reading/serial-number": "007", "check/gone@boat/reading/it": "5"}  # fmt: skip
    done, findings = collected(text, form(planned, typed))
    assert any(one.values.get("resting-voltage") == 12.7 for one in findings.attempts("rest@house"))
    assert findings.attempts("serial@engine")[0].values == {"serial-number": "007"}
    assert findings.apart["gone@boat"][0].values == {"it": 5}
    for id, attempts in before.checks.items():
        for one, other in zip(attempts, findings.checks[id], strict=False):
            assert one.values.items() <= other.values.items()
            assert one.note in (None, other.note)
            assert one.by in (None, other.by)
    assert before.snags.items() <= findings.snags.items()
    assert set(before.remarks) < set(findings.remarks)
    comments = [part.strip() for part in text.splitlines() if part.lstrip().startswith("#")]
    comments += [f"# c{n}" for n in range(1, 10)] if style == "comments" else []
    assert all(comment in done.text for comment in comments)
    if style == "windows":
        assert done.text.count("\n") == done.text.count("\r\n")


@pytest.mark.parametrize(
    "text",
    [
        HEAD + "checks:\n  rest@house: [{found: {resting-voltage: 11}}]\n",
        HEAD + "checks: {rest@house: [{note: a}]}\n",
        HEAD + "checks:\n  gauge@tank: &a\n    - note: x\n  rest@house: *a\n",
        "{boat: Tern, plan: x}\n",
    ],
)
def test_what_cannot_be_added_to_is_a_fault_with_its_file(text: str) -> None:
    planned = small_plan()
    problem = faults(lambda: collect(text, "findings.yaml", planned, [form(planned, {VOLTS: "12.7"})]))[0]
    assert problem.mark.file == "findings.yaml"
    assert "nothing can be added" in problem.found or "one line" in problem.found


def test_a_value_of_another_unit_is_kept_in_the_note_and_said() -> None:
    planned = small_plan()
    done, findings = collected(None, form(planned, {VOLTS: "12.7 bar", NOTE: "odd"}))
    (attempt,) = findings.attempts("rest@house")
    assert not attempt.values
    assert attempt.note == "odd; typed for resting voltage: 12.7 bar"
    assert "bar is no unit" in done.forms[0].faults[0]


def test_yes_and_no_ticked_together_are_kept_as_both() -> None:
    planned = small_plan()
    _, findings = collected(None, form(planned, {f"{TIGHT}/yes": True, f"{TIGHT}/no": True}))
    assert findings.attempts("rest@house")[0].values == {"terminals-tight": "yes and no"}


def test_initials_alone_are_kept_and_count_as_nothing_done() -> None:
    planned = small_plan()
    _, findings = collected(None, form(planned, {BY: "AL"}), form(planned, {BY: "BK"}))
    assert not findings.attempts("rest@house")
    assert [one.by for one in findings.checks["rest@house"]] == ["AL", "BK"]


def test_a_row_of_the_snag_sheet_is_a_settlement_where_it_names_a_check() -> None:
    planned = small_plan()
    rows = {
        "snag/1/check": "Rest@House", "snag/1/settlement": "mended by a date", "snag/1/who": "yard", "snag/1/by": "1.6.2027",
        "snag/1/sum": "450.00 EUR", "snag/1/found": "11.9 V", "snag/2/check": "mast lamp", "snag/2/found": "dark",
    }  # fmt: skip
    _, findings = collected(None, form(planned, rows))
    settled = findings.snags["rest@house"]
    assert (settled.settlement, settled.who, str(settled.due), settled.sum) == (
        "mended-by-date", "yard", "2027-06-01", "450.00 EUR",
    )  # fmt: skip
    assert "11.9 V" in (settled.note or "")
    (lamp,) = findings.also_found
    assert (lamp.what, lamp.note) == ("dark", "check mast lamp")
    assert not findings.remarks


def test_a_row_of_the_snag_sheet_that_names_no_check_is_also_found() -> None:
    planned = small_plan()
    rows = {
        "snag/1/found": "cracked stanchion base", "snag/1/place": "cockpit, port", "snag/1/photo": "7, 8", "snag/1/grade/stop": True,
        "snag/1/settlement": "mended by a date", "snag/1/who": "yard, 1 June", "snag/1/sum": "450.00 EUR", "snag/1/expected": "sound",
        "snag/2/place": "bow", "snag/3/found": "scratch", "snag/3/grade/stop": True, "snag/3/grade/remark": True,
    }  # fmt: skip
    _, findings = collected(None, form(planned, rows))
    (crack,) = findings.also_found
    assert (crack.what, crack.place, crack.photos, crack.grade) == (
        "cracked stanchion base",
        "cockpit, port",
        ("7", "8"),
        "stop",
    )
    assert (crack.settlement, crack.who, crack.sum, crack.note) == (
        "mended-by-date",
        "yard, 1 June",
        "450.00 EUR",
        "settlement mended by a date; expected sound",
    )
    assert findings.remarks == (
        "snag sheet, row 2: place bow",
        "snag sheet, row 3: found scratch; grade stop and remark",
    )


def test_a_settlement_that_stands_already_is_not_written_over() -> None:
    planned = small_plan()
    text = findings_text(planned) + "snags:\n  rest@house:\n    settlement: disputed\n"
    _, findings = collected(
        text, form(planned, {"snag/1/check": "rest@house", "snag/1/settlement": "accepted"})
    )
    assert findings.snags["rest@house"].settlement == "disputed"
    assert findings.remarks == ("snag sheet, rest@house: settlement accepted",)


def test_lists_of_gear_stores_kit_and_answers_are_kept_as_remarks() -> None:
    planned = small_plan()
    typed = {
        "gear/hand-flare/found": "3", "gear/hand-flare/expiry": "2029-04", "store/manual": True, "store/manual/place": "chart table",
        "kit/meter": True, "kit/gauge": True, "kit/meter/number": "SN 4", "question/use:water": "18 °C", "cover/1/name": "AL", "odd": "x",
        "also/also-found@rail/mended": True, "also/also-found@rail/day": "1.6.2027",
    }  # fmt: skip
    _, findings = collected(None, form(planned, typed))
    assert set(findings.remarks) == {
        "gear hand-flare: found 3; expiry 2029-04", "store manual: there; place chart table", "kit brought: meter, gauge",
        "kit meter: number SN 4", "answer to use.water: 18 °C", "cover 1: name AL", "odd: x",
        "also found, also-found@rail: seen mended on 2027-06-01",
    }  # fmt: skip


def test_a_form_of_another_boat_is_refused_with_both_names() -> None:
    planned = small_plan()
    stranger = form(planned, {VOLTS: "12.7"}, digest="b" * 64, boat="Skua", name="skua.pdf")
    (problem,) = faults(lambda: collected(None, form(planned, {}), stranger))
    assert (problem.mark.file, "Skua" in problem.found, "Tern" in problem.accepted) == (
        "skua.pdf",
        True,
        True,
    )


def test_a_form_of_another_version_gives_what_still_matches_and_keeps_the_rest_apart() -> None:
    now = small_plan(
        check("rest@house", expectation("temperature", unit="°C", high=30.0), expectation("resting voltage", unit="V", low=12.6)),
        check("gauge@tank", series("gauge at quarters", {30.0: (27.0, 33.0), 60.0: (54.0, 66.0)}, unit="L")),
        digest="b" * 64,
    )  # fmt: skip
    typed = {VOLTS: "12.7", f"{TIGHT}/yes": True, f"{GAUGE}/3": "88", "check/serial@engine/reading/serial-number": "007",
             "check/serial@engine/note": "worn", "check/serial@engine/by": "AL"}  # fmt: skip
    done, findings = collected(None, form(small_plan(), typed), plan=now)
    assert done.forms[0].other_plan == "a" * 8
    assert findings.attempts("rest@house")[0].values == {"resting-voltage": 12.7}
    assert findings.second_look == ("rest@house",)
    assert findings.apart["rest@house"][0].values == {"terminals-tight": "yes"}
    assert findings.apart["gauge@tank"][0].values == {"gauge-at-quarters": [None, None, 88]}
    (serial,) = findings.apart["serial@engine"]
    assert (serial.values, serial.note, serial.by) == ({"serial-number": "007"}, "worn", "AL")
    assert set(done.forms[0].apart) == {"rest@house", "gauge@tank", "serial@engine"}


def test_pages_that_are_missing_are_counted() -> None:
    planned = small_plan()
    some = form(small_plan(*CHECKS[:1]), {VOLTS: "12.7"})
    done, _ = collected(None, some)
    assert done.forms[0].pages_missing == len(planned.checks) - 1


def test_findings_with_a_fault_are_left_alone() -> None:
    planned = small_plan()
    text = findings_text(planned).replace("rest@house", "rest@hous")
    problems = faults(lambda: collect(text, "findings.yaml", planned, [form(planned, {VOLTS: "12.7"})]))
    assert problems[0].nearest == "rest@house"
