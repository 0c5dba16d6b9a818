"""Firefox as the system's packages have it, driven by its own remote protocol (Marionette): a length, a colon and JSON."""

from __future__ import annotations

import json
import shutil
import socket
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from tests.field.browsers import kill, waited

NAMES = ("firefox-esr", "firefox")


class Firefox:
    """A running Firefox with one page."""

    def __init__(self, port: int, process: subprocess.Popen[bytes]) -> None:
        self.process = process
        self.socket = socket.create_connection(("127.0.0.1", port), 20)
        self.number = 0
        self._answer()
        self.call("WebDriver:NewSession", {})

    def call(self, command: str, given: dict[str, Any]) -> Any:
        """Give a command, and return its answer."""
        self.number += 1
        text = json.dumps([0, self.number, command, given])
        self.socket.sendall(f"{len(text.encode())}:{text}".encode())
        _, _, error, result = self._answer()
        assert error is None, error
        return result

    def _answer(self) -> Any:
        length = b""
        while (byte := self.socket.recv(1)) != b":":
            assert byte, "Firefox is gone"
            length += byte
        content = b""
        while len(content) < int(length):
            content += self.socket.recv(int(length) - len(content))
        return json.loads(content)

    def open(self, address: str) -> None:
        """Open a page and wait until it is ready."""
        self.call("WebDriver:Navigate", {"url": address})
        waited(lambda: self.value("document.documentElement.dataset.ready") == "yes")

    def value(self, expression: str) -> Any:
        """Return the value of an expression in the page."""
        return self.call("WebDriver:ExecuteScript", {"script": f"return ({expression});", "args": []})[
            "value"
        ]

    def awaited(self, expression: str) -> Any:
        """Return what a promise in the page comes to."""
        script = f"const done = arguments[arguments.length - 1]; ({expression}).then(done, fault => done('fault: ' + fault.name));"
        return self.call("WebDriver:ExecuteAsyncScript", {"script": script, "args": []})["value"]

    def type(self, selector: str, text: str) -> None:
        """Type into a field, key by key."""
        found = self.call("WebDriver:FindElement", {"using": "css selector", "value": selector})["value"]
        (id,) = found.values()
        self.call("WebDriver:ElementSendKeys", {"id": id, "text": text})

    def click(self, selector: str) -> None:
        """Press what a selector finds."""
        found = self.call("WebDriver:FindElement", {"using": "css selector", "value": selector})["value"]
        (id,) = found.values()
        self.call("WebDriver:ElementClick", {"id": id})


@contextmanager
def running_firefox(profile: Path) -> Iterator[Firefox]:
    """Run Firefox with a profile, without a window."""
    path = next((path for name in NAMES if (path := shutil.which(name))), None)
    if path is None:
        pytest.skip("no Firefox is installed: apt-get install firefox-esr")
    profile.mkdir(exist_ok=True)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    (profile / "user.js").write_text(f'user_pref("marionette.port", {port});\n')
    command = [path, "--headless", "--marionette", "--no-remote", "--profile", str(profile)]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)  # fmt: skip
    try:
        waited(lambda: _listens(port) or process.poll() is not None, 30)
        firefox = Firefox(port, process)
        try:
            yield firefox
        finally:
            firefox.socket.close()
    finally:
        kill(process)


def _listens(port: int) -> bool:
    with socket.socket() as probe:
        probe.settimeout(0.2)
        return probe.connect_ex(("127.0.0.1", port)) == 0
