"""Temperatures in sentences of the program's own, marked so that a reader can have them in °F.

`600 °C` is a temperature, `4 °C either way` a difference and `60 °C a minute` a rate: they turn into °F by different
rules, and the words around a number tell which it is. What a potter wrote never goes through here: it stays as it is.
"""

from __future__ import annotations

import re
from functools import lru_cache

from markupsafe import Markup, escape

_NUMBER = r"[+−-]?\d[\d,]*(?:\.\d+)?"
_DEGREES = re.compile(
    rf"(?:(?P<low>{_NUMBER})(?P<joint> to | and |–|\xa0to\xa0))?(?P<high>{_NUMBER})(?P<space>[ \xa0])°C"
    r"(?P<per>/min|·min| a minute| an hour)?"
)
_STEP_BEFORE = re.compile(
    r"(?:±|less|within|(?<!minutes )(?<!hours )by|by up to|by about|the last|uncertainty of|time constant is"
    r"|known to|every|[-−+]) ?$"
)
_STEP_AFTER = re.compile(
    r"^,? ?(?:either way|at the widest|more|less|below|above both|further|apart|after minutes|after hours|for every"
    r"|/ \(time)"
)
_NEAR = 40
"""Letters before a number that are looked at: more than any of these words has, and those that it must not follow."""
_SHIFT_AFTER = re.compile(rf"^ at {_NUMBER} °C")


@lru_cache(maxsize=4096, typed=True)
def degree_words(words: str) -> Markup:
    """Mark every temperature, difference and rate in °C in a sentence of the program's own.

    >>> str(degree_words("It never reached 600 °C."))
    'It never reached <span class="t" data-c="600">600 °C</span>.'
    >>> str(degree_words("It is 4 °C either way."))
    'It is <span class="t step" data-c="4">4 °C</span> either way.'
    """
    if "°C" not in words:
        return escape(words)
    parts, at = [], 0
    for found in _DEGREES.finditer(words):
        parts.append(escape(words[at : found.start()]))
        parts.append(
            _marked(found, _kind(found, words[max(0, found.start() - _NEAR) : found.start()], words[found.end() :]))
        )
        at = found.end()
    return Markup("").join([*parts, escape(words[at:])])


def _kind(found: re.Match[str], before: str, after: str) -> str:
    """Tell a temperature from a difference, a rate or an area."""
    per = found["per"] or ""
    if per in ("/min", " a minute", " an hour"):
        return "t rate"
    if per == "·min":
        return "t area"
    shifted = found["high"][0] in "+−-" and _SHIFT_AFTER.match(after)
    return "t step" if shifted or _STEP_BEFORE.search(before) or _STEP_AFTER.match(after) else "t"


def _marked(found: re.Match[str], kind: str) -> Markup:
    low = Markup("")
    if found["low"]:
        low = _span(f"{kind} bare", found["low"], found["low"]) + found["joint"]
    per = found["per"] or ""
    unit = f"{found['space']}°C" + (per if per in ("/min", "·min") else "")
    said = "" if per in ("/min", "·min") else per
    return low + _span(kind, found["high"], found["high"] + unit) + said


def _span(kind: str, number: str, words: str) -> Markup:
    exact = number.replace(",", "").replace("−", "-").removeprefix("+")
    return Markup(f'<span class="{kind}" data-c="{exact}">{words}</span>')  # noqa: S704 - nothing but a number found
