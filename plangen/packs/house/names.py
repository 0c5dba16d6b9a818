"""What the lines of a house file name: rules, readings and requirements, and what is said where none is meant."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, NamedTuple

from plangen.packs.house.read import LoadedHouse
from plangen.packs.library import Library, Loaded
from plangen.packs.model import CheckRule
from plangen.spec.explain import key_text
from plangen.spec.problems import Problem, name_list, nearest_name

Path = tuple[str | int, ...]


class Place(NamedTuple):
    """Where a rule stands: the numbers of its pack and of its check in the library."""

    pack: int
    check: int
    rule: CheckRule


@dataclass
class Names:
    """The ids that a house file may name, and the faults of the lines that name others."""

    library: Library
    house: LoadedHouse
    rules: dict[str, Place]
    problems: list[Problem] = field(default_factory=list)
    changed: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, library: Library, house: LoadedHouse) -> Names:
        """Return the names that a library holds."""
        rules = {
            rule.id: Place(pack, check, rule)
            for pack, loaded in enumerate(library.rules)
            for check, rule in enumerate(loaded.model.checks)
        }
        return cls(library, house, rules)

    def say(self, path: Path, found: str, accepted: str, nearest: str = "") -> None:
        """Note a fault at a place of the house file."""
        self.problems.append(Problem(self.house.mark_of(path), key_text(path), found, accepted, nearest))

    def rule(self, path: Path, text: str) -> Place | None:
        """Return the rule of an id."""
        if text in self.rules:
            return self.rules[text]
        bare = text.split("@")[0].split("/")[-1]
        later = next((id for id, place in self.rules.items() if bare in place.rule.formerly), "")
        nearest = later or (bare if bare in self.rules else nearest_name(bare, self.rules))
        found = f"the rule {text!r}, which has another id by now" if later else f"there is no rule {text!r}"
        self.say(path, found, "the id of a rule; `plangen packs ids WORD` lists them", nearest)
        return None

    def reading(self, path: Path, place: Place, text: str) -> bool:
        """Tell whether a rule has a reading of the id."""
        ids = list(dict.fromkeys(reading.id for reading in place.rule.expect))
        if text not in ids:
            found = f"{place.rule.id} has no reading {text!r}"
            self.say(path, found, name_list(ids), nearest_name(text, ids))
        return text in ids

    def alone(self, path: Path, place: Place) -> bool:
        """Tell whether nothing else of the file is about a rule, so that it can be dropped or replaced whole."""
        id = place.rule.id
        if id in self.changed:
            self.say(path, f"{id} is changed, replaced or dropped elsewhere in the file", "one of these")
            return False
        self.changed.add(id)
        return True

    def requirement(self, path: Path, law: str, text: str) -> tuple[int, int] | None:
        """Return the numbers of a law and its requirement; nothing where the law isn't held against this boat."""
        packs: list[Loaded[Any]] = list(self.library.law)
        number = next((n for n, pack in enumerate(packs) if pack.model.jurisdiction == law), None)
        if number is None:
            known = self.library.known_jurisdictions
            if law not in known:
                found = f"there is no law pack {law!r}"
                self.say((*path, "law"), found, name_list(sorted(known)), nearest_name(law, known))
            return None
        ids = [one.id for one in packs[number].model.requires]
        if text not in ids:
            found = f"{law} has no requirement {text!r}"
            self.say((*path, "requirement"), found, name_list(ids, 60), nearest_name(text, ids))
            return None
        return number, ids.index(text)
