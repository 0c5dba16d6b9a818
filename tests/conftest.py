"""What many tests need: the shipped packs, and specs written in the test."""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from plangen import cli
from plangen.files import hold
from plangen.packs.library import Library, load_library
from plangen.plan.draft import Draft, draft_plan
from plangen.plan.model import Plan
from plangen.schedule.schedule import schedule
from plangen.spec.load import LoadedSpec, load_spec_file, load_spec_node
from plangen.spec.model import Spec
from plangen.spec.problems import InputProblems, Problem
from plangen.spec.short_forms import expand
from plangen.spec.yaml_source import read_yaml

#: What a run keeps is kept for that run alone; all its processes share it.
_KEPT = "PLANGEN_CACHE"
if _KEPT not in os.environ:
    os.environ[_KEPT] = tempfile.mkdtemp(prefix="plangen-tests-")
    _OWN = os.environ[_KEPT]
else:
    _OWN = ""


def pytest_unconfigure() -> None:
    """Take away what the run kept, in the process that began it."""
    if _OWN:
        shutil.rmtree(_OWN, ignore_errors=True)
        shutil.rmtree(f"{_OWN}-once", ignore_errors=True)


def made_once(name: str, make: Callable[[Path], None]) -> Path:
    """Return a folder that is made once for all processes of the run: what takes long, and what no test changes."""
    place = Path(f"{os.environ[_KEPT]}-once") / name
    place.mkdir(parents=True, exist_ok=True)
    made, whole = place / "made", place / "whole"
    with hold(place):
        if not whole.exists():
            shutil.rmtree(made, ignore_errors=True)
            made.mkdir()
            make(made)
            whole.touch()
    return made


SPECS = Path(__file__).resolve().parent.parent / "specs"


@cache
def shipped() -> Library:
    """Return the shipped packs, loaded once for all tests."""
    return load_library()


def spec_from(text: str) -> LoadedSpec:
    """Load a spec from its text, short forms included."""
    problems: list[Problem] = []
    node = expand(read_yaml(text, "test.yaml"), Spec, problems)
    if problems:
        raise InputProblems(problems)
    return load_spec_node(node, shipped().zone_sets(), shipped().other_words)


@cache
def drafted(name: str) -> Draft:
    """Draft one of the ready specs, once for all tests."""
    library = shipped()
    return draft_plan(load_spec_file(SPECS / name, library.zone_sets()), library)


@cache
def scheduled(name: str) -> Plan:
    """Draft one of the ready specs and fit it to its trial, once for all tests."""
    library = shipped()
    loaded = load_spec_file(SPECS / name, library.zone_sets())
    return schedule(draft_plan(loaded, library), loaded, library)


@pytest.fixture(scope="session")
def library() -> Library:
    """The shipped packs."""
    return shipped()


@pytest.fixture
def write(tmp_path: Path) -> Callable[[str, str], Path]:
    """Write a file into the test's own folder."""

    def to(name: str, text: str) -> Path:
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    return to


def faults(call: Callable[[], object]) -> list[Problem]:
    """Return the faults that a call says."""
    with pytest.raises(InputProblems) as found:
        call()
    return list(found.value.problems)


@pytest.fixture
def program(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> Callable[..., tuple[int, str]]:
    """Run the program with some words; give its exit code and all that it said."""

    def run(*words: str) -> tuple[int, str]:
        monkeypatch.setattr(sys, "argv", ["plangen", *words])
        code = 0
        try:
            cli.main()
        except SystemExit as end:
            code = int(end.code or 0)
        said = capfd.readouterr()
        return code, said.out + said.err

    return run
