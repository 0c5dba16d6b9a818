"""Words that people use for a key or a value of the spec that has another name or stands in another section."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field


@dataclass(frozen=True)
class OtherWords:
    """What is meant by words that the spec doesn't have: for each key, and for each value of a key, the words for it."""

    keys: Mapping[str, Sequence[str]] = field(default_factory=dict)
    near_keys: Mapping[str, Sequence[str]] = field(default_factory=dict)
    values: Mapping[str, Mapping[str, Sequence[str]]] = field(default_factory=dict)
    places: Mapping[str, Sequence[str]] = field(default_factory=dict)

    def key_for(self, name: str, at_hand: Sequence[str]) -> str:
        """Return the key that a word means: plain where it is one of the keys at hand, otherwise as a path from the top."""
        near = [key for key, words in self.near_keys.items() if key in at_hand and _is_among(name, words)]
        meant = [key for key, words in self.keys.items() if _is_among(name, words)]
        here = [last for key in meant if (last := key.rpartition(".")[2]) in at_hand]
        return (here or near or [" or ".join(meant)])[0]

    def value_for(self, key: str, written: str, choices: Sequence[str]) -> str:
        """Return the value that a word means at a key; a key that has the same name elsewhere lends its words."""
        last = key.rpartition(".")[2]
        tables = [self.values.get(key, {})]
        tables += [table for other, table in self.values.items() if other.rpartition(".")[2] == last]
        for table in tables:
            for value, words in table.items():
                if _is_among(written, words) and set(value.split(" or ")) <= set(choices):
                    return value
        return ""

    def place_for(self, name: str) -> str:
        """Return the flag or water that a word means."""
        return next((place for place, words in self.places.items() if _is_among(name, words)), "")


NO_OTHER_WORDS = OtherWords()


def _folded(text: str) -> str:
    return text.strip().casefold().replace(" ", "-").replace("_", "-")


def _is_among(written: str, words: Sequence[str]) -> bool:
    return _folded(written) in map(_folded, words)
