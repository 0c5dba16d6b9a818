"""How a test handles the field page: opens it, types into it, and has it hand over."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.field.browsers import READY

PHONE = {"width": 390, "height": 844}


def go(page: Any, where: str) -> None:
    """Open a part of the page, as if the telephone had just been taken out again."""
    page.goto("about:blank")
    page.goto(f"{page.address}#{where}")
    page.wait_for_selector(READY)


def told(page: Any, words: Any) -> None:
    """Wait until handing over says something."""
    page.locator("#main p[role=status]", has_text=words).wait_for()


def line(page: Any, code: str) -> Any:
    return page.locator(f'[id="line-{code}"]')


def verdict(page: Any, code: str) -> str:
    return str(line(page, code).locator(".verdict").first.inner_text())


def fill_in(page: Any) -> None:
    """Type something into every kind of reading."""
    go(page, "round=1")
    line(page, "1.1").locator("input").first.fill("12,6")
    line(page, "1.2").get_by_role("button", name="drains dry: not ok").click()
    line(page, "1.2").get_by_role("button", name="vent hose is bad").click()
    line(page, "1.3").get_by_role("button", name="water in it: ok").click()
    line(page, "1.4").locator("input").first.fill("NX 0123 <b>")
    line(page, "1.2").get_by_role("button", name="Remark on 1.2").click()
    line(page, "1.2").locator("textarea").fill("drips, “port” side\nsecond line")
    go(page, "round=2")
    line(page, "2.1").locator("input").first.fill("14.3.2030")
    for number, text in enumerate(("4,2", "~5", "> 7")):
        line(page, "2.2").locator("tbody input").nth(number).fill(text)
    line(page, "2.3").locator("input").nth(0).fill("15 knots")
    line(page, "2.3").locator("input").nth(1).fill("6.5")
    page.wait_for_timeout(200)


def handed_over(page: Any, path: Path) -> dict[str, Any]:
    """Save the file, and return what it says."""
    go(page, "hand-over")
    page.wait_for_selector('#bar button:not([disabled]):has-text("Save")')
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save the file").click()
    saved.value.save_as(path)
    return dict(json.loads(path.read_text(encoding="utf-8")))
