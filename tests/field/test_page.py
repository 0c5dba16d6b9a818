"""The field page as a file: whole, the same each time, and shut to everything outside."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from typing import Any

import pytest

from plangen.print.field.page import field_page
from plangen.print.without_printer import files_without_printer
from tests.conftest import scheduled
from tests.field.boats import small

FORBIDDEN = re.compile(r"(?:src|href)\s*=|innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|https?://|@import|url\(")  # fmt: skip


def data_of(page: bytes) -> dict[str, Any]:
    """Return the plan that a page holds."""
    found = re.search(r'<script type="application/json" id="plan">(.*?)</script>', page.decode(), re.DOTALL)
    assert found is not None
    return dict(json.loads(found[1]))


def test_every_draft_brings_the_page() -> None:
    assert files_without_printer(small())["plan.html"] == field_page(small())


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert field_page(small()) == field_page(small())


def test_style_and_script_are_allowed_by_their_hashes_and_nothing_else_is() -> None:
    page = field_page(small()).decode()
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', page)
    assert policy is not None
    rules = {rule.split()[0]: rule.split()[1:] for rule in policy[1].split(";")}
    assert rules["default-src"] == ["'none'"]
    assert rules["img-src"] == ["blob:", "data:"]
    for kind, tag in (("script-src", "script"), ("style-src", "style")):
        (content,) = re.findall(rf"<{tag}>(.*?)</{tag}>", page, re.DOTALL)
        assert rules[kind] == [
            f"'sha256-{base64.b64encode(hashlib.sha256(content.encode()).digest()).decode()}'"
        ]


def test_script_and_markup_reach_for_nothing_and_write_text_only() -> None:
    page = field_page(small()).decode()
    without_data = re.sub(r'<script type="application/json".*?</script>', "", page, flags=re.DOTALL)
    assert FORBIDDEN.findall(without_data.replace("href: ", "")) == []
    assert " style=" not in without_data


def test_no_text_of_the_plan_ends_the_data() -> None:
    plan = small()
    evil = plan.boat.model_copy(update={"name": "</script><script>alert(1)</script>[[style]]<!--"})
    page = field_page(plan.model_copy(update={"boat": evil}))
    assert page.count(b"<script") == 2
    assert data_of(page)["boat"]["name"] == evil.name


@pytest.mark.parametrize("name", ["catamaran.yaml", "monohull.yaml"])
def test_a_whole_plan_is_in_its_page(name: str) -> None:
    plan = scheduled(name)
    page = field_page(plan)
    assert len(page) < 1_500_000
    data = data_of(page)
    assert {line["id"] for line in data["lines"]} == {check.id for check in plan.checks}
    assert sorted(id for one in data["rounds"] for id in one["lines"]) == sorted(c.id for c in plan.checks)
    for one in plan.rounds:
        shown = next(row for row in data["rounds"] if row["id"] == one.id)
        assert set(shown.get("cautions", ())) == set(one.cautions)
        assert all(data["cautions"][name] for name in one.cautions)
    codes = {reading["code"] for line in data["lines"] for reading in line["readings"]}
    assert codes == {e.code for check in plan.checks for e in check.expect}
