"""Chromium, and the small plan's page in it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.field.boats import page_in, small
from tests.field.browsers import chromium, driver
from tests.field.handling import PHONE, go


@pytest.fixture(scope="module")
def play() -> Iterator[Any]:
    with driver() as running:
        yield running


@pytest.fixture(scope="module")
def browser(play: Any) -> Iterator[Any]:
    running = play.chromium.launch(executable_path=chromium(), args=["--no-sandbox"])
    yield running
    running.close()


@pytest.fixture
def page(browser: Any, tmp_path: Path) -> Iterator[Any]:
    """The small plan's page on a new telephone, of which every request and every fault is noted."""
    device = browser.new_context(viewport=PHONE, accept_downloads=True)
    shown = device.new_page()
    shown.faults = []
    shown.requests = []
    shown.on("pageerror", lambda fault: shown.faults.append(str(fault)))
    device.on("request", lambda request: shown.requests.append(request.url))
    shown.address = page_in(tmp_path, small())
    go(shown, "set-up")
    shown.fill("#person", "A. Mate")
    yield shown
    assert shown.faults == []
    assert [url for url in shown.requests if not url.startswith((shown.address, "blob:"))] == []
    device.close()
