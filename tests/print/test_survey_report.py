"""A survey's report: letterhead, urgent things on page 1, condition in sentences, scope, access, limitations, no handover."""

from __future__ import annotations

import html as markup
import io
import re
from functools import cache

import pytest
from pypdf import PdfReader

from plangen.assess.assess import assess_findings
from plangen.plan.day import OutsideScope
from plangen.plan.house import Client, House, Letterhead, Recommendation
from plangen.plan.model import Plan
from plangen.print.html import Document
from plangen.print.pdf import write_pdf
from plangen.print.photos import Photo
from plangen.print.report.document import report_html
from tests.assess.building import check, expectation, findings, plan

HOUSE = House(
    letterhead=Letterhead(
        name="Sample Surveys", address=("1 Quay",), licence="Member 1", insurance="Policy 2"
    ),
    client=Client(name="A. Client", asked_for="Condition before purchase", reference="R-7"),
    terms=("For the client only.",),
    limitations=("Nothing was unscrewed.",),
    remarks=("Photos are kept.",),
    recommendations=(Recommendation(words="Renew flares.", urgency="before-use"),),
)


def survey() -> Plan:
    planned = plan(
        check("gas@galley", expectation("age of the hose", unit="years", high=10.0, shown="≤ 10 years"), grade="stop", title="Gas hose"),
        check("hatch@saloon", expectation("tight", text="yes", shown="yes"), expectation("drops", unit="drops", high=2.0, shown="≤ 2 drops"), grade="before-handover", title="Hatch under the hose"),
        check("lamp@saloon", expectation("lit", text="yes", shown="yes"), grade="remark", title="Lamps"),
        *(check(f"later{n}@boat", expectation("there", text="yes", shown="yes"), title=f"Untouched {n}") for n in range(30)),
    )  # fmt: skip
    outside = OutsideScope(
        check="keel@boat", title="Keel bolts drawn", scope="opening-up", why="x", minutes=9, unknown="y"
    )
    return planned.model_copy(update={"purpose": "survey", "house": HOUSE, "outside_scope": (outside,)})


@cache
def report() -> str:
    found = findings(
        {
            "gas@galley": [{"found": {"age-of-the-hose": 12}, "photos": ["7"], "by": "HS", "when": "2027-04-20", "note": "cracked at the clip"}],
            "hatch@saloon": {"tight": "yes", "drops": 1},
            "lamp@saloon": {"lit": "no"},
        },
        survey={"lying": "afloat", "conditions": "rain", "access": ["mast: not unstepped"], "opinion": "sound for her age"},
    )  # fmt: skip
    planned = survey()
    photos = {"7": Photo("7", "data:image/jpeg;base64,/9j/", file="IMG_7.jpg")}
    return report_html(planned, assess_findings(planned, found), "A4", photos)


def words(text: str) -> str:
    text = re.sub(r"<style>.*?</style>", " ", text, flags=re.DOTALL)
    return " ".join(markup.unescape(re.sub(r"<[^>]+>", " ", text)).split())


@pytest.mark.parametrize(
    "said",
    [
        "Sample Surveys",
        "Policy 2",
        "Client A. Client",
        "Purpose Condition before purchase",
        "She lay afloat",
        "Urgent: 2 recommendations, 2 before use.",
        "galley: age of the hose is 12 years, ≤ 10 years is called for",
        "Cracked at the clip.",
        "Renew flares.",
        "To be watched: 1.",
        "Conclusion. sound for her age.",
    ],
)
def test_an_insurers_reader_finds_the_urgent_things_on_page_1(said: str) -> None:
    text = report()
    assert said in words(text[: text.index('id="scope"')])


@pytest.mark.parametrize(
    "said",
    [
        "Not reached: mast: not unstepped.",
        "Conditions. rain.",
        "3 of the 33 checks of the plan were made; not made: Test 30.",
        "Outside the scope: opening up, 1 check.",
        "Galley: age of the hose is 12 years, ≤ 10 years is called for. Cracked at the clip. (Recommendation 1.)",
        "Found good: Hatch under the hose (saloon).",
        "Measured: saloon, drops 1 drop.",
        "Saloon: not found so: lit. (Recommendation 3.)",
        "galley : put right and have seen again.",
        "Photo 1. Recommendation 1, galley: cracked at the clip. HS, 2027-04-20 (IMG_7.jpg)",
        "Nothing was unscrewed.",
        "For the client only.",
        "Photos are kept.",
        "Surveyor Member 1",
    ],
)
def test_each_part_of_a_survey_is_there(said: str) -> None:
    assert said in words(report())


def test_a_survey_speaks_of_no_handover_and_has_nothing_to_agree() -> None:
    text = words(report()).casefold()
    for word in ("handover", "handed over", "held back", "settlement", "yard", "snag"):
        assert word not in text


def test_untouched_checks_are_one_line_and_not_a_list() -> None:
    assert "Untouched" not in report()


def test_it_prints_with_its_urgent_page_first() -> None:
    pdf = write_pdf(Document(report(), "style.css"), survey().digest)
    first = " ".join(PdfReader(io.BytesIO(pdf)).pages[0].extract_text().split())
    assert "Before she is used" in first
    assert "Renew flares." in first


def test_a_survey_of_which_nothing_is_written_yet_prints() -> None:
    planned = survey().model_copy(update={"house": None})
    text = words(report_html(planned, assess_findings(planned, findings({}))))
    assert "No recommendation is urgent" in text
    assert "2 of 2 checks of the gravest grades weren't made" in text
    assert "Nothing is noted of places that weren’t reached." in text
