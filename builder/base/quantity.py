"""A quantity as a potter writes it: `785 °C`, `1,450 °F`, `2 lb 3 oz`, `1 h 20 min`, `about 1/4 in`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import NoReturn

from builder.base import quantity_faults as faults
from builder.base.numerals import NumeralFault, read_numeral
from builder.base.quantity_faults import QuantityFault
from builder.base.units import KINDS, Kind, Unit, find_unit, plain_unit

__all__ = ["Quantity", "QuantityFault", "parse_quantity"]

MAX_LENGTH = 120
"""Longest quantity in characters; `between 1 lb 3 1/2 oz and 1 lb 4 oz, roughly` is half of it."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit, as written and as the program reckons with it."""

    raw: str
    """The words as they were written."""
    kind: str
    """What is measured: a key of `units.KINDS` (`temperature`, `time`, `mass` …)."""
    value: float
    """The number in the unit it was written in (the middle of a range)."""
    unit: str
    """The unit it was written in, by its standard symbol; of `2 lb 3 oz` the first."""
    canonical: float
    """The value in the kind's own unit: °C, minutes, kilograms, millimetres, percent, km/h, mV."""
    low: float
    """Lower end of a range in the canonical unit; equal to `canonical` where no range was written."""
    high: float
    """Upper end of a range in the canonical unit."""
    approximate: bool = False
    """Written with `about`, `ca.`, `~` or the like."""


def parse_quantity(text: str, kind: str, default_unit: str | None = None) -> Quantity | QuantityFault:
    """Read one quantity of a kind, or say why it cannot be read. Raises nothing, whatever the text.

    `default_unit` is the unit of a bare number, where somebody has declared one.

    >>> parse_quantity("1,450 °F", "temperature").canonical
    787.7777777777778
    >>> parse_quantity("785", "temperature").help
    'Write `785 °C`, `785 °F` or `785 K`.'
    """
    plain = _PLAIN.fullmatch(text)
    if plain:
        unit = find_unit(plain[2], kind)
        if unit is not None:
            value = float(plain[1])
            canonical = unit.canonical(value)
            return Quantity(text, kind, value, unit.symbol, canonical, canonical, canonical)
    try:
        return _Reader(text, KINDS[kind], default_unit).quantity()
    except _Refused as refused:
        return refused.fault


_PLAIN = re.compile(r"(-?[0-9]{1,6}(?:\.[0-9]{1,2})?) ?([a-zA-Z°%/]{1,12})")
"""The commonest form; everything else goes the long way."""

_ONE_FOR_ONE = {
    **dict.fromkeys("−–—‒‐‑﹣－", "-"),
    "⁄": "/",
    "∕": "/",
    "′": "'",
    "’": "'",
    "″": '"',
    "”": '"',
    "～": "~",
}
_ABOUT = r"(?:about|approximately|approx|around|roughly|circa|nearly|almost|some|ca|c|~|≈|∼)"
_BEFORE = re.compile(rf"\s*(?P<about>{_ABOUT}(?![a-z])\.?)?\s*(?:(?P<between>between)\s|from\s)?\s*", re.IGNORECASE)
_AFTER = re.compile(r"[ ,(]*(?:approx|approximately|or so|roughly|estimated|est|ca)[.)]*\s*\Z", re.IGNORECASE)
_SIGN = re.compile(r"([+-]?) ?")
_CLOCK = re.compile(r"(\d{1,3}):(\d{2})(?::(\d{2}))?(?!\d)")
_WORDS = re.compile(r"((?:(?! +(?:to|and|or|till|until|by|plus)\b|\.\.)[^\d,;()~≈±+…¼-¾⅐-⅞-])*)", re.IGNORECASE)
_TO = re.compile(r" *(?:-+|…|\.\.+|to\b|till\b|until\b)(?P<about> *(?:about|ca\.?|~))? *", re.IGNORECASE)
_BETWEEN_AND = re.compile(r" *and\b(?P<about> *(?:about|ca\.?|~))? *", re.IGNORECASE)
_PLUS_MINUS = re.compile(r" *(?:±|\+ ?/ ?-|plus or minus) *", re.IGNORECASE)
_JOINER = re.compile(r"[, ]*(?:and\b|\+)? *(?=[\d¼-¾⅐-⅞])", re.IGNORECASE)
_PLAIN_JOINER = re.compile(r"[, ]*(?=[\d¼-¾⅐-⅞])")
_DIGIT = re.compile(r"[\d¼-¾⅐-⅞]")
_PARTED = re.compile(r"\d+(?: +\d+)+")
"""A number that blanks part into pieces of the wrong length: `7 85 °C`."""


class _Refused(Exception):
    def __init__(self, fault: QuantityFault) -> None:
        super().__init__(fault.message)
        self.fault = fault


@dataclass(slots=True)
class _Term:
    """One number with the unit that was written after it."""

    value: float
    unit: Unit | None
    start: int


class _Reader:
    """Reads one quantity from left to right."""

    def __init__(self, raw: str, kind: Kind, default_unit: str | None) -> None:
        self.raw, self.kind, self.at = raw, kind, 0
        self.between = self.about = False
        self.default = find_unit(default_unit, kind.name) if default_unit is not None else find_unit("", kind.name)
        self.text = "".join(" " if sign.isspace() else _ONE_FOR_ONE.get(sign, sign) for sign in raw[: MAX_LENGTH + 1])

    def quantity(self) -> Quantity:
        self.refuse_at_sight()
        before = _BEFORE.match(self.text)
        after = _AFTER.search(self.text)
        if before:
            self.at, self.between = before.end(), bool(before["between"])
        self.about = bool(after or (before and before["about"]))
        self.text = self.text[: after.start()] if after else self.text.rstrip()
        first = self.side()
        spread = self.spread(first)
        second = None if spread is not None else self.second_side()
        if self.at < len(self.text.rstrip(" .,;")):
            self.refuse_rest()
        ends = self.ends(first, second, spread)
        return self.made(first, ends)

    def made(self, first: list[_Term], ends: tuple[float, float]) -> Quantity:
        low, high = min(ends), max(ends)
        middle = low if low == high else (low + high) / 2
        unit = self.unit_of(first[0])
        single = len(first) == 1 and low == high
        value = first[0].value if single else unit.of_canonical(middle)
        return Quantity(self.raw, self.kind.name, value, unit.symbol, middle, low, high, self.about)

    def ends(self, first: list[_Term], second: list[_Term] | None, spread: float | None) -> tuple[float, float]:
        if spread is not None:
            unit, value = self.unit_of(first[0]), first[0].value
            return unit.canonical(value - spread), unit.canonical(value + spread)
        if second is None:
            return self.total(first), self.total(first)
        lone = [side[0] for side in (first, second) if len(side) == 1 and side[0].unit is None]
        if len(lone) == 1:
            lone[0].unit = second[0].unit if lone[0] is first[0] else first[-1].unit
        return self.total(first), self.total(second)

    def total(self, terms: list[_Term]) -> float:
        return sum(self.unit_of(term).canonical(term.value) for term in terms)

    def unit_of(self, term: _Term) -> Unit:
        if term.unit is not None:
            return term.unit
        if self.default is not None:
            return self.default
        raise _Refused(faults.no_unit(self.raw, self.kind, term.start))

    # One side of a range, or the whole quantity

    def side(self) -> list[_Term]:
        terms = [self.term(signed=True)]
        while self.kind.compound and terms[-1].unit is not None and terms[0].value >= 0:
            joiner = (_PLAIN_JOINER if self.between else _JOINER).match(self.text, self.at)
            if joiner is None:
                break
            terms.append(self.next_term(joiner.end(), terms[-1].unit))
        return terms

    def next_term(self, start: int, before: Unit) -> _Term:
        before_joiner, self.at = self.at, start
        try:
            term = self.term(signed=False)
        except _Refused:
            term = _Term(0.0, None, start)
        if term.unit is None and term.value and before.symbol == "h":
            term.unit = find_unit("min", "time")
        if term.unit is None or term.unit.times / term.unit.per >= before.times / before.per:
            self.at = before_joiner
            self.refuse_rest()
        return term

    def term(self, signed: bool) -> _Term:
        start = self.at
        sign = _SIGN.match(self.text, self.at) if signed else None
        at = sign.end() if sign else self.at
        clock = _CLOCK.match(self.text, at)
        if clock:
            return self.clock(clock)
        try:
            numeral = read_numeral(self.text, at, self.kind.grouped)
        except NumeralFault as fault:
            raise _Refused(faults.bad_numeral(self.raw, self.kind, fault, at)) from None
        if numeral is None:
            raise _Refused(self.without_number(at))
        self.at = numeral.end
        value = -numeral.value if sign and sign[1] == "-" else numeral.value
        return _Term(value, self.unit(), start)

    def unit(self) -> Unit | None:
        """Read the words after a number: a unit, or nothing, or a fault."""
        match = _WORDS.match(self.text, self.at)
        words = match[1].strip() if match else ""
        if match is None or not words.strip("."):
            return None
        start = match.end() - len(match[1].lstrip())
        unit = find_unit(words, self.kind.name)
        if unit is None and plain_unit(words) in faults.DEGREES_ALONE and self.default is not None:
            unit = self.default
        if unit is None:
            self.refuse_unit(words, start)
        self.at = start + len(words)
        return unit

    def clock(self, match: re.Match[str]) -> _Term:
        """Read `1:20 h` or `12:30 min`; a clock without its unit is refused."""
        start, self.at = match.start(), match.end()
        first, second, third = int(match[1]), int(match[2]), int(match[3] or 0)
        unit = self.unit() if self.kind.name == "time" else None
        known = unit is not None and unit.symbol in ("h", "min") and not (unit.symbol == "min" and match[3])
        if not known or max(second, third) > 59:
            raise _Refused(faults.clock(match.group(), self.kind, first, second, start))
        return _Term(first + second / 60 + third / 3600, unit, start)

    # What may follow the first side

    def spread(self, first: list[_Term]) -> float | None:
        match = _PLUS_MINUS.match(self.text, self.at)
        if match is None or len(first) > 1:
            return None
        self.at = match.end()
        term = self.term(signed=False)
        if first[0].unit is None:
            first[0].unit = term.unit
        elif term.unit is not None and term.unit is not first[0].unit:
            self.at = term.start
            self.refuse_rest()
        return term.value

    def second_side(self) -> list[_Term] | None:
        match = (_BETWEEN_AND if self.between else _TO).match(self.text, self.at)
        if match is None:
            return None
        self.about = self.about or bool(match["about"])
        if match.end() == len(self.text):
            self.refuse_rest()
        self.at = match.end()
        return self.side()

    # Refusals

    def without_number(self, at: int) -> QuantityFault:
        """Say that no number stands at an index, or what stands before the one that follows: `over 785 °C`."""
        digit = None if _DIGIT.search(self.text, 0, at) else _DIGIT.search(self.text, at)
        default = self.default.symbol if self.default is not None else None
        if digit and isinstance(parse_quantity(self.text[digit.start() :], self.kind.name, default), Quantity):
            return faults.led_in(self.raw[: len(self.text)], at, digit.start())
        return faults.no_number(self.raw, self.kind, at)

    def refuse_at_sight(self) -> None:
        if len(self.raw) > MAX_LENGTH:
            raise _Refused(faults.too_long(self.raw, self.kind))
        if not self.raw.isascii():
            digits = (i for i, sign in enumerate(self.raw) if sign.isdecimal() and not sign.isascii())
            strange = next(digits, None)
            if strange is not None:
                raise _Refused(faults.strange_digit(self.raw, strange))

    def refuse_unit(self, words: str, start: int) -> NoReturn:
        """Refuse words that are no unit, or that go on after one: `785 °C at the rim`."""
        for end in reversed([i for i, sign in enumerate(words) if sign == " "]):
            if find_unit(words[:end], self.kind.name):
                self.at = start + end
                self.refuse_rest()
        raise _Refused(faults.bad_unit(self.raw, self.kind, words, start))

    def refuse_rest(self) -> NoReturn:
        rest = self.text[self.at :]
        start = self.at + len(rest) - len(rest.lstrip(" ,;"))
        parted = _PARTED.match(self.text)
        if parted and parted.end() > start:
            raise _Refused(faults.bad_numeral(self.raw, self.kind, NumeralFault("quantity-none", parted.group()), 0))
        raise _Refused(faults.left_over(self.raw, self.at, start))
