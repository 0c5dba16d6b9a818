"""The register of a crew's own instruments: where it lies, and what it says."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from plangen.plan.model import Plan
from plangen.spec.problems import InputProblems, Mark, Problem, name_list, nearest_name
from plangen.spec.yaml_source import read_text_file

if TYPE_CHECKING:
    from plangen.findings.register import OwnInstrument, Register
    from plangen.packs.model import Instrument

INSTRUMENTS = "instruments.yaml"


def register_path(folder: Path, given: Path | None = None) -> Path | None:
    """Return the instrument register that holds for a boat's folder: the one given, or the nearest.

    It is looked for in the folder, in the one above it, where several boats share it, and in the one above that, where
    the specs lie when the plans were drafted beside them.
    """
    if given is not None:
        return given
    here = folder.resolve()
    places = [place / INSTRUMENTS for place in (here, *here.parents[:2])]
    return next((place for place in places if place.is_file()), None)


def read_register_file(path: Path | None, plan: Plan) -> Register:
    """Read an instrument register; without one it is empty. Kinds are those of the catalogue and of the plan's kit.

    Raises `InputProblems` with every fault of the file.
    """
    from plangen.findings.read_register import read_register
    from plangen.findings.register import Register

    if path is None:
        return Register()
    from plangen.packs.model import Instrument

    text = read_text_file(path, str(path))
    own = {
        item.id: Instrument(title=item.title, kind="instrument", unit=item.unit)
        for item in plan.kit
        if item.kind == "instrument"
    }
    return read_register(text, str(path), {**own, **_catalogue()})


def instruments_named(
    written: str, folders: Sequence[Path], given: Path | None = None
) -> tuple[OwnInstrument, ...]:
    """Return the instruments of the registers of several folders that bear an id or a serial number.

    Raises `InputProblems` where there is no register, or none of that name in it.
    """
    from plangen.findings.read_register import read_register

    paths = dict.fromkeys(path for folder in folders if (path := register_path(folder, given)) is not None)
    if not paths:
        accepted = f"{INSTRUMENTS} in the boats' folders or above them, or a file with --instruments"
        raise InputProblems([Problem(Mark(INSTRUMENTS), "", "there is no instrument register", accepted)])
    read = [(path, read_register(read_text_file(path, str(path)), str(path), None)) for path in paths]
    found = {one.id: one for _, register in read for one in register.all_named(written)}
    if found:
        return tuple(found.values())
    known = [name for _, register in read for name in register.names]
    shown = ", ".join(str(path) for path in paths)
    problem = Problem(
        Mark(shown),
        "INSTRUMENT",
        f"no instrument {written!r}",
        name_list(known),
        nearest_name(written, known),
    )
    raise InputProblems([problem])


@cache
def _catalogue() -> dict[str, Instrument]:
    from plangen.packs.library import load_library

    return load_library(jurisdictions=()).instruments
