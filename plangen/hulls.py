"""The assessments of many hulls, one folder after another, so that only one is held at a time."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.assess.read import read_assessment
from plangen.folder import PLAN, digest_of_files, plan_and_findings
from plangen.instrument_registers import read_register_file, register_path
from plangen.spec.problems import InputProblems, Mark, Problem

ASSESSMENT = "assessment.yaml"
#: So many faults of a hull that is left out are said.
MOST_FAULTS = 20
#: After so many hulls what they left behind is cleared, for a command by itself never does.
_CLEAR_EVERY = 8


@dataclass(frozen=True)
class Hull:
    """One hull's folder, with her assessment or what is wrong with her files."""

    folder: Path
    assessment: Assessment | None
    problems: tuple[Problem, ...] = ()


def hull_folders(given: Sequence[Path]) -> list[Path]:
    """Return the hulls' folders among those given, each once; a folder that holds hulls stands for all of them.

    Files beside the folders, which a shell's `*` names too, are passed over.
    """
    found: dict[Path, Path] = {}
    for place in given:
        if place.is_file():
            continue
        inside = (
            sorted(path.parent for path in place.glob(f"*/{PLAN}")) if not (place / PLAN).is_file() else []
        )
        for folder in inside or [place]:
            found.setdefault(folder.resolve(), folder)
    return list(found.values())


def assessments(folders: Sequence[Path], register: Path | None = None) -> Iterator[Hull]:
    """Yield each hull with her assessment, in the order given; one whose files are bad has her faults instead.

    Of two hulls of one name the second is left out.
    """
    named: dict[str, Path] = {}
    for number, folder in enumerate(folders, start=1):
        try:
            found = assessment_in(folder, register)
            first = named.setdefault(found.boat, folder)
            if first is not folder:
                twice = f"{found.boat!r}, the name of the hull in {first}"
                raise InputProblems(
                    [Problem(Mark(str(folder)), "boat", twice, "a name of her own for each hull")]
                )
            yield Hull(folder, found)
        except InputProblems as faults:
            yield Hull(folder, None, faults.problems)
        except OSError as error:
            fault = Problem(Mark(str(error.filename or folder)), "", f"can't be read: {error.strerror}")
            yield Hull(folder, None, (fault,))
        if number % _CLEAR_EVERY == 0:
            gc.collect()


def assessment_in(folder: Path, register: Path | None = None) -> Assessment:
    """Return the assessment of a folder: what assessment.yaml holds where it is up to date, else a new one.

    Raises `InputProblems` with every fault of the files that a new one is made of.
    """
    own = register_path(folder, register)
    if (held := _held(folder, digest_of_files(folder, own))) is not None:
        return held
    plan, findings = plan_and_findings(folder)
    return assess_findings(plan, findings, read_register_file(own, plan))


def _held(folder: Path, digest: str) -> Assessment | None:
    path = folder / ASSESSMENT
    if not path.is_file():
        return None
    try:
        held = read_assessment(path)
    except InputProblems:
        return None
    return held if held.made_of == digest else None
