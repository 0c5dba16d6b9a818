"""`plangen draft FOLDER`: every hull of a folder, several at a time, each in a process of its own."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import typer

if TYPE_CHECKING:
    from plangen.cli.options import PaperSize
    from plangen.folder import Written
    from plangen.plan.model import Plan
    from plangen.schedule.wishes import Instead
    from plangen.spec.problems import Problem
    from plangen.spec.quantity import UnitSystem


@dataclass(frozen=True)
class Wanted:
    """How the hulls are drafted: the same for all of them."""

    out: Path
    units: UnitSystem | None
    packs: tuple[Path, ...]
    house: Path | None
    instead: Instead
    make_pdf: bool
    paper: PaperSize | None


@dataclass(frozen=True)
class Done:
    """What became of one hull: her plan as it was written, or the faults that stopped it."""

    spec: Path
    plan: Plan | None = None
    folder: Path | None = None
    written: Written | None = None
    problems: tuple[Problem, ...] = ()
    not_printed: str = ""


def draft_folder(folder: Path, wanted: Wanted) -> None:
    """Draft the hulls of a folder; one with faults stops no other, and the exit says which weren't drafted."""
    from plangen.plan.issues import changed_in_place
    from plangen.spec.hulls import hull_specs
    from plangen.terminal.console import errors
    from plangen.terminal.drafted import say_hull
    from plangen.terminal.faults import say_problems

    found = hull_specs(folder)
    names, problems = _of_different_names(found.hulls)
    hulls = list(names)
    problems = [*found.problems, *problems]
    not_printed: dict[str, None] = {}
    drafted: set[Path] = set()
    needs_attention = False
    for path, why in found.passed_over:
        errors.print(f"passed over: {path} ({why})", markup=False, soft_wrap=True)
    with errors.status(f"{len(hulls)} hulls: starting") as status:
        for number, done in enumerate(_in_parallel(hulls, wanted), start=1):
            status.update(f"{number} of {len(hulls)} hulls")
            problems += done.problems
            if done.not_printed:
                not_printed[done.not_printed] = None
            if done.plan is not None and done.folder is not None and done.written is not None:
                drafted.add(done.spec)
                say_hull(done.plan, done.folder, done.written, names.values())
                before = done.written.before
                needs_attention |= before is not None and bool(changed_in_place(before, done.plan))
    for reason in not_printed:
        errors.print(reason, markup=False)
    if problems:
        left = [path.name for path in found.hulls if path not in drafted]
        outcome = (
            f"not drafted: {', '.join(left) or 'none'}; drafted: {len(drafted)} of {len(found.hulls)} hulls."
        )
        say_problems(dict.fromkeys(problems), outcome)
        raise typer.Exit(2)
    if needs_attention:
        raise typer.Exit(1)


def _of_different_names(specs: Sequence[Path]) -> tuple[dict[Path, str], list[Problem]]:
    """Return the specs that can be read, each with a boat's name of its own, and what is wrong with the others."""
    from plangen.spec.layers import read_layers
    from plangen.spec.names import slug
    from plangen.spec.problems import InputProblems, Problem

    named: dict[str, list[tuple[Path, str]]] = {}
    problems: list[Problem] = []
    for path in specs:
        try:
            node = read_layers(path)
        except InputProblems as faults:
            problems += faults.problems
            continue
        vessel = (node.mapping or {}).get("vessel")
        name = (vessel.mapping or {}).get("name") if vessel is not None else None
        words = str(name.value) if name is not None else str(path)
        alike = named.setdefault(slug(words), [])
        if name is not None and alike:
            fault = f"{words!r}, which is the name in {alike[0][0].name} too"
            problems.append(Problem(name.mark, "vessel.name", fault, "a name of her own for each hull"))
        alike.append((path, words))
    return {path: words for alike in named.values() if len(alike) == 1 for path, words in alike}, problems


def _in_parallel(specs: Sequence[Path], wanted: Wanted) -> Iterator[Done]:
    """Yield what became of each hull, in the order of the specs."""
    from concurrent.futures import ThreadPoolExecutor

    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    with ThreadPoolExecutor(max(1, min(cores, len(specs)))) as pool:
        yield from pool.map(lambda path: _in_a_process(path, wanted), specs)


def _in_a_process(spec: Path, wanted: Wanted) -> Done:
    """Draft one hull in a process of her own; one that is ended from outside takes no other down."""
    import pickle
    import subprocess

    from plangen.spec.problems import Mark, Problem

    program = f"import sys; sys.path[:] = {sys.path!r}; from plangen.cli.draft_hull import main; main()"
    ended = subprocess.run(
        [sys.executable, "-c", program],
        env=os.environ | {"PLANGEN_WORKERS": "1"},  # the hulls are what goes side by side
        input=pickle.dumps((spec, wanted)),
        stdout=subprocess.PIPE,
        check=False,
    )
    if ended.returncode == 0:
        done: Done = pickle.loads(ended.stdout)
        return done
    found = f"the process that drafted her ended with {ended.returncode}; perhaps memory was short"
    return Done(spec, problems=(Problem(Mark(str(spec)), "", found, "draft her alone"),))
