"""The library's calls; the commands use the same, so that both give the same plan, digest and faults."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from plangen.files import hold, write_whole
from plangen.plan.model import Plan
from plangen.plan.read import read_plan
from plangen.spec.ordinary_files import read_some
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, LARGEST_FILE, read_text_file

if TYPE_CHECKING:
    from plangen.answering import Answered
    from plangen.assess.model import Assessment
    from plangen.findings.model import Findings
    from plangen.findings.register import Register
    from plangen.hulls import Hull
    from plangen.packs.house.read import LoadedHouse
    from plangen.packs.library import Library
    from plangen.plan.compare import Comparison
    from plangen.plan.why import Reason
    from plangen.schedule.turn import EarlierHull
    from plangen.schedule.wishes import Instead
    from plangen.series.model import Tally
    from plangen.spec.issues import Compared
    from plangen.spec.load import LoadedSpec
    from plangen.spec.quantity import UnitSystem

__all__ = [
    "Boat",
    "answer",
    "assess_findings",
    "compare",
    "draft",
    "draft_whole",
    "earlier_hulls",
    "explain",
    "load_findings",
    "load_instruments",
    "load_plan",
    "load_spec",
    "tally",
]

Result = TypeVar("Result")


@dataclass(frozen=True)
class Boat:
    """A boat's spec together with the packs that concern it."""

    spec: LoadedSpec
    library: Library

    @property
    def units(self) -> UnitSystem:
        """Return the units in which the house file wants values shown."""
        overlay = self.library.overlay
        return (overlay.house.model.units if overlay is not None else None) or "metric"


def load_spec(
    path: Path | str,
    packs: Sequence[Path | str] = (),
    house: Path | str | None = None,
    compared: Compared | None = None,
    text: str | None = None,
) -> Boat:
    """Load a spec, whatever it extends, and the packs that concern it; packs of the user's own are checked whole.

    A house file that is given, or that lies beside the spec as `house.yaml`, is laid over the packs. Where two issues of a
    model are `compared`, one of them stands in for either. With `text`, the spec is that text instead of what its file
    holds. Raises `plangen.spec.problems.InputProblems` with every fault
    of the files.
    """
    from plangen.packs.house.beside import HOUSE_FILES, house_beside
    from plangen.packs.library import load_library
    from plangen.packs.lint import check_own, check_references
    from plangen.plan.gear.jurisdictions import named_in
    from plangen.spec.layers import read_layers
    from plangen.spec.load import load_spec_node

    faults: list[Problem] = []
    beside = house_beside(Path(path)) if house is None else Path(house)
    node = _attempt(lambda: read_layers(Path(path), compared, text), faults)
    if node is not None and Path(path).name in HOUSE_FILES and "vessel" not in (node.mapping or {}):
        said = "a house file, which is read with each spec that lies beside it"
        raise InputProblems([Problem(Mark(str(path)), "SPEC", said, "a spec")])
    own = None if beside is None else _attempt(lambda: _house(beside), faults)
    if node is None:
        raise InputProblems(faults)
    folders, named = [Path(folder) for folder in packs], named_in(node)
    library = _attempt(lambda: load_library(folders, jurisdictions=named), faults)
    if library is None:
        raise InputProblems(faults)
    zones, words = library.zone_sets(), library.other_words
    laid = library if own is None else _laid(library, own)
    spec = _attempt(lambda: load_spec_node(node if own is None else own.under(node), zones, words), faults)
    check = check_own if packs or own else check_references
    faults += [problem for problem in check(laid) if not problem.is_warning]
    if faults or spec is None:
        raise InputProblems(faults)
    return Boat(spec, laid)


def _house(path: Path) -> LoadedHouse:
    from plangen.packs.house.read import read_house

    return read_house(path)


def _laid(library: Library, house: LoadedHouse) -> Library:
    from plangen.packs.house.overlay import lay_house

    return lay_house(library, house)


def _attempt(work: Callable[[], Result], faults: list[Problem]) -> Result | None:
    """Return what a piece of work gives, or note its faults with the others."""
    try:
        return work()
    except InputProblems as found:
        faults += found.problems
        return None


def answer(
    path: Path | str,
    filled: Sequence[Path],
    packs: Sequence[Path | str] = (),
    house: Path | str | None = None,
    leave: Sequence[str] = (),
) -> Answered:
    """Return a spec with the answers of filled pages of questions in it; `write_answered` writes it.

    Raises `plangen.spec.problems.InputProblems` with every answer that can't be read, by its key.
    """
    from plangen.answering import answer_spec

    faults: list[Problem] = []
    forms = [
        (str(one), content)
        for one in filled
        if (content := _attempt(partial(_bytes, one), faults)) is not None
    ]
    if faults:
        raise InputProblems(faults)
    return answer_spec(Path(path), forms, lambda text: load_spec(path, packs, house, text=text), leave)


def write_answered(answered: Answered) -> None:
    """Write a spec with its answers, whole.

    Raises `plangen.spec.problems.InputProblems` where somebody changed the file meanwhile.
    """
    with hold(answered.path.parent):
        if read_text_file(answered.path, str(answered.path)) != answered.before:
            found, accepted = "was changed while its answers were read", "the same command once more"
            raise InputProblems([Problem(Mark(str(answered.path)), "", found, accepted)])
        there = read_some(answered.path, LARGEST_FILE)
        after = answered.after
        if there.count(b"\r\n") == there.count(b"\n") > 0:  # as some editors end lines
            after = after.replace("\n", "\r\n")
        write_whole(
            answered.path, (b"\xef\xbb\xbf" if there.startswith(b"\xef\xbb\xbf") else b"") + after.encode()
        )


def _bytes(path: Path) -> bytes:
    from plangen.collect.pdf_fields import LARGEST_PDF

    try:
        return read_some(path, LARGEST_PDF)
    except OSError as error:
        raise InputProblems(
            [Problem(Mark(str(path)), "", f"the file can't be read: {error.strerror}")]
        ) from error


def draft(
    boat: Boat,
    units: UnitSystem | None = None,
    instead: Instead | None = None,
    earlier: Sequence[EarlierHull] = (),
) -> Plan:
    """Draft the trial plan of a boat, fitted to the days and people of her spec or to those given instead.

    Units that aren't given are those of the house file, or metric. What failed on `earlier` hulls of her series is checked on
    her too; `earlier_hulls` finds them. Raises `plangen.spec.problems.InputProblems` where the
    spec names a jurisdiction that no pack covers or a scope that the catalogue doesn't know.
    """
    from plangen.kept import Kept, kept_folder
    from plangen.packs.syntax import PARSED
    from plangen.plan.draft import draft_plan
    from plangen.schedule.schedule import schedule

    drafted = draft_plan(boat.spec, boat.library, units or boat.units, digested=False)
    PARSED.keep(Kept(kept_folder()))
    return schedule(drafted, boat.spec, boat.library, instead, earlier)


def earlier_hulls(boat: Boat, folder: Path | str) -> tuple[EarlierHull, ...]:
    """Return what was found on the hulls before her, where she is one of a series, by the assessments in their folders."""
    spec = boat.spec.spec
    if spec.series is None or spec.vessel.hull_number is None:
        return ()
    from plangen.earlier import hulls_before

    return hulls_before(Path(folder), spec.vessel)


def draft_whole(boat: Boat, units: UnitSystem | None = None) -> Plan:
    """Draft the plan of a boat with every check, fitted to no days and no people, as `draft` does otherwise."""
    from plangen.plan.draft import draft_plan

    return draft_plan(boat.spec, boat.library, units or boat.units).plan


def explain(boat: Boat, check: str, units: UnitSystem | None = None) -> Reason:
    """Say why a check is in the boat's plan, and where each of its expected values comes from.

    Raises `plangen.spec.problems.InputProblems` for a check that isn't in the plan.
    """
    from plangen.plan.draft import draft_plan
    from plangen.plan.why import UnknownCheck
    from plangen.plan.why import explain as explain_check

    units = units or boat.units
    try:
        return explain_check(
            draft_plan(boat.spec, boat.library, units), boat.spec, boat.library, check, units
        )
    except UnknownCheck as unknown:
        found, nearest = f"no check {check!r} in this plan", ", ".join(unknown.nearest)
        mark = Mark(boat.spec.source.mark.file)
        raise InputProblems([Problem(mark, "CHECK", found, "an id from plan.yaml", nearest)]) from unknown


def load_plan(path: Path | str) -> Plan:
    """Read a plan from plan.yaml, or from the folder that holds it."""
    path = Path(path)
    return read_plan(path / "plan.yaml" if path.is_dir() else path)


def load_findings(path: Path | str, plan: Plan) -> Findings:
    """Read the findings file that belongs to a plan.

    Raises `plangen.spec.problems.InputProblems` with every fault of the file.
    """
    from plangen.findings.read import read_findings

    path = Path(path)
    return read_findings(read_text_file(path, str(path), LARGEST_DERIVED_FILE), str(path), plan)


def load_instruments(path: Path | str, plan: Plan) -> Register:
    """Read an instrument register, whose accuracies take the place of the catalogue's.

    Raises `plangen.spec.problems.InputProblems` with every fault of the file.
    """
    from plangen.instrument_registers import read_register_file

    return read_register_file(Path(path), plan)


def assess_findings(
    plan: Plan, findings: Findings | Path | str, instruments: Register | None = None
) -> Assessment:
    """Judge what was found: verdicts, calculated results, snags, and whether handover is advisable."""
    from plangen.assess.assess import assess_findings as judge
    from plangen.findings.model import Findings

    if not isinstance(findings, Findings):
        findings = load_findings(findings, plan)
    return judge(plan, findings, instruments)


def tally(
    folders: Sequence[Path | str],
    instruments: Path | str | None = None,
    each: Callable[[Hull], None] | None = None,
) -> Tally:
    """Say what many hulls come to: yield, failing checks, spread of readings, what is open, causes.

    Of each hull only what is counted is kept. `each` is told of every hull as it is read; one whose files are bad is left
    out and stands under `skipped`.
    """
    from plangen.hulls import MOST_FAULTS, assessments, hull_folders
    from plangen.series.tally import SeriesTally

    series = SeriesTally()
    places = hull_folders([Path(folder) for folder in folders])
    for hull in assessments(places, Path(instruments) if instruments else None):
        if hull.assessment is not None:
            series.add(hull.assessment)
        else:
            series.skip(str(hull.folder), [str(problem) for problem in hull.problems[:MOST_FAULTS]])
        if each is not None:
            each(hull)
    return series.result()


def compare(before: Plan, after: Plan) -> Comparison:
    """Say which checks one plan has beyond another, lacks, or expects otherwise."""
    from plangen.plan.compare import compare as compare_plans

    return compare_plans(before, after)


def undecidable_on_samples(library: Library) -> list[Problem]:
    """Return the limits that the instrument can't decide on one of the sample boats: the starter of each hull type, and
    the ready specs where they lie beside the packs.
    """
    from plangen.packs.library import shipped_packs
    from plangen.plan.draft import draft_plan
    from plangen.plan.undecidable import undecidable
    from plangen.spec.hull_types import HULL_TYPES
    from plangen.spec.load import load_spec_file, load_spec_node
    from plangen.spec.model import Spec
    from plangen.spec.short_forms import expand
    from plangen.spec.starter import starter_text
    from plangen.spec.yaml_source import read_yaml

    zones = library.zone_sets()
    faults: list[Problem] = []
    starters = [
        expand(read_yaml(starter_text(hull, library.starters.get(hull, {})), hull), Spec, faults)
        for hull in HULL_TYPES
    ]
    ready = sorted((shipped_packs().parent / "specs").glob("*.yaml"))
    specs = [
        *(load_spec_node(node, zones) for node in starters),
        *(load_spec_file(path, zones) for path in ready),
    ]
    return undecidable((draft_plan(spec, library) for spec in specs), library)
