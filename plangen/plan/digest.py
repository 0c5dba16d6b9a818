"""The digest of everything that a plan is made from."""

from __future__ import annotations

import hashlib
import json
from typing import Any

from plangen.packs.library import Library
from plangen.spec.load import LoadedSpec


def digest_of(loaded: LoadedSpec, library: Library, units: str) -> str:
    """Return the SHA-256 digest, in hexadecimal, of the spec's and the packs' values and of the units."""
    packs = [
        pack.source.plain() for pack in (*library.rules, *library.law, *library.stores, *library.catalogue)
    ]
    text = json.dumps(
        [loaded.source.plain(), packs, units], sort_keys=True, default=_plain, ensure_ascii=False
    )
    return hashlib.sha256(text.encode()).hexdigest()


def _plain(value: Any) -> str:
    return str(value)
