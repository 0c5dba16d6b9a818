"""Waters and passages by the names that sailors give them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from plangen.packs.law import Water


def water_named(name: str, waters: Mapping[str, Water]) -> Water | None:
    """Return the water of a name; case, blanks and hyphens don't matter.

    >>> sea = Water(title="Gulf of Lions", also=("golfe du lion",))
    >>> water_named("Golfe-du-Lion", {"gulf-of-lions": sea}) is sea
    True
    """
    wanted = _plain(name)
    for id, water in waters.items():
        if wanted in (_plain(id), _plain(water.title), *map(_plain, water.also)):
            return water
    return None


def _plain(text: str) -> str:
    return " ".join(text.lower().replace("-", " ").split())


def jurisdictions_of(names: Sequence[str], waters: Mapping[str, Water]) -> list[str]:
    """Return the jurisdictions that named waters touch."""
    found = [water for name in names if (water := water_named(name, waters))]
    return list(dict.fromkeys(j for water in found for j in water.jurisdictions))
