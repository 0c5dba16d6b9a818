"""Pages of questions that come back: shown as lines of the spec, written without touching anything else, or refused by name."""

from __future__ import annotations

import io
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from pypdf import PdfReader, PdfWriter

from plangen import api
from plangen.collect.field_names import question_field
from plangen.print.pdf import write_pdf
from plangen.print.questions import questions_document
from tests.conftest import SPECS

SPEC = """\
# what the seller sent, by telephone
vessel: {name: Gannet, hull: sailing-monohull,   length_hull: 11.4 m, condition: used, built: 2004}  # the papers say 2004
engine:
  power:  28 kW  # on the plate

  # he looks up the gearbox
heads: 2       # one of them new
# no gas aboard, he thinks
"""

ANSWERS = {
    "answered/by": "J. Doe",
    "answered/date": "2030-03-14",
    "answered/remarks": "the papers follow",
    "question/engines@engine:fuel": "Diesel",
    "question/engines@engine:drive": "saildrive",
    "question/engines@engine:rated_speed": "3 000",
    "question/vessel:hull_material": "GRP",
    "question/refrigeration": "nein",
    "question/alarms": "smoke, carbon monoxide",
    "question/ac:generators": "8 kW",
    "question/dc:banks": "12 V 400 Ah agm",
    "question/watermakers": "?",
}

Run = Callable[..., tuple[int, str]]


@cache
def page(text: str) -> bytes:
    """Return the builder's pages of a spec, which lies in a folder of its own."""
    folder = Path(PAGES[0])
    path = folder / "spec.yaml"
    path.write_text(text, encoding="utf-8")
    plan = api.draft(api.load_spec(path))
    return write_pdf(questions_document(plan), plan.digest)


PAGES: list[str] = []


@pytest.fixture(scope="session", autouse=True)
def pages(tmp_path_factory: pytest.TempPathFactory) -> None:
    PAGES.append(str(tmp_path_factory.mktemp("pages")))


def filled(answers: dict[str, str], text: str = SPEC) -> bytes:
    """Fill the pages in as a PDF viewer does; every field has to be there."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(page(text))))
    lacking = answers.keys() - (PdfReader(io.BytesIO(page(text))).get_fields() or {}).keys()
    assert not lacking, sorted(lacking)
    for sheet in writer.pages:
        writer.update_page_form_field_values(sheet, answers)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch, program: Run, tmp_path: Path) -> Run:
    """Answer a spec in the test's folder by the command; its exit code and all that it said."""
    monkeypatch.chdir(tmp_path)
    Path("spec.yaml").write_text(SPEC, encoding="utf-8")

    def command(answers: dict[str, str], *words: str) -> tuple[int, str]:
        Path("filled.pdf").write_bytes(filled(answers))
        return program("answers", "spec.yaml", "filled.pdf", *words)

    return command


def test_answers_are_shown_first_and_written_when_asked(run: Run) -> None:
    code, said = run(ANSWERS)
    assert (code, Path("spec.yaml").read_text("utf-8")) == (0, SPEC)
    assert "+  fuel: diesel  # answered by J. Doe, 2030-03-14" in said
    assert "3 000 is taken in rpm" in said
    assert "remarks: the papers follow" in said
    assert "--write puts these lines" in said
    code, said = run(ANSWERS, "--write")
    assert (code, "wrote spec.yaml" in said) == (0, True)


def test_all_else_stays_as_it_was_and_the_questions_are_gone(run: Run) -> None:
    asked = {question.key for question in api.draft(api.load_spec("spec.yaml")).questions}
    assert run(ANSWERS, "--write")[0] == 0
    after = Path("spec.yaml").read_text("utf-8").splitlines()
    for line in SPEC.splitlines():
        assert line in after or line.startswith("vessel:")
    assert after[1] == SPEC.splitlines()[1].replace("2004}", "2004, hull_material: grp}")
    spec = api.load_spec("spec.yaml").spec.spec
    assert (spec.engines[0].fuel, spec.engines[0].drive, spec.refrigeration) == ("diesel", "sail-drive", ())
    assert [alarm.kind for alarm in spec.alarms] == ["smoke", "carbon-monoxide"]
    left = {question.key for question in api.draft(api.load_spec("spec.yaml")).questions}
    answered = {
        "engines[1].fuel",
        "engines[1].drive",
        "engines[1].rated_speed",
        "vessel.hull_material",
        "refrigeration",
        "alarms",
        "ac.generators",
        "dc.banks",
    }
    assert answered <= asked
    assert sorted(answered & left) == []
    assert "watermakers" in left


def test_a_second_time_there_is_nothing_new(run: Run) -> None:
    run(ANSWERS, "--write")
    before = Path("spec.yaml").read_bytes()
    code, said = run(ANSWERS, "--write")
    assert (code, "nothing new" in said) == (0, True)
    assert Path("spec.yaml").read_bytes() == before


def test_what_the_spec_says_otherwise_is_said_and_stays(run: Run) -> None:
    text = SPEC.replace("heads: 2", "refrigeration: 130 L\nheads: 2").replace(
        "28 kW", "28 kW\n  fuel: petrol"
    )
    Path("spec.yaml").write_text(text, encoding="utf-8")
    code, said = run(ANSWERS, "--write")
    assert code == 1
    assert "engines[1].fuel: the spec says petrol, the answer Diesel" in said
    assert "refrigeration: the spec says 1, the answer nein" in said
    after = Path("spec.yaml").read_text("utf-8")
    assert "refrigeration: 130 L\n" in after
    assert "fuel: petrol" in after
    assert "drive: sail-drive" in after


@pytest.mark.parametrize(
    ("field", "typed", "key", "said"),
    [
        ("engines@engine:rated_speed", "quite fast", "engines[1].rated_speed", "3000 rpm"),
        ("engines@engine:rated_speed", "30 rpm", "engines[1].rated_speed", "500 rpm"),
        ("engines@engine:fuel", "coal", "engines[1].fuel", "petrol, diesel"),
        ("dc:banks", "12 V fridge", "dc.banks", "in short a number with its unit"),
        ("tanks", "3", "tanks", "missing in 3 of them"),
        ("vessel:length_overall", "9 m", "vessel.length_overall", "length_hull"),
    ],
)  # fmt: skip
def test_an_answer_that_cannot_be_read_is_named_and_nothing_is_written(
    run: Run, field: str, typed: str, key: str, said: str
) -> None:
    code, told = run({**ANSWERS, f"question/{field}": typed}, "--write")
    assert code == 2
    assert f"filled.pdf: {key}: " in told or "length_hull" in told
    assert said in told
    assert Path("spec.yaml").read_text("utf-8") == SPEC
    if key != "vessel.length_overall":
        assert run({**ANSWERS, f"question/{field}": typed}, "--write", "--leave", key)[0] == 0


def test_what_was_assumed_together_is_stated_together(run: Run) -> None:
    """The spec says nothing of batteries: a start bank was assumed beside the house bank that the answer is about."""
    answers = {"question/dc:banks@house-bank:chemistry": "gel"}
    assert run(answers, "--write")[0] == 0
    banks = api.load_spec("spec.yaml").spec.spec.dc.banks
    assert [(bank.name, bank.use, bank.chemistry) for bank in banks] == [
        ("house bank", "house", "gel"),
        ("start bank", "start", None),
    ]
    assert "assumed, not answered" in Path("spec.yaml").read_text("utf-8")


@pytest.mark.parametrize(
    "typed", ["J. Doe\ngas: {kind: butane}", "J. Doe \x1b[2J\u2028gas: no", "x" * 5000, "a # b: {c"]
)
def test_what_a_stranger_types_becomes_no_line_of_the_spec(run: Run, typed: str) -> None:
    answers = {**ANSWERS, "answered/by": typed, "answered/date": typed, "answered/remarks": typed}
    assert run(answers, "--write")[0] == 0
    after = Path("spec.yaml").read_text("utf-8")
    assert after.isprintable() or set(after) - {"\n"} <= {letter for letter in after if letter.isprintable()}
    assert not any(line.startswith("gas") for line in after.splitlines())
    assert max(map(len, after.splitlines())) < 300
    for value in ("a b\nheads: 9", "Diesel}, {x: y", "!!python/object:os.system x", "&a *a"):
        Path("spec.yaml").write_text(SPEC, encoding="utf-8")
        assert run({"question/engines@engine:fuel": value}, "--write")[0] == 2
        assert Path("spec.yaml").read_text("utf-8") == SPEC


def test_answers_about_another_boat_are_refused(run: Run) -> None:
    Path("spec.yaml").write_text(SPEC.replace("Gannet", "Gull"), encoding="utf-8")
    code, said = run(ANSWERS, "--write")
    assert (code, "answers about Gannet" in said) == (2, True)


def test_a_renamed_item_is_said_and_two_forms_that_differ_too(tmp_path: Path) -> None:
    path = tmp_path / "spec.yaml"
    path.write_text(SPEC, encoding="utf-8")
    forms = []
    for number, drive in enumerate(("shaft", "pod")):
        forms.append(tmp_path / f"{number}.pdf")
        forms[-1].write_bytes(filled({"question/engines@engine:drive": drive}))
    answered = api.answer(path, forms)
    assert answered.conflicts == ["engines[1].drive: an earlier form says shaft, this one pod"]
    assert "drive: shaft" in answered.after
    path.write_text(
        SPEC.replace("engine:\n", "engine:\n  name: the old Volvo\n".replace("Volvo", "diesel")),
        encoding="utf-8",
    )
    with pytest.raises(api.InputProblems, match="which the spec doesn't have"):
        api.answer(path, forms[:1])


def test_lines_end_as_they_did(tmp_path: Path) -> None:
    path, form = tmp_path / "spec.yaml", tmp_path / "filled.pdf"
    path.write_bytes(b"\xef\xbb\xbf" + SPEC.replace("\n", "\r\n").encode())
    form.write_bytes(filled(ANSWERS))
    api.write_answered(api.answer(path, [form]))
    after = path.read_bytes()
    assert after.startswith(b"\xef\xbb\xbf# what")
    assert after.count(b"\r\n") == after.count(b"\n") > SPEC.count("\n")


def test_answers_of_a_hull_go_into_her_own_layer(tmp_path: Path) -> None:
    """Her file has her engines by name and number only; the model below it has the rest, which is not repeated."""
    for path in (SPECS / "yard").glob("*.yaml"):
        (tmp_path / path.name).write_bytes(path.read_bytes())
    hull, form = tmp_path / "hull-101.yaml", tmp_path / "filled.pdf"
    before = api.load_spec(hull).spec.spec
    plan = api.draft(api.load_spec(hull))
    asked = {"engines[2].rope_cutter": "yes", "deck.grill": "yes"}
    questions = [question for question in plan.questions if question.key in asked]
    assert len(questions) == len(asked)
    content = write_pdf(
        questions_document(plan.model_copy(update={"questions": tuple(questions)})), plan.digest
    )
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(content)))
    typed = {question_field(question.key, question.of): asked[question.key] for question in questions}
    for sheet in writer.pages:
        writer.update_page_form_field_values(sheet, typed)
    with form.open("wb") as stream:
        writer.write(stream)
    answered = api.answer(hull, [form])
    old, new = answered.before.splitlines(), answered.after.splitlines()
    assert [line for line in old if line not in new] == [line for line in old if line.startswith("engines:")]
    api.write_answered(answered)
    after = api.load_spec(hull).spec.spec
    assert [engine.rope_cutter for engine in after.engines] == [before.engines[0].rope_cutter, True]
    assert after.deck is not None
    assert after.deck.grill
    assert after.engines[0] == before.engines[0]
