"""The browsers of the system's packages, in which the field page is tried."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

CHROMIUM = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
READY = "html[data-ready]"


def chromium() -> str:
    """Return where Chromium is, or skip the test."""
    pytest.importorskip("playwright.sync_api", reason="playwright isn't installed")
    found = next((path for name in CHROMIUM if (path := shutil.which(name))), None)
    if found is None:
        pytest.skip("no Chromium is installed: apt-get install chromium")
    return found


@contextmanager
def driver() -> Iterator[Any]:
    """Run what drives Chromium; only one can at a time."""
    chromium()
    from playwright.sync_api import sync_playwright

    with sync_playwright() as play:
        yield play


@contextmanager
def killable_chromium(play: Any, profile: Path) -> Iterator[tuple[Any, subprocess.Popen[bytes]]]:
    """Run Chromium with a profile in a group of processes of its own, which the test may kill."""
    command = [chromium(), "--headless", "--no-sandbox", "--no-first-run", "--remote-debugging-port=0", f"--user-data-dir={profile}", "about:blank"]  # fmt: skip
    port = profile / "DevToolsActivePort"
    port.unlink(missing_ok=True)
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)  # fmt: skip
    try:
        waited(lambda: port.is_file() and port.read_text().count("\n") > 0)
        browser = play.chromium.connect_over_cdp(f"http://127.0.0.1:{port.read_text().splitlines()[0]}")
        yield browser.contexts[0], process
    finally:
        kill(process)


def kill(process: subprocess.Popen[bytes]) -> None:
    """Kill a process that the test started, with all that it started itself."""
    if process.poll() is None:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait(20)


def waited(done: Any, seconds: float = 20.0) -> None:
    """Wait until something is so."""
    end = time.monotonic() + seconds
    while not done():
        assert time.monotonic() < end, "it never came to that"
        time.sleep(0.02)
