"""A PDF put together from parts is whole: checked by qpdf (through pikepdf) and read by Poppler, not by what joined it."""

from __future__ import annotations

import io
import os
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

import pikepdf
import pytest

from plangen.kept import Kept
from plangen.print.carried.document import carried_document
from plangen.print.html import Document
from plangen.print.pdf import write_pdf
from plangen.print.pdf.parts import part_mark, parts_of
from tests.print.test_pdf import small


@cache
def pdf() -> bytes:
    return write_pdf(carried_document(small()), small().digest)


def opened() -> pikepdf.Pdf:
    return pikepdf.open(io.BytesIO(pdf()))


def test_qpdf_finds_no_fault() -> None:
    assert opened().check_pdf_syntax() == []


def test_each_marked_piece_belongs_to_an_element_of_the_tree() -> None:
    """ISO 32000-1, 14.7.4.4: StructParents leads to an array with an element for each marked piece of the page."""
    file = opened()
    numbers = list(file.Root.StructTreeRoot.ParentTree.Nums)
    tree = dict(zip((int(n) for n in numbers[::2]), numbers[1::2], strict=True))
    assert sorted(tree) == [int(n) for n in numbers[::2]], "a number tree is sorted (7.9.7)"
    for page in file.pages:
        pieces = tree[int(page.obj.StructParents)]
        marked = [
            int(operands[1]["/MCID"])
            for operands, operator in pikepdf.parse_content_stream(page)
            if str(operator) == "BDC" and "/MCID" in operands[1]
        ]
        assert sorted(marked) == list(range(len(pieces)))
        assert all(element.Pg.objgen == page.obj.objgen for element in pieces)


def test_each_field_has_its_place_in_the_tree() -> None:
    file = opened()
    numbers = list(file.Root.StructTreeRoot.ParentTree.Nums)
    tree = dict(zip((int(n) for n in numbers[::2]), numbers[1::2], strict=True))
    widgets = [
        note for page in file.pages for note in page.obj.get("/Annots", []) if note.Subtype == "/Widget"
    ]
    assert len(widgets) > 20
    for widget in widgets:
        element = tree[int(widget.StructParent)]
        assert any(kid.get("/Obj", None) is not None and kid.Obj.objgen == widget.objgen for kid in element.K)


def test_every_element_hangs_on_the_root() -> None:
    file = opened()
    root = file.Root.StructTreeRoot
    (document,) = root.K
    assert document.P.objgen == root.objgen
    assert len(document.K) > 5
    assert all(element.P.objgen == document.objgen for element in document.K)


def test_fields_of_all_parts_are_in_one_form_and_each_once() -> None:
    file = opened()
    fields = [str(field.T) for field in file.Root.AcroForm.Fields if "/T" in field]
    assert len(fields) == len(set(fields))
    prefixes = {name.partition("/")[0] for name in fields}
    assert {"briefing", "check", "cover", "kit"} <= prefixes


def test_contents_name_the_pages_on_which_things_are() -> None:
    file = opened()
    pages = {page.obj.objgen: number for number, page in enumerate(file.pages, start=1)}
    names = list(file.Root.Names.Dests.Names)
    targets = {
        str(name): pages[target[0].objgen] for name, target in zip(names[::2], names[1::2], strict=True)
    }
    links = [str(note.Dest) for page in file.pages for note in page.obj.get("/Annots", []) if "/Dest" in note]
    assert {"briefing", "kit", "snag-sheets"} <= set(links) <= set(targets)
    text = poppler_text(1)
    line = next(line for line in text.splitlines() if "Kit to bring" in line)
    assert line.split("Kit to bring")[1].split()[0] == str(targets["kit"])


def poppler_text(page: int) -> str:
    if shutil.which("pdftotext") is None:
        pytest.skip("Poppler isn't installed")
    done = subprocess.run(
        ["pdftotext", "-layout", "-f", str(page), "-l", str(page), "-", "-"],
        input=pdf(), capture_output=True, check=True,
    )  # fmt: skip
    return done.stdout.decode()


def test_each_face_is_in_the_file_once() -> None:
    """Only its own four faces, and the face of ticks that every viewer has."""
    opened = pikepdf.open(io.BytesIO(pdf()))  # objects live as long as their file
    files = [
        one[key].read_raw_bytes()
        for one in opened.objects
        if isinstance(one, pikepdf.Dictionary)
        for key in ("/FontFile2", "/FontFile3")
        if key in one
    ]
    assert 1 <= len(files) <= 4
    assert len(set(files)) == len(files)


def marked(*bodies: str) -> Document:
    html = "".join(f"{part_mark(f'Part {n}')}{body}" for n, body in enumerate(bodies, start=1))
    head = '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>x</title></head><body>'
    return Document(f"{head}{html}</body></html>", "carried/carried.css", foot="Tern")


def test_processes_and_kept_parts_change_no_byte(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    document = marked(*(f"<h1>{n}</h1>" + "<p>line of text</p>" * 250 for n in range(3)))
    made = set()
    for cache_folder, workers in (("", "1"), ("", "2"), (str(tmp_path), "2"), (str(tmp_path), "1")):
        monkeypatch.setenv("PLANGEN_CACHE", cache_folder)
        monkeypatch.setenv("PLANGEN_WORKERS", workers)
        made.add(write_pdf(document, "0" * 64))
    assert len(made) == 1


def test_no_byte_hangs_on_the_order_of_hashes(tmp_path: Path) -> None:
    """A set of words comes in another order in each process (PYTHONHASHSEED)."""
    program = (
        "import sys; from plangen.print.html import Document; from plangen.print.pdf import write_pdf;"
        "sys.stdout.buffer.write(write_pdf(Document(sys.argv[1], 'carried/carried.css', foot='Tern'), '0' * 64))"
    )
    fields = '<input type="checkbox" name="a"><input type="text" name="b"><i>c</i><b>d</b>'
    html = marked(f"<h1>1</h1>{fields}", f"<p>2</p>{fields}").html
    made = {
        subprocess.run(
            [sys.executable, "-c", program, html],
            env={**os.environ, "PYTHONHASHSEED": seed, "PLANGEN_CACHE": str(tmp_path)},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("0", "1", "2")
    }
    assert len(made) == 1


def test_what_was_spoilt_in_the_cache_is_made_again(tmp_path: Path) -> None:
    kept = Kept(tmp_path)
    assert kept.made("a", lambda: b"first") == b"first"
    assert kept.made("a", lambda: b"second") == b"first"
    (tmp_path / "a").write_bytes((tmp_path / "a").read_bytes()[:-1] + b"?")
    assert kept.made("a", lambda: b"second") == b"second"
    (tmp_path / "b").write_bytes((tmp_path / "a").read_bytes())
    assert kept.get("b") is None, "what was kept under another key is no answer"


def test_the_cache_is_bounded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("plangen.kept.MOST_BYTES", 1000)
    kept = Kept(tmp_path)
    for number in range(20):
        kept.put(f"{number:02}", bytes(100))
    kept.tidy()
    assert sum(file.stat().st_size for file in tmp_path.iterdir()) <= 1000


def test_a_cache_that_cannot_be_written_is_done_without(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    assert Kept(tmp_path / "file" / "in").made("a", lambda: b"made") == b"made"


def test_a_document_without_marks_is_one_part() -> None:
    (part,) = parts_of("<html><body><p>x</p></body></html>")
    assert part.html == "<html><body><p>x</p></body></html>"


def test_letters_that_the_faces_lack_are_printed_all_the_same() -> None:
    content = write_pdf(marked("<h1>Лодка</h1>", "<p>船</p>"), "0" * 64)
    assert pikepdf.open(io.BytesIO(content)).check_pdf_syntax() == []


def test_a_title_cannot_end_its_mark() -> None:
    parts = parts_of(f"<html><body>{part_mark('a --> <b>')}<p>x</p></body></html>")
    assert [part.title for part in parts] == ["a --> <b>"]
