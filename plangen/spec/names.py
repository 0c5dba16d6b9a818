"""Names made fit for ids."""

from __future__ import annotations

import re
import unicodedata


def slug(name: str) -> str:
    """Return the name in lower case with hyphens, accents left off, for use in an id.

    >>> slug("Port forward head"), slug("Réservoir n° 2")
    ('port-forward-head', 'reservoir-n-2')
    """
    folded = "".join(
        c for c in unicodedata.normalize("NFKD", name.casefold()) if not unicodedata.combining(c)
    )
    return re.sub(r"[\W_]+", "-", folded).strip("-") or "item"
