"""Time, memory and size of the PDF beside plain WeasyPrint on the same HTML, in the same run."""

from __future__ import annotations

import resource
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import weasyprint
from weasyprint.text.fonts import FontConfiguration

from plangen.print.carried.document import carried_document
from plangen.print.html import Document
from plangen.print.pdf import TEMPLATES, write_pdf
from plangen.print.pdf.faces import FACES, _package_folder
from tests.conftest import scheduled


def plain(document: Document) -> float:
    """Return the seconds that WeasyPrint takes for the whole as one document, fields and tags included."""
    fonts = FontConfiguration()
    faces = "".join(
        f"@font-face {{ font-family: 'Plan Sans'; font-style: {style}; font-weight: {weight}; src: url('{(_package_folder() / name).as_uri()}'); }}"
        for (style, weight), name in FACES.items()
    )
    style = "".join((TEMPLATES / name).read_text() for name in (document.style, document.more_style) if name)
    begun = time.perf_counter()
    sheet = weasyprint.CSS(string=faces + style, font_config=fonts)
    pages = weasyprint.HTML(string=document.html).render(
        stylesheets=[sheet], font_config=fonts, pdf_forms=True
    )
    pages.write_pdf(pdf_forms=True, pdf_tags=True)
    return time.perf_counter() - begun


def seconds(work: Callable[[], object]) -> float:
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


@pytest.mark.parametrize("name", ["catamaran.yaml", "yard/hull-101.yaml"])
def test_plan_pdf_against_plain(
    benchmark: Any, name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At most 0.45 of plain from nothing, and 0.2 where all but one part is kept (a changed line of the spec)."""
    monkeypatch.setenv("PLANGEN_CACHE", str(tmp_path))
    plan = scheduled(name)
    document = carried_document(plan)
    made: list[bytes] = []
    cold = benchmark.pedantic(
        lambda: seconds(lambda: made.append(write_pdf(document, plan.digest))), rounds=1
    )
    changed = plan.model_copy(update={"digest": plan.digest[::-1]})
    warm = seconds(lambda: write_pdf(carried_document(changed), changed.digest))
    whole = plain(document)
    benchmark.extra_info |= {
        "plain s": round(whole, 2),
        "of plain, from nothing": round(cold / whole, 2),
        "of plain, digest changed": round(warm / whole, 2),
        "bytes": len(made[0]),
        "largest process of layout, MB": resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024,
    }
    assert cold / whole <= 0.45
    assert warm / whole <= 0.2
    assert len(made[0]) < 1_000_000
