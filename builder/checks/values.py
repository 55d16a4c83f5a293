"""One value at a time: text to what its field holds, or a fault with the way out."""

from __future__ import annotations

import re
from collections.abc import Mapping

from builder.base.quantity import Quantity, parse_quantity
from builder.checks.fault import Fault, shown
from builder.checks.limits import longest_text
from builder.checks.words import nearest

LICENCES = (
    "CC-BY-4.0", "CC-BY-SA-4.0", "CC-BY-NC-4.0", "CC-BY-NC-SA-4.0", "CC-BY-ND-4.0", "CC-BY-NC-ND-4.0", "CC0-1.0",
    "CC-BY-3.0", "CC-BY-SA-3.0", "CC-PDDC", "PDDL-1.0", "ODC-By-1.0", "ODbL-1.0", "OGL-UK-3.0", "GFDL-1.3-or-later",
)  # fmt: skip
"""Licences for words, pictures and data, by their SPDX ids."""

_LICENCE_FORM = re.compile(r"[A-Za-z0-9][A-Za-z0-9.]*(-[A-Za-z0-9.]+)+\Z")
_COUNT = re.compile(r"[0-9]{1,9}\Z")
_COUNT_WITH_WORDS = re.compile(r"([0-9]{1,6})\s*[^\W\d_][\w\s]*\Z")
NUMBER_WORDS = {
    word: str(number)
    for number, word in enumerate(
        "none one two three four five six seven eight nine ten eleven twelve".split()
    )
}  # fmt: skip
MUNSELL = re.compile(
    r"(?:(?P<step>\d{1,2}(?:\.\d{1,2})?)\s*(?P<hue>YR|GY|BG|PB|RP|R|Y|G|B|P)\s*"
    r"(?P<value>\d{1,2}(?:\.\d{1,2})?)\s*/\s*(?P<chroma>\d{1,2}(?:\.\d{1,2})?)"
    r"|N\s*(?P<grey>\d{1,2}(?:\.\d{1,2})?)\s*/?\s*0?)\Z",
    re.IGNORECASE | re.ASCII,
)
MOST_CHROMA = 40.0
"""Above any colour in the Munsell renotation (Newhall, Nickerson and Judd 1943); fired clay stays below 12."""


def read_text(text: str, path: str) -> str | Fault:
    """Take words, within the length that the field allows."""
    longest = longest_text(path)
    if len(text) <= longest:
        return text
    return Fault(
        "too-long",
        f"This is {len(text):,} characters long; `{path.rpartition('.')[2]}` takes {longest:,}.",
        "Keep it short here and tell the rest in the story below the front matter.",
    )


def read_count(text: str, name: str, least: int) -> int | Fault:
    """Take a whole number, in figures."""
    if _COUNT.match(text) and int(text) >= least:
        return int(text)
    with_words = _COUNT_WITH_WORDS.match(text)
    figures = NUMBER_WORDS.get(text.casefold()) or (with_words.group(1) if with_words else "")
    meant = f"Write `{name}: {figures}`." if figures and int(figures) >= least else ""
    from_ = "from 0" if least == 0 else "from 1 on"
    return Fault(
        "count-form",
        f"{shown(text)} is not a whole number {from_}, in figures alone.",
        meant or f"Write it like `{name}: 4`, or leave it out.",
    )


def read_quantity(text: str, name: str, kind: str, units: Mapping[str, str]) -> Quantity | Fault:
    """Take a number with its unit; a bare number only where the group declared its unit."""
    read = parse_quantity(text, kind, units.get(kind))
    if isinstance(read, Quantity):
        return read
    return Fault(read.code, read.message, read.help, read.offset)


def read_munsell(text: str) -> str | Fault:
    """Take a colour in Munsell's notation: hue, value/chroma, or N and a value."""
    form = MUNSELL.match(text)
    if form is None:
        return Fault("munsell", f"{shown(text)} is not a colour in Munsell's notation.", _munsell_help(text))
    if form.group("grey") is not None:
        sound = float(form.group("grey")) <= 10
    else:
        sound = (
            float(form.group("step")) <= 10
            and float(form.group("value")) <= 10
            and float(form.group("chroma")) <= MOST_CHROMA
        )
    if sound:
        return text
    scales = f"hue and value go to 10, chroma to about {MOST_CHROMA:g}"
    return Fault(
        "munsell",
        f"{shown(text)} lies outside Munsell's scales: {scales}.",
        "Read the chip again: hue, then value, a slash, chroma, as in `10YR 8/2`.",
    )


def _munsell_help(text: str) -> str:
    loose = re.match(r"(\d{1,2}(?:[.,]\d)?)\s*([RYGBP]{1,2})\s+(\d{1,2})\s*[-,\s]\s*(\d{1,2})\Z", text, re.IGNORECASE)
    if loose:
        step, hue, value, chroma = loose.groups()
        return f"Write `{step.replace(',', '.')}{hue.upper()} {value}/{chroma}`."
    return "Write hue, value, a slash and chroma, as in `10YR 8/2`; put a colour in words into `remark`."


def read_licence(text: str) -> str | Fault:
    """Take the SPDX id of a licence; capitals do not matter."""
    folded = text.casefold()
    for licence in LICENCES:
        if folded == licence.casefold():
            return licence
    near = nearest(text, LICENCES, 0.7)
    if near is None and _LICENCE_FORM.match(text):
        return text
    help_ = f"Did you mean `{near}`?" if near else "Write one like `CC-BY-4.0` or `CC0-1.0`, or leave it out."
    return Fault("licence", f"{shown(text)} is not the SPDX id of a licence.", help_)
