"""All the packs that a plan is made from, loaded from their folders."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from pydantic import ValidationError

from plangen.kept import Kept, kept_folder
from plangen.packs.base import Caution, PackModel, Source
from plangen.packs.law import AboardRule, ApprovalMark, GearGroup, GearItem, LawPack, Water
from plangen.packs.model import (
    Asking,
    Catalogue,
    DefaultRule,
    Exclusion,
    InferredRule,
    Instrument,
    Move,
    PlantState,
    RiskRules,
    RoundFallback,
    RoundKind,
    RulePack,
    Scope,
    SectionAsking,
    Setting,
    StoresPack,
    UsualDay,
    ZoneMapRules,
    ZoneSet,
)
from plangen.packs.plain_files import PlainFile, read_plain
from plangen.packs.syntax import PARSED
from plangen.packs.waters import jurisdictions_of
from plangen.spec.explain import existing_path, problem_of
from plangen.spec.load import ZoneSets
from plangen.spec.other_words import NO_OTHER_WORDS, OtherWords
from plangen.spec.problems import InputProblems, Mark, Problem
from plangen.spec.yaml_source import Node

if TYPE_CHECKING:
    from plangen.packs.house.overlay import Overlay

Model = TypeVar("Model", bound=PackModel, covariant=True)
Entry = TypeVar("Entry")

#: What stands for a source where a fact has none.
UNSOURCED: Mapping[str, Source] = {
    "common-practice": Source(
        title="Common practice of the trade; no published source", known_by="common-practice"
    ),
    "from-memory": Source(title="From memory; verify before relying on it", known_by="memory"),
}


@dataclass(frozen=True)
class Loaded(Generic[Model]):
    """A pack with the file that it came from."""

    file: Path
    content: PlainFile
    model: Model

    @property
    def source(self) -> Node:
        """The file's values with their places."""
        return self.content.node

    def mark_of(self, path: tuple[str | int, ...]) -> Mark:
        """Return the place of a value in the pack's file."""
        return self.content.mark_at(path)


@dataclass
class Library:
    """The packs and what they refer to, from every folder together."""

    rules: list[Loaded[RulePack]] = field(default_factory=list)
    law: list[Loaded[LawPack]] = field(default_factory=list)
    stores: list[Loaded[StoresPack]] = field(default_factory=list)
    catalogue: list[Loaded[Catalogue]] = field(default_factory=list)
    known_jurisdictions: tuple[str, ...] = ()
    sources: dict[str, Source] = field(default_factory=lambda: dict(UNSOURCED))
    instruments: dict[str, Instrument] = field(default_factory=dict)
    cautions: dict[str, Caution] = field(default_factory=dict)
    gear: dict[str, GearItem] = field(default_factory=dict)
    gear_groups: dict[str, GearGroup] = field(default_factory=dict)
    marks: dict[str, ApprovalMark] = field(default_factory=dict)
    aboard: list[AboardRule] = field(default_factory=list)
    waters: dict[str, Water] = field(default_factory=dict)
    settings: dict[str, Setting] = field(default_factory=dict)
    plant_states: dict[str, PlantState] = field(default_factory=dict)
    moves: list[Move] = field(default_factory=list)
    rounds: dict[str, RoundKind] = field(default_factory=dict)
    round_fallbacks: list[RoundFallback] = field(default_factory=list)
    exclusions: list[Exclusion] = field(default_factory=list)
    risk: RiskRules | None = None
    usual_day: UsualDay | None = None
    scopes: dict[str, Scope] = field(default_factory=dict)
    defaults: list[DefaultRule] = field(default_factory=list)
    inferred: list[InferredRule] = field(default_factory=list)
    sections: dict[str, SectionAsking] = field(default_factory=dict)
    questions: list[Asking] = field(default_factory=list)
    owner_knows: list[str] = field(default_factory=list)
    zone_map: ZoneMapRules | None = None
    zones: dict[str, tuple[ZoneSet, ...]] = field(default_factory=dict)
    starters: dict[str, dict[str, Any]] = field(default_factory=dict)
    other_words: OtherWords = NO_OTHER_WORDS
    overlay: Overlay | None = None

    def zone_sets(self) -> ZoneSets:
        """Return the usual zones of each hull type, as a spec would write them."""
        return {hull: [zone.as_spec() for zone in zones] for hull, zones in self.zones.items()}

    def law_of(self, jurisdiction: str) -> LawPack | None:
        """Return the pack of a jurisdiction or code, if it is loaded."""
        return next((pack.model for pack in self.law if pack.model.jurisdiction == jurisdiction), None)


def shipped_packs() -> Path:
    """Return the folder of the packs that come with the program."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "rulepacks"
    return inside if inside.is_dir() else package.parent / "rulepacks"


def load_library(folders: Sequence[Path] = (), jurisdictions: Sequence[str] | None = None) -> Library:
    """Load the shipped packs and those of more folders.

    With `jurisdictions`, of the shipped law only these are loaded, those that waters of these names touch, and what
    may bind every vessel. Raises `InputProblems` with every fault of every file that keeps a pack from being read;
    `check_library` finds the rest.
    """
    library, problems = Library(), list[Problem]()
    shipped = shipped_packs()
    files = [(shipped, path) for path in sorted(shipped.rglob("*.yaml"))]
    library.known_jurisdictions = tuple(path.stem for path in sorted((shipped / "law").rglob("*.yaml")))
    chosen = [(root, path) for root, path in files if path.parent.name == "law"]
    files = [(root, path) for root, path in files if path.parent.name != "law"]
    for folder in folders:
        if not folder.is_dir():
            problems.append(Problem(Mark(str(folder)), "", "there is no such folder", "a folder of packs"))
        files.extend((folder, path) for path in sorted(folder.rglob("*.yaml")))
        problems += [
            Problem(
                Mark(str(path)), "", "a file that is named .yml and wouldn't be read", "the same, named .yaml"
            )
            for path in sorted(folder.rglob("*.yml"))
        ]
    _load_files(library, files, problems)
    if jurisdictions is not None:
        waters = {name: water for one in library.catalogue for name, water in one.model.waters.items()}
        wanted = {*jurisdictions, *jurisdictions_of(jurisdictions, waters)}
        chosen = [(root, path) for root, path in chosen if path.stem in wanted]
    _load_files(library, chosen, problems)
    problems += _twice(library)
    _sort_and_merge(library, problems)
    if problems:
        raise InputProblems(problems)
    return library


def _twice(library: Library) -> Iterator[Problem]:
    """Yield a problem for each pack that bears the id of another one; of a shipped and another, for the other."""
    shipped = shipped_packs()
    kinds: tuple[tuple[str, list[Loaded[Any]], set[str]], ...] = (
        ("pack", list(library.rules), set()),
        ("pack", list(library.stores), set()),
        ("jurisdiction", list(library.law), set(library.known_jurisdictions)),
    )
    for key, packs, known in kinds:
        own = [pack for pack in packs if not pack.file.is_relative_to(shipped)]
        seen = known | {getattr(pack.model, key) for pack in packs if pack not in own}
        for pack in own:
            id = getattr(pack.model, key)
            if id in seen:
                yield Problem(
                    pack.mark_of((key,)),
                    key,
                    f"{id!r}, the id of another pack",
                    "an id of its own for each pack",
                )
            seen.add(id)


def _load_files(library: Library, files: Sequence[tuple[Path, Path]], problems: list[Problem]) -> None:
    kept = Kept(kept_folder())
    PARSED.remember(kept)
    for root, path in files:
        try:
            _load_file(library, root, path, kept)
        except InputProblems as error:
            problems.extend(error.problems)


def _load_file(library: Library, root: Path, path: Path, kept: Kept) -> None:
    file = read_plain(path, f"{root.name}/{path.relative_to(root).as_posix()}", kept)
    keys = file.values if isinstance(file.values, dict) else {}
    if "jurisdiction" in keys:
        library.law.append(loaded_from(path, file, LawPack))
    elif "pack" in keys and "items" in keys:
        library.stores.append(loaded_from(path, file, StoresPack))
    elif "pack" in keys:
        library.rules.append(loaded_from(path, file, RulePack))
    else:
        library.catalogue.append(loaded_from(path, file, Catalogue))


def loaded_from(path: Path, file: PlainFile, model: type[Model]) -> Loaded[Model]:
    """Return a pack held against its model; raises `InputProblems` with its faults."""
    try:
        return Loaded(path, file, model.model_validate(file.values))
    except ValidationError as error:
        node = file.node
        problems: dict[tuple[Mark, str], Problem] = {}
        for detail in error.errors(include_url=False):
            location = detail["loc"] if detail["type"] == "missing" else existing_path(node, detail["loc"])
            problem = problem_of(model, node, location, detail)
            problems.setdefault((problem.mark, problem.key), problem)
        raise InputProblems(problems.values()) from error


def _sort_and_merge(library: Library, problems: list[Problem]) -> None:
    library.rules.sort(key=lambda pack: (pack.model.order, pack.model.pack))
    library.law.sort(key=lambda pack: pack.model.jurisdiction)
    for catalogue in library.catalogue:
        model = catalogue.model
        merge_into(library.sources, model.sources, catalogue, "sources", problems)
        merge_into(library.instruments, model.instruments, catalogue, "instruments", problems)
        merge_into(library.cautions, model.cautions, catalogue, "cautions", problems)
        merge_into(library.gear, model.gear, catalogue, "gear", problems)
        merge_into(library.gear_groups, model.gear_groups, catalogue, "gear_groups", problems)
        merge_into(library.marks, model.marks, catalogue, "marks", problems)
        merge_into(library.waters, model.waters, catalogue, "waters", problems)
        library.aboard.extend(model.aboard)
        merge_into(library.settings, model.settings, catalogue, "settings", problems)
        merge_into(library.plant_states, model.plant_states, catalogue, "plant_states", problems)
        merge_into(library.rounds, model.rounds, catalogue, "rounds", problems)
        merge_into(library.scopes, model.scopes, catalogue, "scopes", problems)
        merge_into(library.zones, model.zones, catalogue, "zones", problems)
        merge_into(library.starters, model.starters, catalogue, "starters", problems)
        if (spoken := model.other_words) is not None:
            library.other_words = OtherWords(spoken.keys, spoken.near_keys, spoken.values, spoken.places)
        library.zone_map = model.zone_map or library.zone_map
        library.moves.extend(model.moves)
        library.round_fallbacks.extend(model.round_fallbacks)
        library.exclusions.extend(model.exclusions)
        library.risk = model.risk or library.risk
        library.usual_day = model.usual_day or library.usual_day
        library.defaults.extend(model.defaults)
        library.inferred.extend(model.inferred)
        asked = {section.key: section for section in model.sections}
        merge_into(library.sections, asked, catalogue, "sections", problems)
        library.questions.extend(model.questions)
        library.owner_knows.extend(model.owner_knows)
    for pack in library.rules:
        merge_into(library.sources, pack.model.sources, pack, "sources", problems)
        merge_into(library.instruments, pack.model.instruments, pack, "instruments", problems)
        merge_into(library.cautions, pack.model.cautions, pack, "cautions", problems)
    for stores in library.stores:
        merge_into(library.sources, stores.model.sources, stores, "sources", problems)
    for law in library.law:
        merge_into(library.gear, law.model.gear, law, "gear", problems)


def merge_into(
    into: dict[str, Entry],
    more: Mapping[str, Entry],
    pack: Loaded[PackModel],
    key: str,
    problems: list[Problem],
) -> None:
    """Put a pack's entries to those that are there; one of the same id that says something else is a fault."""
    for name, entry in more.items():
        if name in into and into[name] != entry:
            mark = pack.mark_of((key, name))
            problems.append(
                Problem(
                    mark,
                    f"{key}.{name}",
                    "another file says something else of the same id",
                    "one entry for an id",
                )
            )
        into.setdefault(name, entry)
