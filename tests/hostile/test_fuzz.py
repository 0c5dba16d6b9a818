"""Good files twisted at random: each is taken or refused in words, and nothing else ever happens.

A run tries a fixed few, the same ones each time. Longer, by hand, and others each time:

    PLANGEN_FUZZ=20000 python -m pytest tests/hostile/test_fuzz.py
"""

from __future__ import annotations

import copy
import json
import os
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from plangen.assess.assess import assess_findings
from plangen.collect.collect import collect
from plangen.collect.returned import read_returned
from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.read import read_findings
from plangen.packs.library import Library, Loaded
from plangen.packs.lint_rules import check_rules
from plangen.packs.model import RulePack
from plangen.packs.plain_files import plain_of
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.schedule.codes import with_codes
from plangen.spec.load import load_spec_node
from plangen.spec.model import Spec
from plangen.spec.problems import InputProblems, Problem
from plangen.spec.short_forms import expand
from plangen.spec.yaml_source import read_yaml
from tests.collect.forms import bare_pdf, form, small_plan
from tests.conftest import SPECS, shipped, spec_from

#: How many twisted files are tried at each door, when somebody asks for more than the few of every run.
VARIABLE = "PLANGEN_FUZZ"
ASKED = int(os.environ.get(VARIABLE, "0"))


def some(few: int) -> Callable[[Any], Any]:
    """The settings of a door at which so many are tried in every run."""
    return settings(
        max_examples=ASKED or few,
        derandomize=not ASKED,
        database=None,
        deadline=None,
        suppress_health_check=list(HealthCheck),
    )


TOKENS = (
    "0", "-1", "1e400", "-0.0", "1e-320", "9" * 40, ".nan", ".inf", "~", "null", "true", "no", "''", '"', "'", "[", "]", "{", "}",
    "{}", "[]", "[[]]", ":", ": ", "- ", "? ", "&a", "*a", "<<: *a", "!!int", "!x", "|", ">", "#", "%", "@", "`", "\t", "\r", "\0",
    "\u202e", "\x1b[2J", "\ufeff", "\u2028", "\x85", "é", "船", "½", "2027-02-30", "0001-01-01", "9999-12-31", "0x1F", "0o7", "1_000",
    "1,000", "12 V", "1e300 m", "0 m", "-3 m", "5 °C", "46 ft 3 in", "12 V 3 A", "100 %", "1/0", "{{ 1/0 }}", "{{", "}}", "{% if %}",
    "vessel", "heads[9]", "head.tank.capacity", "q('1 m')", "greatest([])", "yes", "n/a", "ok", "~13", ">5", "5-7", "1.1a", "found: , ,",
    "../..", "CON", "a" * 300, "x" * 5000, "@boat", "rest@house", "state", "check", "- - - -", "---", "...", "\\", "\\n", "=1+1",
)  # fmt: skip


@st.composite
def twisted(draw: st.DrawFn, text: str) -> str:
    """A text with some of its lines and words gone, doubled, moved, cut, or odd ones in their place."""
    lines = text.split("\n")
    for _ in range(draw(st.integers(1, 5))):
        at = draw(st.integers(0, len(lines) - 1))
        line = lines[at]
        change = draw(
            st.sampled_from(["word", "word", "word", "into", "drop", "double", "move", "indent", "cut"])
        )
        if change == "word" and (words := list(re.finditer(r"[^\s:,{}\[\]]+", line))):
            word = draw(st.sampled_from(words))
            other = draw(st.one_of(st.sampled_from(TOKENS), st.text(max_size=6)))
            lines[at] = line[: word.start()] + other + line[word.end() :]
        elif change == "into":
            place = draw(st.integers(0, len(line)))
            lines[at] = line[:place] + draw(st.sampled_from(TOKENS)) + line[place:]
        elif change == "drop" and len(lines) > 1:
            del lines[at]
        elif change == "double":
            lines.insert(at, line)
        elif change == "move":
            lines.insert(draw(st.integers(0, len(lines) - 1)), lines.pop(at))
        elif change == "indent":
            lines[at] = draw(st.sampled_from(["", "  ", "    ", "      "])) + line.lstrip()
        elif change == "cut":
            lines[at] = line[: draw(st.integers(0, len(line)))]
    return "\n".join(lines)


ODD = (
    None,
    True,
    -1,
    0,
    1e308,
    10**30,
    "",
    "x" * 3000,
    [],
    {},
    [[]],
    {"a": {}},
    "\x1b[2J",
    "nan",
    "1e400",
    "../x",
    "2027-02-30",
)


@st.composite
def twisted_tree(draw: st.DrawFn, tree: Any) -> Any:
    """A JSON value with some of its parts gone, or odd ones in their place."""
    tree = copy.deepcopy(tree)
    for _ in range(draw(st.integers(1, 4))):
        holders = list(_holders(tree))
        holder = draw(st.sampled_from(holders))
        keys = list(holder) if isinstance(holder, dict) else list(range(len(holder)))
        if not keys:
            continue
        key = draw(st.sampled_from(keys))
        if draw(st.booleans()):
            holder[key] = draw(st.one_of(st.sampled_from(ODD), st.sampled_from(TOKENS)))
        elif isinstance(holder, dict) and draw(st.booleans()):
            holder[draw(st.sampled_from(["__proto__", "x", "plan", "boat", ""]))] = holder.pop(key)
        else:
            del holder[key]
    return tree


def _holders(tree: Any) -> Any:
    if isinstance(tree, (dict, list)):
        yield tree
        for inner in tree.values() if isinstance(tree, dict) else tree:
            yield from _holders(inner)


@cache
def a_spec() -> str:
    """A spec with most kinds of keys in it: the long forms of a catamaran and short forms of everything else."""
    return (SPECS / "monohull.yaml").read_text("utf-8")


@some(50)
@given(st.data())
def test_spec(data: st.DataObject) -> None:
    text = data.draw(twisted(a_spec()))
    problems: list[Problem] = []
    try:
        node = expand(read_yaml(text, "spec.yaml"), Spec, problems)
        loaded = load_spec_node(node, shipped().zone_sets(), shipped().other_words)
    except InputProblems as refused:
        _in_words(refused)
        return
    if problems or not ASKED:
        return
    try:
        draft_plan(loaded, shipped())
    except InputProblems as refused:
        _in_words(refused)


def _in_words(refused: InputProblems) -> None:
    assert refused.problems
    for problem in refused.problems:
        assert problem.found, problem
        assert problem.mark.file, problem


PACK = """pack: own
title: Own checks
edition: 2026-11
checks:
  - id: own-check
    title: "Own check: {{ head.name }}"
    for_each: heads
    when: head.flush_volume or vessel.length_hull > q("5 m")
    setting: alongside
    procedure: [Look., {do: "Count {{ head.flush_volume }}", when: head.tank}]
    instruments: [stopwatch]
    needs: [shore-power on]
    expect:
      - id: drain
        reading: time to drain
        unit: s
        about: rounded(60 * number(vessel.length_hull, "m") / 7, 5)
        tolerance: 10 %
      - id: levels
        reading: levels
        unit: L
        series: '[0.25, 0.5, 1.0] * q("80 L")'
        series_unit: L
        at_most: point * 1.1
      - {id: dry, reading: dry, is: "yes", when: count(heads) > 0}
    minutes: {once: 5, each: 2 * count(heads)}
    priority: 2 if vessel.condition == "used" else 3
    do: Look at {{ head.name }}
    protects: The boat.
    round: head
    grade: remark
    cautions: []
    source: common-practice
"""


@cache
def small_boat() -> Any:
    return spec_from("vessel: {name: T, hull: motor-planing, length_hull: 7 m}\nheads: 2\n")


@cache
def without_rules() -> Library:
    return replace(shipped(), rules=[], law=[], stores=[])


@some(120)
@given(st.data())
def test_pack(data: st.DataObject) -> None:
    """A pack that its check finds nothing wrong with can be drafted from."""
    text = data.draw(twisted(PACK))
    try:
        node = read_yaml(text, "own.yaml")
        model = RulePack.model_validate(node.plain())
    except InputProblems as refused:
        _in_words(refused)
        return
    except ValidationError:
        return  # said with its place by the library, which the hostile files hold
    pack = Loaded(Path("own.yaml"), plain_of(node), model)
    library = replace(without_rules(), rules=[pack])
    problems = check_rules(pack, library, {rule.id: model.pack for rule in model.checks})
    if any(not problem.is_warning for problem in problems):
        return
    try:
        planned = draft_plan(small_boat(), library).plan
    except InputProblems as refused:
        _in_words(refused)
        return
    for check in planned.checks:
        for expected in check.expect:
            numbers = (expected.low, expected.value, expected.high)
            assert all(number is None or abs(number) < 1e308 for number in numbers)


@cache
def a_plan() -> Plan:
    plan = small_plan()
    return plan.model_copy(update={"checks": with_codes(plan.checks, plan.rounds)})


@cache
def some_findings() -> str:
    typed: dict[str, str | bool] = {
        "check/rest@house/reading/resting-voltage": "12.7",
        "check/rest@house/note": "cold",
    }
    known = form(a_plan(), {}).fields
    given = {name: value for name, value in typed.items() if name in known}
    text = collect(findings_text(a_plan()), "findings.yaml", a_plan(), [form(a_plan(), given)]).text
    return text + (
        "also_found:\n  - {what: Wet locker, place: saloon, grade: remark, photos: [12]}\n"
        "snags:\n  rest@house: {who: yard, settlement: mended-by-date, due: 2027-06-01, sum: 100 EUR}\n"
        "second_look: [gauge@tank]\nremarks: [gone@x 12]\n"
    )


@some(60)
@given(st.data())
def test_findings(data: st.DataObject) -> None:
    text = data.draw(twisted(some_findings()))
    try:
        findings = read_findings(text, "findings.yaml", a_plan())
    except InputProblems as refused:
        _in_words(refused)
    else:
        assess_findings(a_plan(), findings)
    try:
        carry(text, "findings.yaml", a_plan(), small_plan(*a_plan().checks[:2], digest="b" * 64))
    except InputProblems as refused:
        _in_words(refused)


LIST = """plan: aaaaaaaa
by: AL
2027-05-14
1.1a 12.7
1.1b ok
1.2 27 61 90 photo 12
2.1a not: cracked, "old"
2.1a 007-B
2.2a 95 °C with: M-1
found: Wet locker, saloon, remark photo 3
"""


def _taken(content: bytes, name: str) -> None:
    """What was taken can be read, and taking it again changes nothing."""
    try:
        returned = read_returned(content, name)
        once = collect(findings_text(a_plan()), "findings.yaml", a_plan(), [returned])
    except InputProblems as refused:
        _in_words(refused)
        return
    assess_findings(a_plan(), read_findings(once.text, "findings.yaml", a_plan()))
    assert collect(once.text, "findings.yaml", a_plan(), [returned]).text == once.text


@some(60)
@given(st.data())
@pytest.mark.parametrize("name", ["notes.txt", "notes.csv"])
def test_line_list(name: str, data: st.DataObject) -> None:
    text = data.draw(twisted(LIST if name == "notes.txt" else LIST.replace(" ", ",")))
    encoding = data.draw(st.sampled_from(["utf-8", "utf-8", "utf-16", "cp1252"]))
    _taken(text.encode(encoding, "replace"), name)


EXPORT: dict[str, Any] = {
    "format": "plangen-field/1",
    "boat": {"name": "Tern"},
    "plan": "a" * 64,
    "units": "metric",
    "device": "abcd",
    "saved": "2027-05-14T10:00:00Z",
    "attempt": 1,
    "earlier": {"rest@house": 0},
    "readings": [
        {
            "check": "rest@house",
            "reading": "resting-voltage",
            "typed": "12.7",
            "by": "AL",
            "at": "2027-05-14T10:00:00Z",
        },
        {
            "check": "gauge@tank",
            "reading": "gauge-at-quarters",
            "typed": ["27", "61", "90"],
            "by": "AL",
            "at": "x",
        },
        {
            "check": "serial@engine",
            "reading": "serial-number",
            "typed": "007",
            "with": "M-1",
            "shown": "pass",
        },
    ],
    "lines": [
        {"check": "rest@house", "note": "cold", "photos": ["12"], "by": "AL", "at": "2027-05-14T10:00:00Z"}
    ],
    "rounds": [{"number": 1, "from": "09:00", "to": "10:00", "by": "AL", "at": "2027-05-14T10:00:00Z"}],
    "also_found": [{"what": "Wet locker", "place": "saloon", "grade": "remark", "photos": []}],
    "also_seen": [{"id": "rest@house", "mended": True, "note": "x"}],
    "stray": [{"check": "gone@x", "reading": "y", "typed": "1"}],
    "photos": [],
}


@some(60)
@given(st.data())
def test_field_page_file(data: st.DataObject) -> None:
    _taken(json.dumps(data.draw(twisted_tree(EXPORT))).encode(), "export.json")


@some(60)
@given(st.data())
def test_fields_of_a_form(data: st.DataObject) -> None:
    names = list(form(a_plan(), {}).fields)
    typed = data.draw(
        st.dictionaries(
            st.one_of(st.sampled_from(names), twisted("check/rest@house/reading/resting-voltage")),
            st.one_of(st.sampled_from(TOKENS), st.text(max_size=10), st.booleans()),
            max_size=8,
        )
    )
    typed = {" ".join(name.split()): value for name, value in typed.items()}  # as they are read from a PDF
    try:
        once = collect(findings_text(a_plan()), "findings.yaml", a_plan(), [form(a_plan(), typed)])
    except InputProblems as refused:
        assert not typed.keys() <= set(names), "fields of the plan's own form are always taken"
        _in_words(refused)
        return
    assess_findings(a_plan(), read_findings(once.text, "findings.yaml", a_plan()))
    assert collect(once.text, "findings.yaml", a_plan(), [form(a_plan(), typed)]).text == once.text


@cache
def a_pdf() -> bytes:
    fields = [("check/rest@house/reading/resting-voltage", "12.7"), ("check/rest@house/note", "cold")]
    return bare_pdf([*fields, (f"plan/{'a' * 64}", '{"name": "Tern"}')], {"/Title": "Tern"})


@some(60)
@given(st.data())
def test_bytes_of_a_form(data: st.DataObject) -> None:
    content = bytearray(a_pdf())
    for _ in range(data.draw(st.integers(1, 8))):
        at = data.draw(st.integers(0, len(content) - 1))
        change = data.draw(st.sampled_from(["set", "drop", "insert", "cut"]))
        if change == "set":
            content[at] = data.draw(st.integers(0, 255))
        elif change == "drop":
            del content[at : at + data.draw(st.integers(1, 40))]
        elif change == "insert":
            content[at:at] = data.draw(
                st.sampled_from([b"<<", b">>", b"(", b"/Kids [1 0 R]", b"9" * 30, b"\0" * 9])
            )
        elif at > 20:
            del content[at:]
        if not content:
            return
    _taken(bytes(content), "filled.pdf")


def test_what_is_twisted_is_good_before() -> None:
    read_yaml(a_spec(), "spec.yaml")
    model = RulePack.model_validate(read_yaml(PACK, "own.yaml").plain())
    pack = Loaded(Path("own.yaml"), plain_of(read_yaml(PACK, "own.yaml")), model)
    assert check_rules(pack, without_rules(), {"own-check": "own"}) == []
    checks = draft_plan(small_boat(), replace(without_rules(), rules=[pack])).plan.checks
    assert [check.id for check in checks] == ["own-check@head-1", "own-check@head-2"]
    assert checks[0].expect[0].value == 60
    findings = read_findings(some_findings(), "findings.yaml", a_plan())
    assert findings.checks["rest@house"][0].found["resting-voltage"] == 12.7
    for content, name in (
        (LIST.encode(), "notes.txt"),
        (json.dumps(EXPORT).encode(), "export.json"),
        (a_pdf(), "a.pdf"),
    ):
        returned = read_returned(content, name)
        text = collect(findings_text(a_plan()), "findings.yaml", a_plan(), [returned]).text
        taken = read_findings(text, "findings.yaml", a_plan())
        assert str(taken.checks["rest@house"][0].found["resting-voltage"]) == "12.7", name
