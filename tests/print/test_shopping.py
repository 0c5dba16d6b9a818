"""The shopping list is one page for the ready specs, in words, with a box for each line."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from plangen.collect.field_names import plan_field, plan_value
from plangen.plan.model import Plan
from plangen.print.html import Document, _environment
from plangen.print.pdf import write_pdf
from plangen.print.pdf.parts import part_mark
from tests.conftest import drafted

PAGE = (
    '{% extends "document.html.j2" %}{% block title %}x{% endblock %}'
    '{% block body %}{% include "carried/shopping.html.j2" %}{% endblock %}'
)


def page_of(plan: Plan, paper: str) -> PdfReader:
    """Print the shopping list alone."""
    html = (
        _environment()
        .from_string(PAGE)
        .render(plan=plan, paper=paper, plan_field=plan_field, plan_value=plan_value, part_mark=part_mark)
    )
    return PdfReader(io.BytesIO(write_pdf(Document(html, "carried/carried.css"), plan.digest)))


@pytest.mark.parametrize(("name", "paper"), [("catamaran", "A4"), ("monohull", "letter")])
def test_it_is_one_page_without_raw_ids(name: str, paper: str) -> None:
    plan = drafted(f"{name}.yaml").plan
    reader = page_of(plan, paper)
    assert len(reader.pages) == 1
    text = " ".join(page.extract_text() for page in reader.pages)
    assert not re.search(r"[a-z]+-[a-z]+-[a-z]+: \d", text)
    assert "european-union-builder" not in text
    fields = reader.get_fields() or {}
    for line in plan.shopping:
        if line.strength == "required":
            assert f"gear/{line.id}/have" in fields
