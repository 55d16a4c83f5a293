"""Words from a list: taken as written, or with the nearest one suggested."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping

from builder.checks.fault import Fault, either, shown

NOT_RECORDED = frozenset(
    "unknown|not known|not recorded|unrecorded|not measured|n/a|na|n.a.|tbd|tba|todo|to do"
    "|don't know|dont know|no idea|not sure|unsure|forgot|forgotten|-|--|---|–|—|.|..|...|…|?|??|???|x|xx|xxx".split(
        "|"
    )
)
"""What people write for a thing they did not write down."""

_MOST_LISTED = 12


def not_recorded(text: str, name: str) -> Fault | None:
    """Refuse words that only say that nothing was recorded; leaving the field out says that."""
    if text.casefold() not in NOT_RECORDED:
        return None
    return Fault(
        "not-recorded",
        f"{shown(text)} says that it was not recorded; that is said by leaving it out.",
        f"Take `{name}` away, or leave nothing after its colon.",
    )


def nearest(text: str, words: Iterable[str], least: float = 0.6) -> str | None:
    """Return the listed word that is most like a misspelt one, or None where none is near.

    >>> nearest("souned", ["sound", "cracked"])
    'sound'
    """
    by_letters = {bare(word): word for word in words}
    letters = bare(text)
    if letters in by_letters:
        return by_letters[letters]
    close = difflib.get_close_matches(letters, by_letters, 1, least)
    return by_letters[close[0]] if close else None


def bare(text: str) -> str:
    """Return a word's letters and figures alone, in lower case."""
    return "".join(letter for letter in text.casefold() if letter.isalnum())


def read_word(text: str, listed: tuple[str, ...], what: str, names: Mapping[str, str] | None = None) -> str | Fault:
    """Take one word of a list; capitals and spaces do not matter.

    `what` says what the words are, for the message; `names` holds longer names with their words, for suggestions only.
    """
    folded = " ".join(text.casefold().split())
    for word in listed:
        if folded == word.casefold():
            return word
    named = nearest(text, names or (), 0.8)
    meant = names[named] if names and named else nearest(text, listed)
    message = f"{shown(text)} is not {what}."
    if not listed:
        return Fault("not-listed", message, "There are none yet; add it there.")
    if len(listed) > _MOST_LISTED:
        choice = f"{either(listed[:_MOST_LISTED])} … ({len(listed)} in all)"
    else:
        choice = either(listed)
    if meant is not None and len(listed) > 1:
        return Fault("not-listed", message, f"Did you mean `{meant}`? It can be {choice}.")
    return Fault("not-listed", message, f"Write {choice}.")
