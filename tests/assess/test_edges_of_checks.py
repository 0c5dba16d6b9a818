"""Checks, snags, retest and register where one thing turns into another: the last of several, what is blank beside what isn't."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.as_built import as_built_of
from plangen.assess.assess import assess_findings
from plangen.assess.handover import handover_of
from plangen.assess.model import Assessment
from plangen.assess.page_verdicts import shown_otherwise
from plangen.assess.retest import found_beside, retest_of
from plangen.collect.field_export import ExportedReading, FieldExport
from plangen.plan.boat_identity import identity_of
from plangen.plan.model import Plan, PlateReading, RegisterItem
from tests.assess.building import check, expectation, figure, findings, plan, series

VOLTS, TIGHT = expectation("volts", unit="V", low=12.0), expectation("tight", text="yes")
BANK = plan(
    check("bank@house", VOLTS, TIGHT, grade="before-handover"),
    check("rest@house", VOLTS, grade="before-handover"),
)


def assessed(found: dict[str, Any], of: Plan = BANK, **fields: Any) -> Assessment:
    return assess_findings(of, findings(found, **fields))


def test_a_second_look_is_known_by_its_check() -> None:
    found = assessed({"bank@house": {"volts": 12.5}}, second_look=("rest@house",))
    assert [one.second_look for one in found.checks] == [False, True]


def test_what_was_typed_for_nobody_is_shown() -> None:
    found = assessed({"bank@house": {"volts": 12.5, "old-colour": "red"}})
    assert found.checks[0].unasked == ("old colour: red",)


@pytest.mark.parametrize(("attempts", "verdict"), [(1, "unclear"), (0, "pass")])
def test_what_failed_by_what_was_expected_then_is_looked_at_again(attempts: int, verdict: str) -> None:
    then = {
        "attempts": attempts,
        "check": check("rest@house", VOLTS.model_copy(update={"low": 12.6})).model_dump(),
    }
    found = assessed({"rest@house": {"volts": 12.5}}, expected_then={"rest@house": [then]})
    assert found.checks[1].verdict == verdict


def test_what_both_then_and_now_fail_is_a_fail() -> None:
    then = {"attempts": 1, "check": check("rest@house", VOLTS.model_copy(update={"low": 12.6})).model_dump()}
    assert (
        assessed({"rest@house": {"volts": 11.0}}, expected_then={"rest@house": [then]}).checks[1].verdict
        == "fail"
    )
    assert (
        assessed({"rest@house": [{"note": "x"}]}, expected_then={"rest@house": [then]}).checks[1].verdict
        == "not-done"
    )


def test_checks_that_are_gone_are_judged_by_what_was_expected_else_unclear() -> None:
    then = {"attempts": 1, "check": check("gone@x", VOLTS).model_dump()}
    blank: dict[str, Any] = {"found": {}}
    found = assessed({}, apart={"gone@x": [{"found": {"volts": 11.0}}], "odd-thing@port-engine": [{"found": {"a": 1}, "by": "AL"}, blank],
                                "none@y": [{"does_not_apply": "sold"}, blank], "blank@z": [blank]},
                     expected_then={"gone@x": [then]})  # fmt: skip
    assert [(one.id, one.verdict, one.in_plan) for one in found.gone] == [
        ("gone@x", "fail", False), ("odd-thing@port-engine", "unclear", False), ("none@y", "does-not-apply", False),
    ]  # fmt: skip
    odd = found.gone[1]
    assert (odd.title, odd.item, odd.unasked) == ("odd thing", "port engine", ("a: 1",))
    assert [(one.attempt, one.verdict, one.by) for one in odd.attempts] == [(1, "unclear", "AL")]


def test_a_retest_keeps_what_it_left_blank_from_the_attempt_before() -> None:
    first = {"found": {"volts": 11.0, "tight": "yes"}}
    (one, *_) = assessed(
        {"bank@house": [first, {"found": {"volts": 12.5}}, {"found": {"volts": 12.6}}]}
    ).checks
    assert one.verdict == "pass"
    assert [[reading.from_attempt for reading in attempt.readings] for attempt in one.attempts] == [
        [None, None], [None, 1], [None, 1],
    ]  # fmt: skip
    (noted, *_) = assessed({"bank@house": [first, {"note": "came back"}]}).checks
    assert (noted.attempts[1].verdict, noted.verdict) == ("not-done", "fail")


def test_who_stands_beside_another_adds_to_what_that_one_read() -> None:
    attempts = [{"found": {"volts": 12.5}, "by": "AL"}, {"found": {"tight": "yes"}, "by": "BM", "beside": 1}]
    (one, *_) = assessed({"bank@house": attempts}).checks
    assert (one.verdict, one.disagreement) == ("pass", None)
    differ = [
        {"found": {"volts": 12.5, "tight": "yes"}, "by": "AL"},
        {"found": {"volts": 12.7, "tight": "y"}, "beside": 1},
    ]
    (one, *_) = assessed({"bank@house": differ}).checks
    assert (
        one.disagreement
        == "two people found different things: volts: 12.5 (AL) or 12.7 (another); ask them and read again"
    )
    for nowhere in (2, 3, 0):
        (one, *_) = assessed(
            {"bank@house": [{"found": {"volts": 12.5}}, {"found": {"tight": "yes"}, "beside": nowhere}]}
        ).checks
        assert one.disagreement is None


def test_snags_number_the_gravest_first_and_say_what_was_found() -> None:
    of = plan(check("a@x", TIGHT, grade="remark"), check("b@x", TIGHT, VOLTS, grade="stop"))
    found = assessed({"a@x": {"tight": "no"}, "b@x": [{"found": {"tight": "no", "volts": 11.0}, "by": "AL", "when": "2027-05-14", "note": "wet", "photos": ["1.jpg"]},
                                                      {"found": {"tight": "no"}, "photos": ["1.jpg", "2.jpg"]}]}, of)  # fmt: skip
    assert [(one.number, one.check) for one in found.snags] == [(1, "b@x"), (2, "a@x")]
    first = found.snags[0]
    assert first.photos == ("1.jpg", "2.jpg")
    assert first.history == (
        "attempt 1: fail, 2027-05-14, AL (tight no; volts 11 V)",
        "attempt 2: fail (tight no; volts 11 V)",
    )
    assert (first.expected, first.found) == ("tight: as planned; volts: as planned", "tight: no; volts: 11 V")


@pytest.mark.parametrize(
    ("settled", "found_note", "note"),
    [(None, "wet", "wet"), ("dried", "wet", "dried"), ("wet", "all wet", "all wet"), ("dried", None, "dried"), (None, None, None)],
)  # fmt: skip
def test_the_note_of_the_settlement_comes_before_that_of_the_finding(
    settled: str | None, found_note: str | None, note: str | None
) -> None:
    attempt = {"found": {"tight": "no"}, **({"note": found_note} if found_note else {})}
    found = assess_findings(
        BANK,
        findings(
            {"bank@house": [attempt]},
            {"bank@house": {"settlement": "accepted", **({"note": settled} if settled else {})}},
        ),
    )
    assert found.snags[0].note == note


# --- handover, retest, register


def test_the_answer_counts_what_decides() -> None:
    good = {"bank@house": {"volts": 12.5, "tight": "yes"}, "rest@house": {"volts": 12.5}}
    assert assessed(good).handover.line.endswith("and all 2 checks of these grades are done.")
    one = assessed({**good, "rest@house": {"volts": 11.0}}).handover
    assert (one.answer, one.forbidding) == ("no", ("rest@house",))
    assert one.line.startswith("Handover is not advisable: 1 snag of grade stop or before handover is open.")
    both = assessed({"bank@house": {"volts": 11.0}, "rest@house": {"volts": 11.0}}).handover
    assert "2 snags of grade stop or before handover are open." in both.line
    left = assessed({"rest@house": {"volts": "full"}}).handover
    assert (left.answer, left.not_done, left.unclear) == ("cannot-be-said", 1, 1)
    assert "1 of 2 checks of grade stop or before handover aren't done, 1 unclear" in left.line
    assert handover_of((), (), 1).line.endswith("1 more of these grades is not part of this plan.")
    assert handover_of((), (), 2).line.endswith("2 more of these grades are not part of this plan.")
    assert "close to call" not in handover_of((), ()).line


def retested(
    of: Plan, found: dict[str, Any], snags: dict[str, Any] | None = None, **fields: Any
) -> list[tuple[str, str, tuple[str, ...], tuple[str, ...]]]:
    assessment = assess_findings(of, findings(found, snags, **fields))
    return [(one.check.id, one.why, one.readings, one.because) for one in retest_of(of, assessment).again]


def test_only_what_was_bad_is_read_again_and_what_hangs_on_it() -> None:
    of = plan(
        check("first@pump", VOLTS, TIGHT), check("after@pump", TIGHT, after=("first@pump",)), check("after@sink", TIGHT, after=("first@pump",)),
        check("blank@pump", TIGHT, after=("first@pump",)),
    )  # fmt: skip
    found = {
        "first@pump": {"volts": 11.0, "tight": "yes"},
        "after@pump": {"tight": "yes"},
        "after@sink": {"tight": "yes"},
    }
    assert retested(of, found) == [
        ("first@pump", "failed", ("volts",), ()), ("after@pump", "depends", ("tight",), ("first@pump",)),
    ]  # fmt: skip
    settled = {"first@pump": {"settlement": "accepted"}}
    assert retested(of, found, settled) == []
    assert retested(of, {**found, "first@pump": {"volts": "full", "tight": "yes"}}) == [
        ("first@pump", "undecided", ("volts",), ())
    ]


def test_what_looks_after_wet_is_looked_at_again_where_something_is_made_wet() -> None:
    wet = check("hose@deck", TIGHT, wets="deck")
    looks = [
        check(f"look-{name}@x", TIGHT, after=("hose@deck",), looks_after_wet=where)
        for name, where in (("deck", ("deck",)), ("sea", ("sea",)), ("all", ()), ("never", None))
    ]
    of = plan(wet, *looks)
    done = {one.id: {"tight": "yes"} for one in looks}
    assert [one[0] for one in retested(of, {"hose@deck": {"tight": "no"}, **done})] == [
        "hose@deck",
        "look-deck@x",
        "look-all@x",
    ]


def test_a_figure_s_readings_that_failed_ask_for_its_check_again() -> None:
    drop = figure(
        "voltage-drop-percent",
        "%",
        {"lost": ("lost@x", "lost")},
        inputs={"nominal_voltage": 12.0},
        gives="drop",
    )
    of = plan(
        check("lost@x", expectation("lost", unit="V", high=0.1)),
        check("drop@x", expectation("drop", unit="%", high=50.0), derive=[drop]),
    )
    assert retested(of, {"lost@x": {"lost": 0.3}, "drop@x": {"drop": 2}}) == [
        ("lost@x", "failed", ("lost",), ()), ("drop@x", "depends", ("drop",), ("lost@x",)),
    ]  # fmt: skip


def test_the_retest_counts_snags_and_names_what_was_tried() -> None:
    of = plan(check("a@x", TIGHT), check("b@x", TIGHT))
    found = {
        "a@x": [{"found": {"tight": "no"}}, {"found": {"tight": "no"}}],
        "b@x": [{"found": {"tight": "no"}}, {"found": {"tight": "yes"}}],
    }
    retest = retest_of(of, assess_findings(of, findings(found)))
    assert (retest.snags, retest.settled) == (2, 1)
    assert [(one.check.id, one.tried, one.number) for one in retest.again] == [("a@x", 2, 1)]


def test_what_was_found_beside_the_checks_is_looked_at_until_it_is_mended() -> None:
    beside = [{"what": "cracked base", "grade": "stop"}, {"what": "loose rail", "mended": "2027-05-20"}]
    found = assess_findings(BANK, findings({"rest@house": {"volts": 11.0}}, also_found=beside))
    assert [snag.title for snag in found_beside(found)] == ["cracked base"]


def test_the_register_takes_the_fullest_reading_and_says_who_read_it() -> None:
    plate, serial = expectation("plate", record="plate"), expectation("serial", record="serial-number")
    readings = (
        PlateReading(check="plate@x", reading="plate", whole=True),
        PlateReading(check="serial@x", reading="serial"),
    )
    item = RegisterItem(item="x", group="g", stated={"serial": "4711"}, readings=readings)
    of = plan(check("plate@x", plate), check("serial@x", serial)).model_copy(update={"as_built": (item,)})

    def line(found: dict[str, Any]) -> Any:
        (one,) = as_built_of(of, assess_findings(of, findings(found)))
        return one

    both = line(
        {
            "plate@x": [{"found": {"plate": "PD / 4711"}, "by": "AL"}],
            "serial@x": [{"found": {"serial": "4712"}, "by": "BM"}],
        }
    )
    assert (both.found, both.state, both.check, both.by) == (
        {"model": "PD", "serial": "4711"},
        "as-specified",
        "plate@x",
        "AL",
    )
    alone = line({"serial@x": [{"found": {"serial": "4712"}, "by": "BM"}]})
    assert (alone.found, alone.state, alone.different, alone.check, alone.by) == (
        {"serial": "4712"},
        "differs",
        ("serial",),
        "serial@x",
        "BM",
    )
    unread = line({})
    assert (unread.state, unread.check, unread.by, unread.shown("serial"), unread.shown("maker")) == (
        "not-read",
        "plate@x",
        None,
        "4711",
        "",
    )
    none = line({"plate@x": {"plate": "n/a"}})
    assert (none.state, none.found) == ("no-plate", {})
    again = line({"plate@x": [{"found": {"plate": "4710"}}, {"found": {"plate": "4711"}, "by": "CN"}]})
    assert (again.found, again.by) == ({"serial": "4711"}, "CN")


def test_a_page_s_verdict_that_is_another_is_named() -> None:
    def export(*readings: ExportedReading, digest: str = BANK.digest) -> FieldExport:
        return FieldExport(
            "p.json", identity_of(BANK.boat), digest, "metric", 1, {}, readings, (), (), (), ()
        )

    def row(typed: str, shown: str, reading: str = "volts") -> ExportedReading:
        return ExportedReading("bank@house", reading, typed, "AL", "2027-05-14T09:00:00Z", "", shown)

    assert shown_otherwise(BANK, export(row("11", "fail"), row("yes", "pass", "tight"))) == ()
    assert shown_otherwise(BANK, export(row("11", "pass"))) == (
        "bank@house: volts: pass there, fail here, of 11 V",
    )
    assert shown_otherwise(BANK, export(row("11", ""))) == ()
    assert shown_otherwise(BANK, export(row("11", "pass"), digest="b" * 64)) == ()


@pytest.mark.parametrize(
    ("settlement", "forbids", "unclear"),
    [(None, True, 1), ("accepted", False, 0), ("disputed", True, 1)],
)
def test_what_is_gone_from_the_plan_counts_until_it_is_settled(
    settlement: str | None, forbids: bool, unclear: int
) -> None:
    then = {"attempts": 1, "check": check("gone@x", VOLTS, grade="stop").model_dump()}
    settled = {id: {"settlement": settlement} for id in ("gone@x", "odd@y")} if settlement else {}
    found = assess_findings(
        BANK,
        findings(
            {"bank@house": {"volts": 12.5, "tight": "yes"}, "rest@house": {"volts": 12.5}}, settled,
            apart={"gone@x": [{"found": {"volts": 11.0}}], "odd@y": [{"found": {"a": 1}}]}, expected_then={"gone@x": [then]},
        ),
    )  # fmt: skip
    assert (found.handover.forbidding == ("gone@x",)) is forbids
    assert found.handover.unclear == unclear
    assert found.handover.answer == ("no" if forbids else "yes")


def test_the_last_of_what_was_expected_then_judges_a_check_that_is_gone() -> None:
    thens = [
        {"attempts": n, "check": check("gone@x", VOLTS.model_copy(update={"low": low})).model_dump()}
        for n, low in ((1, 10.0), (2, 12.0))
    ]
    found = assessed(
        {},
        apart={"gone@x": [{"found": {"volts": 12.5}}, {"found": {"volts": 11.0}}]},
        expected_then={"gone@x": thens},
    )
    assert [one.verdict for one in found.gone] == ["fail"]


def test_a_thing_seen_mended_has_a_second_attempt() -> None:
    found = assess_findings(
        BANK, findings({}, also_found=[{"what": "loose rail", "grade": "stop", "mended": "2027-05-20"}])
    )
    (rail,) = found.also_found
    assert [(one.attempt, one.verdict, one.when) for one in rail.attempts] == [
        (1, "fail", None),
        (2, "pass", "2027-05-20"),
    ]


def test_history_names_what_was_bad_and_no_series() -> None:
    of = plan(check("a@x", VOLTS, TIGHT, series("steps", {1.0: (1.0, 2.0)}, unit="V")))
    found = assessed({"a@x": {"volts": 12.5, "tight": "no", "steps": [3.0]}}, of)
    assert found.snags[0].history == ("attempt 1: fail (tight no)",)
