"""A method's rule of success, in words."""

from __future__ import annotations

from builder.pages.numbers import listed
from builder.settings import Method

_OUTCOMES = {
    "survival": "came through {}",
    "carbon": "carbon {}",
    "paint": "paint {}",
    "ring": "ring {}",
}


def rule_words(method: Method) -> str:
    """Say what a method counts as success: `came through sound, carbon cleared and paint held or faded`.

    >>> rule_words(Method("a", "A", "pit", "", {"survival": ("sound",), "paint": ("held", "faded")}))
    'came through sound and paint held or faded'
    """
    told = [
        _OUTCOMES.get(outcome, f"{outcome} {{}}").format(listed(words, "or"))
        for outcome, words in method.success.items()
    ]
    return listed(told) if told else "nothing yet; its pieces stay unjudged"
