"""No style sheet holds a rule for a class that no template uses."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from plangen.print.pdf import TEMPLATES

#: The field page makes elements of its own; its style is tested with it.
SHEETS = sorted(path for path in TEMPLATES.rglob("*.css") if path.parent.name != "field")


@pytest.mark.parametrize("sheet", SHEETS, ids=[sheet.name for sheet in SHEETS])
def test_every_class_of_a_style_sheet_is_used_by_a_template(sheet: Path) -> None:
    said = " ".join(path.read_text(encoding="utf-8") for path in TEMPLATES.rglob("*.j2"))
    code = " ".join(path.read_text(encoding="utf-8") for path in TEMPLATES.parent.rglob("*.py"))
    rules = re.sub(r"/\*.*?\*/", "", sheet.read_text(encoding="utf-8"), flags=re.DOTALL)
    selectors = re.findall(r"([^{}]+)\{", rules)
    classes = {name for selector in selectors for name in re.findall(r"\.([A-Za-z][\w-]*)", selector)}
    unused = {
        name
        for name in classes
        if not re.search(rf"(?<![\w-]){name}(?![\w-])", said + code)
        and not any(f"{name[: dash.end()]}{{{{" in said for dash in re.finditer("-", name))
    }
    assert not unused
