"""Runs the field page's modules outside a page: in node, where one is installed or came with the browser driver."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Mapping
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest

from plangen.print.field.page import GRAMMAR, module


@cache
def node() -> str | None:
    """Return where node is, or nothing."""
    found = shutil.which("node")
    if found:
        return found
    spec = find_spec("playwright")
    driver = Path(spec.origin).parent / "driver" / "node" if spec and spec.origin else None
    return str(driver) if driver is not None and driver.exists() else None


def run(tail: str, given: Any, names: tuple[str, ...] = GRAMMAR) -> Any:
    """Return what a piece of script gives for `given`, behind modules of the page."""
    program = node()
    if program is None:
        pytest.skip("no node is installed: apt-get install nodejs, or pip install playwright")
    source = "'use strict';\n" + "".join(module(name) for name in names)
    source += "const given = JSON.parse(require('fs').readFileSync(0, 'utf8'));\n"
    source += f"process.stdout.write(JSON.stringify((() => {{ {tail} }})()));\n"
    done = subprocess.run(
        [program, "-e", source], input=json.dumps(given).encode(), capture_output=True, check=False
    )
    assert done.returncode == 0, done.stderr.decode()[-2000:]
    return json.loads(done.stdout)


def verdicts(plan: Mapping[str, Any], typed: Mapping[str, Any], used: Mapping[str, str]) -> dict[str, str]:
    """Return the verdicts that the page of a plan shows, by check and reading as `check#reading`."""
    tail = """
      const judge = judgeOf(given.plan), found = {};
      for (const line of given.plan.lines) {
        const key = r => `${line.id}#${r.id}`;
        for (const [id, one] of judge.line(line.readings, r => given.typed[key(r)], r => given.used[key(r)] || '')) found[`${line.id}#${id}`] = one.v;
      }
      return found;"""
    return dict(run(tail, {"plan": plan, "typed": typed, "used": used}))
