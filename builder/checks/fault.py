"""What is wrong with one value, before it is known where the value stands."""

from __future__ import annotations

from dataclasses import dataclass

LONGEST_SHOWN = 60
"""Characters of a potter's value that a message repeats."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with one value."""

    code: str
    """A word from `codes.CODES`."""
    message: str
    """What is wrong and why, one sentence."""
    help: str
    """What to write instead."""
    offset: int = 0
    """How many characters into the value it stands."""


def shown(text: str) -> str:
    """Show a potter's value in a message: in backticks, in one line, cut where it is long.

    >>> shown("burnt  off")
    '`burnt off`'
    """
    plain = " ".join("".join(letter if letter.isprintable() else " " for letter in text).split())
    if len(plain) > LONGEST_SHOWN:
        plain = plain[: LONGEST_SHOWN - 1].rstrip() + "…"
    return f"`{plain}`"


def either(words: tuple[str, ...] | list[str], joint: str = "or") -> str:
    """Write a list of words for a sentence.

    >>> either(["sound", "cracked", "broken"])
    '`sound`, `cracked` or `broken`'
    """
    ticked = [f"`{word}`" for word in words]
    return ticked[0] if len(ticked) == 1 else f"{', '.join(ticked[:-1])} {joint} {ticked[-1]}"
