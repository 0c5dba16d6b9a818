"""The field page in Firefox: typed values are judged, kept through reload and kill, and nothing leaves the page."""

from __future__ import annotations

import time
from pathlib import Path

from tests.field.boats import page_in, small
from tests.field.browsers import kill
from tests.field.firefox import Firefox, running_firefox

VERDICT = "document.querySelector('#line-1\\\\.1 .verdict b').textContent"
TYPED = "document.querySelector('#line-1\\\\.1 .box input').value"


def shown(firefox: Firefox, address: str) -> tuple[str, str]:
    firefox.open(f"{address}#round=1")
    return firefox.value(TYPED), firefox.value(VERDICT)


def test_values_are_judged_as_typed_and_survive_reload_and_kill(tmp_path: Path) -> None:
    address = page_in(tmp_path, small())
    with running_firefox(tmp_path / "profile") as firefox:
        firefox.open(f"{address}#round=1")
        firefox.type("#line-1\\.1 .box input", "12,2")
        assert firefox.value(VERDICT) == "✗ not good"
        firefox.click("#line-1\\.2 .answers button:last-child")
        firefox.click("#line-1\\.2 .part")
        assert "drain elbow" in firefox.value("document.querySelector('#line-1\\\\.2 .verdict').textContent")
        time.sleep(0.3)
        assert shown(firefox, address) == ("12,2", "✗ not good")
        for attempt in (
            "fetch('https://example.org/')",
            "fetch('data.json')",
            "navigator.serviceWorker.register('x.js')",
        ):
            assert str(firefox.awaited(attempt)).startswith("fault:")
        assert firefox.value("performance.getEntriesByType('resource').length") == 0
        firefox.type("#line-1\\.1 .box input", "5")
        time.sleep(0.3)
        kill(firefox.process)
    with running_firefox(tmp_path / "profile") as firefox:
        assert shown(firefox, address)[0] == "12,25"
