"""Characters that cannot be seen: those that would turn a text around, and those that make words unequal."""

from __future__ import annotations

import re
import unicodedata

from builder.checks.fault import Fault, shown

_CONTROLS = "\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f\u2028\u2029"
_BIDI = "\u202a-\u202e\u2066-\u2069"
_INVISIBLE = "\u00ad\u200b\u2060-\u2064\ufeff\ufff9-\ufffb\U000e0000-\U000e007f"

TURNING = re.compile(f"[{_CONTROLS}{_BIDI}]")
"""Control characters, and those that turn the direction of writing (Unicode Standard Annex 9, section 2)."""

HIDDEN = re.compile(f"[{_CONTROLS}{_BIDI}{_INVISIBLE}]")
"""Those, and characters without any width that make two equal-looking words different.

Joiners (U+200C, U+200D) and marks of direction (U+200E, U+200F) stay: several scripts and emoji need them.
"""


def hidden_fault(text: str) -> Fault | None:
    """Say which character of a value cannot be seen, or None."""
    if text.isascii() and text.isprintable():
        return None
    found = HIDDEN.search(text)
    if found is None:
        return None
    return Fault(
        "hidden-character",
        f"A character that cannot be seen stands in this value: {_named(found.group())}.",
        f"Delete the value and type it again: {shown(HIDDEN.sub('', text))}.",
        found.start(),
    )


def hidden_in_story(story: str) -> tuple[int, str] | None:
    """Return where in a story the first character stands that could turn its text around, and what it is."""
    found = TURNING.search(story)
    return None if found is None else (found.start(), _named(found.group()))


def _named(letter: str) -> str:
    name = unicodedata.name(letter, "").lower()
    return f"U+{ord(letter):04X} ({name})" if name else f"U+{ord(letter):04X}"


def tidy(text: str) -> str:
    """Return a value in one line with single spaces and composed letters, so that equal words are equal.

    >>> tidy("  red   river\\nclay ")
    'red river clay'
    """
    plain = " ".join(text.split())
    return plain if plain.isascii() else unicodedata.normalize("NFC", plain)
