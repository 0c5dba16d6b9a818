"""Files that somebody may send to do harm, by the door at which they come in."""

from __future__ import annotations

import io
import json
import zipfile
from base64 import b64encode

from pypdf import PdfWriter
from pypdf.generic import ArrayObject, DictionaryObject, NameObject, NumberObject, TextStringObject

ESCAPE = "\x1b[2J\x1b]0;owned\x07"
BIDI = "\u202eevil\u202c"

#: YAML that is an attack at whatever place YAML is read. `{}` is where the file's own keys stand.
YAML = {
    "object-tag": "{}x: !!python/object/apply:os.system ['touch pwned']\n",
    "name-tag": "{}x: !!python/name:os.system\n",
    "own-tag": "{}x: !evil {{a: 1}}\n",
    "binary-tag": "{}x: !!binary aGVsbG8=\n",
    "set-tag": "{}x: !!set {{a, b}}\n",
    "laughs": "{}a: &a [l,l,l,l,l,l,l,l,l]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\n"
    "d: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]\ne: &e [*d,*d,*d,*d,*d,*d,*d,*d,*d]\nf: [*e,*e,*e,*e,*e,*e,*e,*e,*e]\n",
    "alias-in-itself": "{}a: &a [*a]\n",
    "alias-of-nothing": "{}a: *nothing\n",
    "deep-lists": "{}x: " + "[" * 3000 + "\n",
    "deep-mappings": "{}x: " + "{{a: " * 2000 + "\n",
    "deep-blocks": "{}" + "".join(" " * n + "a:\n" for n in range(900)),
    "long-scalar": "{}x: " + "y" * 1_200_000 + "\n",
    "long-scalar-aliased": "{}a: &a " + "y" * 100_000 + "\nb: [" + "*a, " * 5000 + "]\n",
    "many-keys": "{}" + "".join(f"k{n}: 1\n" for n in range(30_000)),
    "many-items": "{}x: [" + "{{}}," * 100_000 + "]\n",
    "two-documents": "{}\n---\nx: 1\n",
    "duplicate-keys": "{}x: 1\nx: 2\n",
    "merge-keys": "{}a: &a {{<<: {{b: 1}}}}\nc: {{<<: [*a, *a]}}\n",
    "mapping-as-key": "{}? {{a: b}}\n: c\n",
    "escape-in-key": '{}"\\e[2Jkey": 1\n',
    "bidi-in-key": f"{{}}{BIDI}: 1\n",
    "nul-escaped": '{}x: "a\\0b"\n',
    "lone-surrogate": '{}x: "\\uD800"\n',
    "huge-integer": "{}x: " + "9" * 6000 + "\n",
    "infinity": "{}x: 1e999\n",
    "no-number": "{}x: .nan\n",
    "no-such-day": "{}x: 9999-99-99\n",
    "tab": "{}x:\n\ty: 1\n",
    "open-quote": '{}x: "never closed\n',
    "list-at-the-top": "- 1\n- 2\n",
    "word-at-the-top": "just a word\n",
    "nothing": "",
    "comment-only": "# nothing here\n",
    "directive": "%YAML 9.9\n---\n{}",
    "carriage-returns": "{}x: 1\r\ry: 2\r",
}  # fmt: skip

#: The same as bytes that are no UTF-8 text.
BYTES = {
    "nul": b"\0\0\0\0",
    "latin-1": "vessel: {name: \xe9t\xe9}\n".encode("latin-1"),
    "utf-16": "vessel: {name: Tern}\n".encode("utf-16"),
    "noise": bytes(range(256)) * 40,
    "picture": b"\x89PNG\r\n\x1a\n" + bytes(2000),
}

SPECS = {
    "extends-itself": "extends: spec.yaml\n",
    "extends-outside": "extends: ../../../etc/passwd\n",
    "extends-absolute": "extends: /etc/passwd\n",
    "extends-a-url": "extends: http://127.0.0.1:9/x.yaml\n",
    "extends-many": "extends: [" + ", ".join(f"a{n}.yaml" for n in range(5000)) + "]\n",
    "name-is-a-path": 'vessel: {name: "../../outside", hull: motor-planing, length_hull: 7 m}\n',
    "name-is-a-device": "vessel: {name: CON, hull: motor-planing, length_hull: 7 m}\n",
    "name-is-markup": 'vessel: {name: "<script>alert(1)</script>{{7*7}}", hull: motor-planing, length_hull: 7 m}\n',
    "name-steers-the-terminal": 'vessel: {name: "\\e[2J\\e]0;x\\a", hull: motor-planing, length_hull: 7 m}\n',
    "name-is-long": "vessel: {name: " + "n" * 5000 + ", hull: motor-planing, length_hull: 7 m}\n",
    "name-is-empty": 'vessel: {name: "", hull: motor-planing, length_hull: 7 m}\n',
    "count-without-end": "vessel: {name: T, hull: motor-planing, length_hull: 7 m}\ntanks: {count: 1000000000, holds: fresh, capacity: 1 L}\n",
    "unit-without-end": "vessel: {name: T, hull: motor-planing, length_hull: 7 m**9999999}\n",
    "number-without-end": "vessel: {name: T, hull: motor-planing, length_hull: " + "9" * 5000 + " m}\n",
    "length-many-times": "vessel: {name: T, hull: motor-planing, length_hull: 9 m 9 m 9 m}\n",
    "units-as-program": "vessel: {name: T, hull: motor-planing, length_hull: \"__import__('os').system('touch pwned') m\"}\n",
    "expression-as-value": "vessel: {name: '{{ 7 * 7 }}', hull: motor-planing, length_hull: 7 m}\n",
    "day-beyond-time": "vessel: {name: T, hull: motor-planing, length_hull: 7 m}\ntrial: {date: 9999-12-31, days: 99999}\n",
    "pole": "vessel: {name: T, hull: motor-planing, length_hull: 7 m}\ntrial: {date: 2027-06-21, place: {latitude: 90, longitude: 0}}\n",
}  # fmt: skip

_RULE = """pack: own
title: Own
edition: 2026-11
checks:
  - id: own-check
    title: "{title}"
    when: {when}
    setting: alongside
    procedure: [Look]
    expect:
      - {{id: a, reading: a, about: '{value}', tolerance: '{tolerance}', basis: computed, source: common-practice}}
    minutes: {minutes}
    people: 1
    grade: remark
    do: Look
    protects: Nothing.
    priority: 3
    round: deck
    source: common-practice
"""


def rule(
    value: str = "1", when: str = "vessel", title: str = "T", tolerance: str = "1", minutes: str = "1"
) -> str:
    """A pack of one rule with something of a stranger's in it."""
    return _RULE.format(value=value, when=when, title=title, tolerance=tolerance, minutes=minutes)


PACKS = {
    "class": rule(value="vessel.__class__"),
    "subclasses": rule(value='"".__class__.__mro__[1].__subclasses__()'),
    "globals": rule(value="q.__globals__"),
    "format": rule(value='"{0.__class__}".format(vessel)'),
    "attribute-filter": rule(value='vessel|attr("__class__")'),
    "item-by-name": rule(value='vessel["__class__"]'),
    "import": rule(value='__import__("os").system("touch pwned")'),
    "open": rule(value='open("/etc/passwd").read()'),
    "statement": rule(title="{% for x in range(10**9) %}{% endfor %}"),
    "comprehension": rule(value="[x for x in range(10)]"),
    "lambda": rule(value="(lambda: 1)()"),
    "power": rule(value="9**9**9**9"),
    "long-text": rule(value='"a" * 1000000000'),
    "divided-by-zero": rule(value="1/0"),
    "nothing-over-nothing": rule(value='q("0 m")/q("0 m")'),
    "infinity": rule(value="1e999"),
    "infinity-reckoned": rule(value='number(vessel.length_hull, "m") * 1e300 * 1e300'),
    "zero-reckoned": rule(value='1 / (number(vessel.length_hull, "m") - number(vessel.length_hull, "m"))'),
    "condition-without-value": rule(when='1 / (number(vessel.length_hull, "m") - 7) > 1'),
    "text-without-value": rule(title="{{ 1 / (number(vessel.length_hull, 'm') - 7) }}"),
    "text-without-end": rule(title="{{ number(vessel.length_hull, 'm') * 1e300 * 1e300 }}"),
    "tolerance-without-end": rule(tolerance='number(vessel.length_hull, "m") * 1e300 * 1e300'),
    "minutes-without-end-reckoned": rule(minutes="number(vessel.length_hull, 'm') * 1e300 * 1e300"),
    "minutes-large": rule(minutes="1e300"),
    "deep": rule(value="(" * 500 + "1" + ")" * 500),
    "long": rule(value="1" + "+1" * 3000),
    "unit-without-end": rule(value='q("1 m**9999999")'),
    "rounded-to-nothing": rule(value="rounded(1, 0)"),
    "greatest-of-none": rule(value="greatest([])"),
    "wrong-kind": rule(value='"word"'),
    "unknown-name": rule(value="secrets.token"),
    "minutes-without-end": rule(minutes="1e400"),
    "minutes-below-nothing": rule(minutes="-5"),
    "title-is-markup": rule(title="<img src=x onerror=alert(1)>"),
    "condition-is-a-call": rule(when="vessel.name.upper()"),
    "shipped-id": rule().replace("pack: own", "pack: batteries"),
}  # fmt: skip

LISTS = {
    "no-codes": "hello\nworld\n" * 500,
    "flood": "1.1a 5\n" * 50_000,
    "one-long-line": "1.1a " + "9" * 3_000_000,
    "escape": f"1.1a {ESCAPE}\n",
    "bidi": f"found: {BIDI}, {BIDI}, stop\n",
    "formula": "found: =cmd|'/c calc'!A0, here, stop\n",
    "markup": "found: <script>alert(1)</script>, here, stop\n",
    "yaml-in-a-remark": '1.1a not: x\\n"}: [*a\n',
    "newline-in-yaml": "1.1a not: a: b: c # d\n",
    "nan": "1.1a nan\n1.1b inf\n1.1c 1e400\n",
    "photo-is-a-path": "1.1a 5 photo ../../../etc/passwd\n",
    "many-readings": "1.1 " + "1 " * 100_000 + "\n",
    "header-of-another": "plan: ffffffff\nby: x\n1.1a 5\n",
    "nothing": "",
    "expressions": "1.1a {{ 7*7 }}\n1.1b ${jndi:ldap://127.0.0.1/a}\n",
}  # fmt: skip


def exported(**more: object) -> str:
    """A field page's file of no boat in particular."""
    return json.dumps(
        {"format": "plangen-field/1", "boat": "Tern", "plan": "a" * 64, "device": "abcd", "saved": "2030-01-01T00:00:00Z", "readings": [], "also_found": [], "stray": [], "photos": []}
        | more
    )  # fmt: skip


def _photo(name: str, data: bytes, kind: str = "image/jpeg") -> dict[str, object]:
    return {"name": name, "type": kind, "width": 1, "height": 1, "sha256": "0" * 64, "by": "x", "at": "2030-01-01T00:00:00Z", "data": b64encode(data).decode()}  # fmt: skip


EXPORTS = {
    "not-json": "{",
    "list": "[]",
    "deep": "{" + '"a":{' * 5000 + "}" * 5001,
    "other-format": exported(format="plangen-field/99"),
    "readings-no-list": exported(readings={"a": 1}),
    "many-readings": exported(readings=[{"check": "x", "reading": "y", "typed": "1"}] * 30_000),
    "typed-nested": exported(readings=[{"check": "x", "reading": "y", "typed": [[["1"]]]}]),
    "long-typed": exported(readings=[{"check": "x", "reading": "y", "typed": "9" * 1_000_000}]),
    "escape": exported(readings=[{"check": ESCAPE, "reading": "y", "typed": ESCAPE}]),
    "prototype": exported(readings=[{"check": "__proto__", "reading": "constructor", "typed": "1"}]),
    "photo-outside": exported(photos=[_photo("../../../outside.jpg", b"\xff\xd8\xff\xe0")]),
    "photo-absolute": exported(photos=[_photo("/tmp/outside.jpg", b"\xff\xd8\xff\xe0")]),
    "photo-no-picture": exported(photos=[_photo("a.jpg", b"#!/bin/sh\ntouch pwned\n")]),
    "photo-drawing": exported(photos=[_photo("a.svg", b"<svg onload='x'/>", "image/svg+xml")]),
    "photo-hidden": exported(photos=[_photo(".bashrc", b"\xff\xd8\xff\xe0")]),
    "photo-bad-base64": exported(photos=[{"name": "a.jpg", "data": "###"}]),
    "numbers-for-words": exported(boat=1, plan=2, device=3),
    "nan": '{"format": "plangen-field/1", "boat": NaN}',
}  # fmt: skip


def _zip(**files: bytes) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name.replace("__", "/"), content)
    return made.getvalue()


def _form(name: str, value: object) -> bytes:
    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    field = DictionaryObject(
        {NameObject("/FT"): NameObject("/Tx"), NameObject("/T"): TextStringObject(name), NameObject("/V"): value}
    )  # fmt: skip
    writer._root_object[NameObject("/AcroForm")] = DictionaryObject(
        {NameObject("/Fields"): ArrayObject([writer._add_object(field)])}
    )
    made = io.BytesIO()
    writer.write(made)
    return made.getvalue()


def _nested(depth: int) -> ArrayObject:
    value: ArrayObject = ArrayObject([NumberObject(1)])
    for _ in range(depth):
        value = ArrayObject([value])
    return value


FILES = {
    "cut.pdf": b"%PDF-1.7\n1 0 obj\n<<",
    "noise.pdf": b"%PDF-1.7\n" + bytes(range(256)) * 50,
    "other.pdf": _form("x", TextStringObject("y")),
    "escape.pdf": _form("check/" + ESCAPE + "/note", TextStringObject(ESCAPE)),
    "nested.pdf": _form("check/a@b/reading/c", _nested(400)),
    "long.pdf": _form("check/a@b/note", TextStringObject("x" * 1_000_000)),
    "bomb.xlsx": _zip(**{"[Content_Types].xml": b"<a/>", "xl__workbook.xml": b" " * 30_000_000}),
    "entities.xlsx": _zip(**{"[Content_Types].xml": b'<!DOCTYPE a [<!ENTITY b "bb"><!ENTITY c "&b;&b;&b;&b;">]><a>&c;</a>', "xl__workbook.xml": b"<a/>"}),
    "outside.xlsx": _zip(**{"..__..__outside.txt": b"x"}),
    "empty.xlsx": b"PK\x03\x04",
    "quotes.csv": b'code,found\n"1.1a,"5"""\n' * 1000,
    "wide.csv": b"," * 1_000_000,
    "nul.csv": b"code,found\n1.1a,\0\n",
    "long.csv": b'code,found\n1.1a,"' + b"x" * 500_000,
}  # fmt: skip
