"""What the house file changed is printed at the end of the methods and of the report, dropped things plainly."""

from __future__ import annotations

import html

from plangen import api
from plangen.assess.assess import assess_findings
from plangen.findings.model import Findings
from plangen.print.assessed import assessment_papers
from plangen.print.carried.document import carried_document
from plangen.print.methods.document import methods_document
from tests.conftest import SPECS


def test_the_changes_stand_at_the_end_of_methods_and_report(tmp_path) -> None:
    plan = api.draft(api.load_spec(SPECS / "survey" / "sloop-1988.yaml"))
    assessment = assess_findings(plan, Findings(boat=plan.boat.name, plan=plan.short_digest))
    papers = [methods_document(plan)]
    papers.append(assessment_papers(plan, assessment, tmp_path, "A4")["report.pdf"])
    for document in papers:
        text = html.unescape(document.html)
        end = text[text.index("What the house file changed") :]
        for change in plan.house.changes:
            assert change.reason in end
        assert "dropped, asked for by law" in end

    cover = html.unescape(carried_document(plan).html)
    assert "Added 2, dropped 2, replaced 1, changed 3." in cover
    assert "Dropped, of grade stop or asked for by law: Sound signal in the tender (United Kingdom)." in cover


def test_nothing_is_said_where_no_house_file_was_laid_over_the_packs() -> None:
    plan = api.draft(api.load_spec(SPECS / "monohull.yaml"))
    assert "house file" not in methods_document(plan).html
