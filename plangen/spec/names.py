"""Names made fit for ids."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

#: Names that stand for devices on Windows, with whatever ending.
_DEVICES = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?", re.IGNORECASE)


def is_device(name: str) -> bool:
    """Tell whether no file can have the name on Windows.

    >>> is_device("CON.jpg"), is_device("lpt1"), is_device("console")
    (True, True, False)
    """
    return _DEVICES.fullmatch(name) is not None


def folder_name(name: str) -> str:
    """Return the name of a boat's folder, which every system takes.

    >>> folder_name("Halcyon Drift"), folder_name("AUX")
    ('halcyon-drift', 'aux-boat')
    """
    own = slug(name)
    return f"{own}-boat" if is_device(own) else own


@lru_cache(maxsize=10_000)
def slug(name: str) -> str:
    """Return the name in lower case with hyphens, accents left off, for use in an id.

    >>> slug("Port forward head"), slug("Réservoir n° 2")
    ('port-forward-head', 'reservoir-n-2')
    """
    folded = "".join(
        c for c in unicodedata.normalize("NFKD", name.casefold()) if not unicodedata.combining(c)
    )
    return re.sub(r"[\W_]+", "-", folded).strip("-") or "item"
