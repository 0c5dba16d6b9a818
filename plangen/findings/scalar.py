"""Text as one YAML value on one line, which is read back as the same text."""

from __future__ import annotations

import re

_PLAIN = re.compile(r"[^\W\d_](?:[\w /().%°+@-]|,(?! )|(?<=\w), (?=\w))*")
_RESERVED = ("true", "false", "null", "yes", "no", "on", "off", "y", "n")


def scalar(text: str, in_list: bool = False) -> str:
    r"""Return text as YAML, in quotes where YAML would read something else.

    >>> print(scalar("gauge sticks"), scalar("14.1"), scalar("a: b # c"), scalar("two\nlines"))
    gauge sticks "14.1" "a: b # c" "two\nlines"
    """
    plain = _PLAIN.fullmatch(text) and text == text.strip() and text.isprintable()
    if plain and text.lower() not in _RESERVED and not (in_list and "," in text):
        return text
    return f'"{"".join(map(_escaped, text))}"'


def _escaped(character: str) -> str:
    if character in '"\\':
        return f"\\{character}"
    if character.isprintable():
        return character
    if character == "\n":
        return "\\n"
    code = ord(character)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"


def number_or_text(text: str) -> int | float | str:
    """Return a number where it would be written again just as it was typed, and the text otherwise.

    >>> number_or_text("14.1"), number_or_text("14.10"), number_or_text("007"), number_or_text("14,1")
    (14.1, '14.10', '007', '14,1')
    """
    for read in (int, float):
        try:
            number = read(text)
        except ValueError:
            continue
        if str(number) == text and text.lstrip("-")[:1].isdigit():
            return number
    return text


def value_text(value: object, in_list: bool = False) -> str:
    """Return a typed value as YAML on one line.

    >>> value_text([28, None, "61 L", True]), value_text("no"), value_text("off")
    ('[28, null, "61 L", true]', 'no', '"off"')
    """
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        return str(value)
    if isinstance(value, list):
        return f"[{', '.join(value_text(one, in_list=True) for one in value)}]"
    return str(value) if value in ("yes", "no") else scalar(str(value), in_list)
