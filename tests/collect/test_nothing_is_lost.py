"""Whatever is typed, in the file or on forms, is still there after drafting anew, collecting and assessing."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from plangen.assess.assess import assess_findings
from plangen.collect.collect import collect
from plangen.collect.field_names import by_field, note_field, reading_field
from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.model import Attempt, Findings, Typed
from plangen.findings.read import read_findings, value_fault
from plangen.findings.scalar import scalar
from plangen.plan.model import Plan, PlannedCheck
from tests.assess.building import check, expectation, series
from tests.collect.forms import form, small_plan

IDS = ("rest@house", "gauge@tank", "lamp@mast: 2", "pump@bilge")
READINGS = (
    expectation("resting voltage", unit="V", low=12.5),
    expectation("resting voltage", unit="V", low=12.6),
    expectation("time to empty", unit="s", high=60.0),
    expectation("lights, both: # 2", text="yes"),
    expectation("serial number", record="serial"),
    expectation("state", text="dry"),
    series("points", {1.0: (1.0, 2.0), 2.0: (2.0, 3.0)}, unit="L"),
    series("points", {1.0: (1.0, 2.0), 2.0: (2.0, 3.0), 3.0: (3.0, 4.0)}, unit="L"),
)
WORDS = (
    "12.7",
    "12,7",
    "12.70",
    "~13",
    "1,200",
    "14 bar",
    "7 L",
    "yes",
    "no",
    "007",
    "null",
    "2027-05-14",
    "- x",
    "a: b",
    "#1",
)
typed_text = st.one_of(
    st.sampled_from(WORDS),
    st.text(max_size=8).map(str.strip).filter(bool),
)


@st.composite
def plans(draw: st.DrawFn, digest: str) -> Plan:
    """A plan with some of the checks, each with some of the readings."""
    chosen = draw(st.lists(st.sampled_from(IDS), min_size=1, unique=True))
    checks = []
    for id in chosen:
        expect = draw(st.lists(st.sampled_from(READINGS), min_size=1, max_size=3, unique_by=lambda e: e.id))
        setting = draw(st.sampled_from(["alongside", "under-way"]))
        checks.append(check(id, *expect, setting=setting))
    return small_plan(*checks, digest=digest)


@st.composite
def typed_on_form(draw: st.DrawFn, plan: Plan) -> dict[str, str | bool]:
    """Some fields of a plan's form, filled."""
    typed: dict[str, str | bool] = {}
    for one in plan.checks:
        for index, expected in enumerate(one.expect):
            steps = range(len(expected.series)) if expected.series else [None]
            for step in steps:
                if not draw(st.booleans()):
                    continue
                name = reading_field(one, index, step)
                if expected.text == "yes":
                    typed[f"{name}/{draw(st.sampled_from(['yes', 'no']))}"] = True
                else:
                    typed[name] = draw(typed_text)
        for name in (note_field(one.id), by_field(one.id)):
            if draw(st.integers(0, 3)) == 0:
                typed[name] = draw(typed_text)
    return typed


@st.composite
def typed_by_hand(draw: st.DrawFn, plan: Plan) -> tuple[str, list[tuple[str, str]]]:
    """A findings file filled by hand with an editor, and what was typed for which check."""
    lines = findings_text(plan).splitlines()
    typed: list[tuple[str, str]] = []
    one: PlannedCheck | None = None
    for at, line in enumerate(lines):
        one = next((c for c in plan.checks if line == f"  {scalar(c.id)}:"), one)
        if one is None or not draw(st.booleans()):
            continue
        expected = next((e for e in one.expect if line.strip().startswith(f"{scalar(e.id)}:")), None)
        text = draw(typed_text)
        if line == "      note:":
            lines[at] += f" {scalar(text)} # note"
        elif expected is None or line.lstrip().startswith("#") or value_fault(text, expected):
            continue
        elif expected.series:
            lines[at] = f"{line[:-2]}[{scalar(text, in_list=True)}]"
        else:
            lines[at] += f" {scalar(text)}"
        typed.append((one.id, text))
    return "\n".join(lines) + "\n", typed


def said_on(plan: Plan, typed: dict[str, str | bool]) -> Iterator[tuple[str, str]]:
    """Yield what a form says, by check."""
    for name, value in typed.items():
        id = next(one.id for one in plan.checks if name.startswith(f"check/{one.id}/"))
        yield id, name.rsplit("/", 1)[1] if value is True else str(value)


def kept(findings: Findings, id: str) -> Iterator[str]:
    """Yield every text that the findings hold of a check."""
    entries = [findings.checks.get(id, ())]
    entries += [attempts for key, attempts in findings.apart.items() if key.partition("~")[0] == id]
    for attempt in itertools.chain.from_iterable(entries):
        yield from _texts(attempt)
    yield from (remark for remark in findings.remarks if remark.startswith(f"{id}: "))


def _texts(attempt: Attempt) -> Iterator[str]:
    def flat(value: Typed) -> Iterator[str]:
        if isinstance(value, list):
            yield from itertools.chain.from_iterable(map(flat, value))
        elif value is not None:
            yield str(value)

    yield from itertools.chain.from_iterable(map(flat, attempt.found.values()))
    yield from (text for text in (attempt.by, attempt.note) if text)


def is_kept(text: str, held: list[str]) -> bool:
    """Tell whether a text stands among others, as it was typed or as the same number."""
    plain, number = _plain(text), _number(text)
    return any(plain in _plain(one) or (number is not None and number == _number(one)) for one in held)


def _plain(text: str) -> str:
    return " ".join(text.split()).casefold()


def _number(text: str) -> float | None:
    try:
        return float(text.replace(",", ".").removeprefix("~").split()[0])
    except (ValueError, IndexError):
        return None


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_draft_fill_draft_anew_collect_assess_collect_again(data: st.DataObject) -> None:
    before = data.draw(plans("a" * 64), label="plan")
    after = data.draw(plans("b" * 64), label="plan after the spec changed")
    text, typed = data.draw(typed_by_hand(before), label="by hand")
    first = data.draw(typed_on_form(before), label="first form")
    second = data.draw(typed_on_form(before), label="second form, of the plan before")
    third = data.draw(typed_on_form(after), label="third form, of the plan after")
    forms = [form(before, first), form(before, second, name="2.pdf"), form(after, third, name="3.pdf")]
    said = [*typed, *said_on(before, first), *said_on(before, second), *said_on(after, third)]

    text = collect(text, "findings.yaml", before, forms[:1]).text
    text = carry(text, "findings.yaml", before, after).text
    text = collect(text, "findings.yaml", after, forms[1:]).text
    findings = read_findings(text, "findings.yaml", after)
    assess_findings(after, findings)
    hold(findings, said)

    again = collect(text, "findings.yaml", after, forms[1:]).text
    assert again == text
    back = carry(text, "findings.yaml", after, before).text
    hold(read_findings(back, "findings.yaml", before), said)
    once_more = collect(back, "findings.yaml", before, forms).text
    assert collect(once_more, "findings.yaml", before, forms).text == once_more
    hold(read_findings(once_more, "findings.yaml", before), said)
    assert once_more.count("# note") == text.count("# note")


def hold(findings: Findings, said: list[tuple[str, str]]) -> None:
    """Hold that each text that was typed for a check is still there."""
    for id, text in said:
        held = list(kept(findings, id))
        assert is_kept(text, held), (id, text, held)
