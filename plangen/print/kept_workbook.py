"""A workbook that was made before of the same content is taken as it was kept: to make one takes longest of all papers."""

from __future__ import annotations

import json
from collections.abc import Callable
from hashlib import sha256
from importlib.metadata import version
from typing import Any

from plangen.kept import Kept, kept_folder

#: Changes where the same content gives another workbook.
_FORM = "workbook, 1"


def kept_workbook(made_of: Any, make: Callable[[], bytes]) -> bytes:
    """Return the workbook of a content, made now where it isn't kept."""
    whole = json.dumps([_FORM, version("openpyxl"), made_of], default=repr)
    return Kept(kept_folder()).made(sha256(whole.encode()).hexdigest(), make)
