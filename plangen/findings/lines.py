"""A YAML file as lines, counted as the YAML reader counts them."""

from __future__ import annotations

import re

#: A text in single or double quotes.
QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"|\'(?:[^\']|\'\')*\'')
_COMMENT = re.compile(r"\s#")
_COLON = re.compile(r":(?=\s|$)")
_LINE = re.compile(r"[^\r\n\x85\u2028\u2029]*(?:\r\n|[\r\n\x85\u2028\u2029])|[^\r\n\x85\u2028\u2029]+\Z")


def lines_of(text: str) -> list[str]:
    r"""Return the lines of a text with their ends; joined they are the text again.

    >>> lines_of("a\r\nb\n\nc")
    ['a\r\n', 'b\n', '\n', 'c']
    """
    return _LINE.findall(text)


def bare_lines(text: str) -> list[str]:
    """Return the lines of a text without their ends."""
    return [line.rstrip("\r\n\x85\u2028\u2029") for line in lines_of(text)]


def indent_of(line: str) -> int:
    """Return how many blanks lead a line."""
    return len(line) - len(line.lstrip(" "))


def end_of_block(lines: list[str], start: int, stop: int, indent: int) -> int:
    """Return the index after the last line between two that belongs to a block whose parts stand deeper than the indent.

    Blank lines and comments that stand no deeper at the end belong to what follows.
    """
    end = stop
    while end > start + 1:
        line = lines[end - 1]
        if line.strip() and not (line.lstrip().startswith("#") and indent_of(line) <= indent):
            break
        end -= 1
    return end


def key_end(line: str, start: int) -> int:
    """Return where a key that starts in a line ends; the line's end where no colon follows it."""
    quoted = QUOTED.match(line, start)
    if quoted:
        return quoted.end()
    colon = _COLON.search(line, start)
    return colon.start() if colon else len(line)


def word_end(line: str, start: int) -> int:
    r"""Return where a key, or a text that is an item of a list, ends in a line.

    >>> word_end("  head-flush@aft: # mine", 2), word_end("- head-flush@aft  # mine\n", 2)
    (16, 16)
    """
    quoted = QUOTED.match(line, start)
    if quoted:
        return quoted.end()
    comment = _COMMENT.search(line, start)
    end = min(key_end(line, start), comment.start() if comment else len(line))
    return start + len(line[start:end].rstrip())
