"""Forms filled by other programs say what was typed into them."""

from __future__ import annotations

import io
from collections.abc import Callable
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, NameObject

from plangen.collect.collect import collect
from plangen.collect.pdf_fields import read_form
from plangen.findings.blank import findings_text
from plangen.findings.read import read_findings
from plangen.plan.boat_identity import identity_of
from plangen.spec.problems import InputProblems
from tests.collect.forms import (
    Typed,
    bare_pdf,
    filled_by_command_line,
    filled_by_pypdf,
    filled_in_a_browser,
    printed,
    small_plan,
    without_metadata,
)
from tests.conftest import faults

FILLERS = [filled_by_pypdf, filled_by_command_line, filled_in_a_browser]
TYPED: Typed = {
    "check/rest@house/reading/resting-voltage": "12,7 V",
    "check/rest@house/reading/terminals-tight/yes": True,
    "check/gauge@tank/reading/gauge-at-quarters/1": "28",
    "check/gauge@tank/reading/gauge-at-quarters/3": "~88",
    "check/gauge@tank/note": "Anzeige hängt: “½” # ≥ 3 × 2",
    "round/alongside/by": "BK",
    "round/alongside/date": "14.3.2027",
    "round/alongside/from": "09:30",
}


@pytest.mark.parametrize("fill", FILLERS)
def test_what_was_typed_is_read_back(fill: Callable[[bytes, Typed], bytes]) -> None:
    read = read_form(fill(printed(), TYPED), "filled.pdf")
    assert {name: read.fields[name] for name in TYPED} == TYPED
    assert read.fields["check/rest@house/reading/terminals-tight/no"] is False
    others = {
        name: v for name, v in read.fields.items() if name not in TYPED and not name.startswith("plan/")
    }
    assert not any(others.values())
    assert (read.boat.name, read.digest, read.is_retest, read.units) == ("Tern", "a" * 64, False, "metric")


@pytest.mark.parametrize("fill", FILLERS)
def test_a_filled_form_becomes_findings(fill: Callable[[bytes, Typed], bytes]) -> None:
    plan = small_plan()
    read = read_form(fill(printed(), TYPED), "filled.pdf")
    collected = collect(findings_text(plan), "findings.yaml", plan, [read])
    findings = read_findings(collected.text, "findings.yaml", plan)
    (rest,), (gauge,) = findings.attempts("rest@house"), findings.attempts("gauge@tank")
    assert rest.values == {"resting-voltage": "12,7 V", "terminals-tight": "yes"}
    assert (rest.by, str(rest.when)) == ("BK", "2027-03-14")
    assert gauge.values == {"gauge-at-quarters": [28, None, "~88"]}
    assert (gauge.by, gauge.note) == ("BK", "Anzeige hängt: “½” # ≥ 3 × 2")
    assert findings.remarks == ("round 1: from 09:30",)


def test_filling_on_after_saving_with_another_program() -> None:
    first = filled_in_a_browser(printed(), {"round/alongside/by": "AL"})
    both = filled_by_command_line(first, {"check/serial@engine/reading/serial-number": "007"})
    read = read_form(filled_by_pypdf(both, {"check/coolant@engine/note": "hot"}), "filled.pdf")
    typed = {name: value for name, value in read.fields.items() if value and not name.startswith("plan/")}
    assert typed == {
        "round/alongside/by": "AL",
        "check/serial@engine/reading/serial-number": "007",
        "check/coolant@engine/note": "hot",
    }


def test_the_plan_is_known_by_its_field_where_title_and_keywords_were_dropped() -> None:
    content = without_metadata(filled_by_pypdf(printed(), TYPED))
    assert "/Keywords" not in (PdfReader(io.BytesIO(content)).metadata or {})
    read = read_form(content, "filled.pdf")
    assert (read.boat, read.digest) == (identity_of(small_plan().boat), "a" * 64)


def test_the_plan_is_known_by_title_and_keywords_where_its_field_was_dropped() -> None:
    info = {"/Title": "Retest: Tern: the 2nd", "/Keywords": f"trial plan, ketch, {'b' * 64}"}
    read = read_form(bare_pdf([("check/rest@house/note", "x")], info), "filled.pdf")
    assert (read.boat.name, read.digest, read.is_retest) == ("Tern: the 2nd", "b" * 64, True)


def test_a_field_that_stands_twice_with_two_values_keeps_both() -> None:
    name = "check/rest@house/reading/resting-voltage"
    info = {"/Title": "Trial plan: Tern", "/Keywords": "a" * 64}
    fields = read_form(bare_pdf([(name, "12.6"), (name, ""), (name, "12.9")], info), "filled.pdf").fields
    assert fields == {name: "12.6 / 12.9"}


def _encrypted() -> bytes:
    writer = PdfWriter(clone_from=io.BytesIO(printed()))
    writer.encrypt("secret", algorithm="RC4-128")
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()


REFUSED = {
    "not a PDF": [b"", b"boat: Tern\n", b"\x89PNG\r\n", b"PK\x03\x04" + b"\0" * 5000],
    "cut short": [b"%PDF-1.7\n"],
    "damaged": [
        b"%PDF-1.7\n1 0 obj<</Root 1 0 R>>\nstartxref\n0\n%%EOF",
        b"%PDF-1.7\n" + b"[" * 20_000 + b"\nstartxref\n9\n%%EOF",
        b"%PDF-1.7\ntrailer<</Root 1 0 R>>\n1 0 obj<</Pages 1 0 R/AcroForm 1 0 R/Fields[1 0 R]/Kids[1 0 R]/T(a)>>endobj\nstartxref\n9\n%%EOF",
    ],
    "without the fields": [bare_pdf([]), bare_pdf([("name", "x")])],
    "doesn't say which plan": [bare_pdf([("check/rest@house/note", "x")])],
}


@pytest.mark.parametrize(
    ("words", "content"), [(words, content) for words, several in REFUSED.items() for content in several]
)
def test_what_is_no_whole_form_is_refused(words: str, content: bytes) -> None:
    (problem,) = faults(lambda: read_form(content, "mail.pdf"))
    assert problem.mark.file == "mail.pdf"
    if words != "damaged":
        assert words in problem.found


def test_an_encrypted_form_is_refused() -> None:
    (problem,) = faults(lambda: read_form(_encrypted(), "mail.pdf"))
    assert "encrypted" in problem.found


@pytest.mark.parametrize("part", [0.1, 0.5, 0.9, 0.99, 0.999])
def test_a_form_cut_short_anywhere_is_refused(part: float) -> None:
    content = filled_by_pypdf(printed(), TYPED)
    (problem,) = faults(lambda: read_form(content[: int(len(content) * part)], "mail.pdf"))
    assert "cut short" in problem.found


def test_fields_that_are_their_own_children_come_to_an_end() -> None:
    content = bare_pdf(
        [("check/rest@house/note", "x")], {"/Title": "Trial plan: Tern", "/Keywords": "a" * 64}
    )
    writer = PdfWriter(clone_from=io.BytesIO(content))
    (field,) = writer._root_object["/AcroForm"]["/Fields"]
    field.get_object()[NameObject("/Kids")] = ArrayObject([field, field])
    stream = io.BytesIO()
    writer.write(stream)
    read_or_refuse(stream.getvalue())


def read_or_refuse(content: bytes) -> None:
    """Read a form, or have it refused; nothing else may come of it."""
    with suppress(InputProblems):
        read_form(content, "mail.pdf")


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_a_form_damaged_anywhere_is_read_or_refused(data: st.DataObject) -> None:
    info = {"/Title": "Trial plan: Tern", "/Keywords": "a" * 64}
    content = bytearray(bare_pdf([("check/rest@house/note", "x"), ("check/rest@house/by", "AL")], info))
    for _ in range(data.draw(st.integers(1, 12))):
        at = data.draw(st.integers(0, len(content) - 1))
        content[at : at + data.draw(st.integers(0, 3))] = data.draw(st.binary(max_size=4))
    read_or_refuse(bytes(content))
