"""Line lists typed from wet paper: what each line says, and that nothing of it is lost."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plangen.assess.assess import assess_findings
from plangen.collect.collect import Collected, collect
from plangen.collect.list_lines import heads, lines_of_text
from plangen.collect.list_table import lines_of_csv
from plangen.findings.blank import findings_text
from plangen.findings.model import AlsoFound, Attempt, Findings
from plangen.findings.read import read_findings
from plangen.plan.model import Plan
from plangen.schedule.codes import with_codes
from tests.assess.building import check, expectation, series
from tests.collect.forms import form, small_plan

CHECKS = (
    check("rest@house", expectation("resting voltage", unit="V", low=12.5, high=12.9), expectation("terminals tight", text="yes"), expectation("covered", text="yes")),
    check("drain@head", expectation("drains dry", text="yes", parts=("drain elbow", "vent", "pump union"))),
    check("water@bilge", expectation("water in it", text="no")),
    check("serial@engine", expectation("serial number", record="serial")),
    check("speed@boat", series("speed at steps", {1.0: (4.0, None), 2.0: (5.0, None), 3.0: (6.0, None)}, unit="kn")),
    check("flare@locker", expectation("expires", record="expiry-date")),
    check("lamp@mast", expectation("lit", text="yes", parts=("red", "green")), expectation("dry inside", text="yes", parts=("gasket", "gland"))),
)  # fmt: skip


def coded_plan(digest: str = "3f9ac41e" * 8) -> Plan:
    """A plan of one round, with codes 1.1 to 1.7."""
    plan = small_plan(*CHECKS, digest=digest)
    return plan.model_copy(update={"checks": with_codes(plan.checks, plan.rounds)})


def taken(*texts: str, before: str | None = None) -> tuple[Collected, Findings]:
    """Collect lists, and hold that collecting them once more changes nothing."""
    plan = coded_plan()
    lists = [lines_of_text(text, f"{n}.txt") for n, text in enumerate(texts, start=1)]
    done = collect(before or findings_text(plan), "findings.yaml", plan, lists)
    assert collect(done.text, "findings.yaml", plan, lists).text == done.text
    return done, read_findings(done.text, "findings.yaml", plan)


def one(findings: Findings, id: str) -> Attempt:
    (attempt,) = findings.attempts(id)
    return attempt


@pytest.mark.parametrize(
    ("line", "id", "values", "note", "photos"),
    [
        ("1.1a 12,7 photo 12", "rest@house", {"resting-voltage": "12,7"}, None, ("12",)),
        ("1.1A: 12.7 V gauge sticks, photos 3 and 4", "rest@house", {"resting-voltage": "12.7 V"}, "gauge sticks", ("3", "4")),
        ("1.1a >12.5", "rest@house", {"resting-voltage": ">12.5"}, None, ()),
        ("1.1a 12-13 V", "rest@house", {"resting-voltage": "12-13 V"}, None, ()),
        ("1.1a -0,5", "rest@house", {"resting-voltage": "-0,5"}, None, ()),
        ("1.1a 12 14", "rest@house", {"resting-voltage": "12 14"}, None, ()),
        ("1.1a n/a", "rest@house", {"resting-voltage": "n/a"}, None, ()),
        ("1.1 ok", "rest@house", {"terminals-tight": "yes", "covered": "yes"}, None, ()),
        ("1.1b not: two loose", "rest@house", {"terminals-tight": "no"}, "two loose", ()),
        ("1.2 ok", "drain@head", {"drains-dry": "yes"}, None, ()),
        ("1.2a ok", "drain@head", {"drains-dry": "yes"}, None, ()),
        ("1.2 not: drips at the drain elbow", "drain@head", {"drains-dry": "no: drain elbow"}, "drips at the drain elbow", ()),
        ("1.2 not: elbow, vent", "drain@head", {"drains-dry": "no: drain elbow, vent"}, None, ()),
        ("1.2 no: it drips", "drain@head", {"drains-dry": "no"}, "it drips", ()),
        ("1.3 ok", "water@bilge", {"water-in-it": "no"}, None, ()),
        ("1.3 not ok: a cup of it", "water@bilge", {"water-in-it": "yes"}, "a cup of it", ()),
        ("1.3 no", "water@bilge", {"water-in-it": "no"}, None, ()),
        ("1.4 NX 12345", "serial@engine", {"serial-number": "NX 12345"}, None, ()),
        ("1.4 007", "serial@engine", {"serial-number": "007"}, None, ()),
        ("1.5 4.1 5.0 6.2", "speed@boat", {"speed-at-steps": ["4.1", "5.0", "6.2"]}, None, ()),
        ("1.5 4,1 kn 5,0 kn 6,2 kn wind rising", "speed@boat", {"speed-at-steps": ["4,1 kn", "5,0 kn", "6,2 kn"]}, "wind rising", ()),
        ("1.5 4.1; -; 6.2", "speed@boat", {"speed-at-steps": ["4.1", None, "6.2"]}, None, ()),
        ("1.6 14.3.2030", "flare@locker", {"expires": "14.3.2030"}, None, ()),
        ("1.7 not: gland", "lamp@mast", {"dry-inside": "no: gland"}, None, ()),
    ],
)  # fmt: skip
def test_a_line_as_people_type_it(
    line: str, id: str, values: dict[str, Any], note: str | None, photos: tuple[str, ...]
) -> None:
    done, findings = taken(line)
    attempt = one(findings, id)
    found = {name: _texts(value) for name, value in attempt.values.items()}
    wanted = {name: _texts(value) for name, value in values.items()}
    assert (found, attempt.note, attempt.photos) == (wanted, note, photos)
    assert not done.forms[0].faults
    assert not findings.remarks


def _texts(value: Any) -> Any:
    """Numbers as text, so that 12.70 and 12.7 differ no more than the file lets them."""
    if isinstance(value, list):
        return [_texts(one) for one in value]
    try:
        return value if value is None else str(float(value))
    except ValueError:
        return value


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("9.9 ok", "no code 9.9"),
        ("1.2", "nothing behind the code"),
        ("1.1 12.7", "which is meant"),
        ("1.1 not: loose", "which is meant"),
        ("1.1a 12.7 bar", "bar is no unit"),
        ("1.5 1 2 3 4", "4 values for 3 points"),
        ("1.5 4.1 5.0", "2 values for 3 points"),
    ],
)
def test_what_somebody_has_to_look_at_is_named_with_its_line(line: str, words: str) -> None:
    done, findings = taken(f"by AM\n\n{line}\n")
    (fault,) = done.forms[0].faults
    assert words in fault
    assert fault.startswith("line 3: ")
    assert line.split(" ", 1)[-1] in " ".join(_held(findings)) or "5.0" in " ".join(_held(findings))


@pytest.mark.parametrize(
    "head",
    ["by AM\n2027-05-10\nplan 3f9ac41e\n", "plan 3f9ac41e, 10.5.2027, by AM\n", "Date: 10 May 2027\nname: AM\ndigest: 3F9AC41E8\n",
     "by AM 2027-05-10 plan 3f9ac41e\n"],
)  # fmt: skip
def test_the_header_says_who_and_when_and_which_plan_in_any_order(head: str) -> None:
    for text in (f"{head}1.2 ok\n", f"1.2 ok\n{head}"):
        head_known = "3F9AC41E8" not in head
        done, findings = taken(text)
        attempt = one(findings, "drain@head") if head_known else None
        if attempt is not None:
            assert (attempt.by, attempt.when) == ("AM", datetime.date(2027, 5, 10))
            assert not done.forms[0].no_digest
            assert not findings.remarks
        else:
            assert done.forms[0].other_plan == "3f9ac41e"


def test_without_a_digest_the_folders_plan_is_used_and_that_is_said() -> None:
    done, findings = taken("1.2 ok")
    assert done.forms[0].no_digest
    assert one(findings, "drain@head").values == {"drains-dry": "yes"}


def test_codes_of_another_plan_are_kept_as_remarks() -> None:
    done, findings = taken("plan deadbeef\n1.2 ok\nfound: loose rail, bow, stop\n")
    assert done.forms[0].other_plan == "deadbeef"
    assert not findings.attempts("drain@head")
    assert "1.txt, line 2: 1.2 ok" in findings.remarks
    assert [found.what for found in findings.also_found] == ["loose rail"]


def test_two_values_for_one_code_are_both_kept_and_named() -> None:
    done, findings = taken("1.1a 12.7\n1.1a 12.1\n1.1a 12.7 \n")
    assert one(findings, "rest@house").values == {"resting-voltage": 12.7}
    assert findings.remarks == ("1.txt, line 2: 1.1a 12.1",)
    (fault,) = done.forms[0].faults
    assert "stands in line 1" in fault


def test_two_peoples_lists_are_merged_and_what_differs_is_kept_twice() -> None:
    done, findings = taken(
        "by AM\n1.1a 12.7\n1.2 ok\nfound: loose rail, bow, stop\n",
        "by BK\n1.1a 12.1\n1.3 ok\nfound: Loose rail, bow, stop\n",
    )
    first, second = findings.attempts("rest@house")
    assert (first.by, second.by, second.beside) == ("AM", "BK", 1)
    assert done.forms[1].disagreements == ("rest@house: resting voltage: 12.7 (AM) or 12.1 (BK)",)
    assert [one(findings, id).by for id in ("drain@head", "water@bilge")] == ["AM", "BK"]
    (rail,) = findings.also_found
    assert (rail.by, rail.grade, rail.place) == ("AM", "stop", "bow")
    assert findings.remarks == ("also found, loose rail: BK found it too",)


def test_one_list_of_two_people_and_two_days() -> None:
    _, findings = taken("by AM\n2027-05-10\n1.1a 12.1\nby BK\n1.2 ok\n2027-05-11\n1.1a 12.7\n")
    first, second = findings.attempts("rest@house")
    assert [(a.by, str(a.when), a.beside) for a in (first, second)] == [
        ("AM", "2027-05-10", None),
        ("BK", "2027-05-11", None),
    ]
    assert one(findings, "drain@head").by == "BK"


def test_a_list_and_a_form_say_the_same_once() -> None:
    plan = coded_plan()
    filled = form(plan, {"check/drain@head/reading/drains-dry/yes": True, "check/drain@head/by": "AM"})
    done = collect(
        findings_text(plan), "findings.yaml", plan, [filled, lines_of_text("by AM\n1.2 ok", "n.txt")]
    )
    assert len(read_findings(done.text, "x", plan).attempts("drain@head")) == 1


@pytest.mark.parametrize(
    "text",
    [
        "by;AM\nplan;3f9ac41e\n1.1a;12,7;photo 12\n1.5;4,1;5,0;6,2\nfound: loose rail, bow, stop\n",
        "by,AM\nplan,3f9ac41e\ncode,round,what to do,good if,found,remark,photo\n1.1a,1,Read,12.5,\"12,7\",,12\n1.5,1,Run,,\"4,1; 5,0; 6,2\",,\n1.4,,,,,,\n"
        "what,where in her,grade,remark,photo\nloose rail,bow,stop,,\n",
    ],
)  # fmt: skip
def test_a_table_is_read_with_headings_and_without(text: str) -> None:
    plan = coded_plan()
    done = collect(findings_text(plan), "findings.yaml", plan, [lines_of_csv(text, "n.csv")])
    findings = read_findings(done.text, "x", plan)
    rest = one(findings, "rest@house")
    assert (rest.by, rest.values, rest.photos) == ("AM", {"resting-voltage": "12,7"}, ("12",))
    assert one(findings, "speed@boat").values == {"speed-at-steps": ["4,1", "5,0", "6,2"]}
    assert [(f.what, f.place, f.grade) for f in findings.also_found] == [("loose rail", "bow", "stop")]
    assert not findings.remarks
    assert not done.forms[0].no_digest


CODES = ("1.1", "1.1a", "1.1b", "1.1c", "1.2", "1.3", "1.4", "1.5", "1.6", "1.7", "1.7a", "9.9", "1.1z")
ANSWERS = (
    "ok", "not ok", "yes", "no", "n/a", "12,7", "12.7 V", "12.7 bar", ">20", "1,200", "4.1 5.0 6.2", "4.1 5", "1 2 3 4", "NX 12345",
    "not: vent", "not: drips at the vent", "no: elbow, vent", "14.3.2030", "12 14", "gauge sticks", "~13", "- 5",
)  # fmt: skip
TAILS = ("", " photo 12", ", photos 3 and 4", " remark: smells", " # odd", " gauge sticks", "; \u2028 é ½")
HEADS = (
    "by AM",
    "by BK",
    "2027-05-10",
    "11.5.2027",
    "plan 3f9ac41e",
    "plan deadbeef",
    "retest",
    "by the sink it drips",
)
FOUND = (
    "found: loose rail, bow, stop",
    "found: loose rail",
    "also found: damp, port; photo 9",
    "found:",
    "found: stop",
)
lines = st.one_of(
    st.builds(lambda code, answer, tail: f"{code} {answer}{tail}", st.sampled_from(CODES), st.sampled_from(ANSWERS), st.sampled_from(TAILS)),
    st.builds(lambda code, text: f"{code} {text}", st.sampled_from(CODES), st.text(max_size=12)),
    st.sampled_from(HEADS),
    st.sampled_from(FOUND),
    st.text(max_size=12),
)  # fmt: skip
#: Words that tell what a value is, and good answers, which are written as the reading's own.
STRUCTURE = (
    "photos",
    "photo",
    "remark",
    "also",
    "found",
    "by",
    "not",
    "and",
    "ok",
    "yes",
    "no",
    "n/a",
    "n",
    "a",
    "a",
    "y",
    "x",
    "true",
    "false",
    "okay",
    "good",
    "fine",
    "pass",
    "passed",
    "nok",
    "bad",
    "fail",
    "failed",
)


def _held(findings: Findings) -> Iterator[str]:
    for attempts in (*findings.checks.values(), *findings.apart.values()):
        for attempt in attempts:
            for value in attempt.values.values():
                yield from (str(v) for v in (value if isinstance(value, list) else [value]))
            yield from (str(part) for part in (attempt.by, attempt.when, attempt.note) if part)
            yield from attempt.photos
    for found in findings.also_found:
        yield from _also(found)
    yield from findings.remarks


def _also(found: AlsoFound) -> Iterator[str]:
    yield from (
        str(part) for part in (found.what, found.place, found.grade, found.note, found.by, found.when) if part
    )
    yield from found.photos


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(lines, max_size=8), st.lists(lines, max_size=8))
def test_every_typed_character_is_still_there(first: list[str], second: list[str]) -> None:
    _, findings = taken("\n".join(first), "\n".join(second))
    assess_findings(coded_plan(), findings)
    held = " ".join(_held(findings)).casefold()
    for text in ("\n".join(first), "\n".join(second)):
        for line in text.split("\n"):
            assert _is_held(line, findings, held), (line, list(_held(findings)))


def _is_held(line: str, findings: Findings, held: str) -> bool:
    """Tell whether each word and number of a line stands in the findings, but for code, header words and answers' words."""
    if any(" ".join(line.split()).strip() in remark for remark in findings.remarks):
        return True
    if " ".join(line.split()).casefold() in ("plan 3f9ac41e", "retest", "2027-05-10", "11.5.2027"):
        return True
    text = " ".join(line.split()).casefold()
    for code in sorted(CODES, key=len, reverse=True):
        if text.startswith(code):
            text = text.removeprefix(code)
            break
    words = re.findall(r"[^\W_]+", text)
    return all(word in held for word in words if word not in STRUCTURE)


def test_one_line_of_the_header_makes_the_whole_list_a_retest() -> None:
    lines = lines_of_text("by AM\nretest\n1.1 12.7\nplan 3f9ac41e\n", "notes").lines
    found, header = heads(lines)
    assert header == {0, 1, 3}
    assert {head.is_retest for head in found} == {True}
    assert [(head.by, head.plan) for head in found] == [("AM", "3f9ac41e")] * 4
