"""What a quantity's faults say: each names what is wrong, and gives the value back mended where that can be done."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from dataclasses import dataclass

from builder.base.numerals import NumeralFault, read_numeral
from builder.base.units import Kind, find_unit, kinds_of, plain_unit, spellings


@dataclass(frozen=True, slots=True)
class QuantityFault:
    """Why some words are no quantity of the kind that was asked for."""

    code: str
    """A code of `codes.CODES`."""
    message: str
    """What is wrong and why, one sentence."""
    help: str
    """What to write instead, with the value as it was written where that is possible."""
    offset: int
    """Index of the character where it goes wrong."""


DEGREES_ALONE = frozenset({"°", "deg", "degree", "degrees"})
"""Words that leave open which degrees are meant."""


def too_long(raw: str, kind: Kind) -> QuantityFault:
    """Say that a value is longer than any quantity."""
    return QuantityFault(
        "quantity-too-large",
        f"The value is {len(raw):,} characters long; {kind.words} needs a few.",
        f"Write a number and its unit, like `{kind.example}`.",
        0,
    )


def strange_digit(raw: str, at: int) -> QuantityFault:
    """Say that a digit is not one of 0 to 9."""
    mended = "".join(str(int(sign)) if sign.isdecimal() else sign for sign in raw)
    return QuantityFault(
        "quantity-digits",
        f"`{raw[at]}` is not one of the digits 0 to 9, though it may look like one.",
        f"Write `{mended.strip()}`.",
        at,
    )


def no_number(raw: str, kind: Kind, at: int) -> QuantityFault:
    """Say that a number is missing."""
    written = raw.strip()
    return QuantityFault(
        "quantity-none",
        f"`{written}` has no number where one is needed." if written else "There is no number here.",
        f"Write {kind.words} like `{kind.example}`, or leave the field out where it was not recorded.",
        min(at, max(len(raw) - 1, 0)),
    )


def led_in(raw: str, at: int, number: int) -> QuantityFault:
    """Say that words stand before the quantity, from `at` to where its `number` begins."""
    return _extra(raw[at:number], "before", raw[number:], at)


def bad_numeral(raw: str, kind: Kind, fault: NumeralFault, at: int) -> QuantityFault:
    """Say why a number cannot be read, with both readings where it has two."""
    if fault.code == "quantity-ambiguous":
        rest = raw[at + len(fault.written) :].strip() or kind.canonical
        one, other = (f"`{reading} {rest}`" for reading in fault.readings)
        return QuantityFault(fault.code, f"`{fault.written}` can be read in two ways.", f"Write {one} or {other}.", at)
    if fault.code == "quantity-too-large":
        return QuantityFault(
            fault.code,
            f"`{fault.written}` is larger than any quantity of a firing.",
            f"Look for a digit too many; {kind.words} looks like `{kind.example}`.",
            at,
        )
    return QuantityFault(
        fault.code,
        f"`{fault.written}` cannot be read as a number.",
        f"Write {kind.words} like `{kind.example}`.",
        at,
    )


def clock(written: str, kind: Kind, first: int, second: int, at: int) -> QuantityFault:
    """Say that a value with a colon has no one meaning."""
    if kind.name == "time":
        help_ = f"Write `{first} min {second} s` or `{first} h {second} min`."
    else:
        help_ = f"Write {kind.words} with its unit, like `{kind.example}`."
    message = f"`{written}` may be a time of day, hours and minutes, or minutes and seconds."
    return QuantityFault("quantity-clock", message, help_, at)


def no_unit(raw: str, kind: Kind, at: int) -> QuantityFault:
    """Say that a number lacks its unit, and offer it with each likely one."""
    share = _as_share(raw) if kind.canonical == "%" else None
    if share is not None:
        message = f"`{raw.strip()}` has no unit: it may be so much of one, or of a hundred."
        return QuantityFault("quantity-unit", message, f"Write `{share} %` or `{raw.strip()} %`.", at)
    *options, last = (f"`{raw.strip()} {unit.symbol}`" for unit in kind.units[:3])
    choice = f"{', '.join(options)} or {last}" if options else last
    message = f"`{raw.strip()}` has no unit, and nothing says which one is meant."
    return QuantityFault("quantity-unit", message, f"Write {choice}.", at)


def _as_share(raw: str) -> str | None:
    """Return a bare number below one as it would be written of a hundred: `20` for `0.2` and for `1/5`."""
    numeral = read_numeral(raw.strip(), 0, grouped=False)
    if numeral is None or numeral.end < len(raw.strip()) or not 0.001 <= numeral.value < 1:
        return None
    return f"{100 * numeral.value:.3g}"


def bad_unit(raw: str, kind: Kind, words: str, at: int) -> QuantityFault:
    """Say what is wrong with the words after a number that are no unit of the kind."""
    number = raw[:at].strip()
    if plain_unit(words) in DEGREES_ALONE and kind.canonical == "°C":
        message = f"`{words}` does not say which degrees."
        return QuantityFault("quantity-unit", message, f"Write `{number} °C` or `{number} °F`.", at)
    others = kinds_of(words)
    if others:
        return QuantityFault(
            "quantity-kind",
            f"`{words}` measures {others[0].words}; {kind.words} is wanted here.",
            f"Write {kind.words}, like `{kind.example}`.",
            at,
        )
    message = f"`{words}` is not a unit for {kind.words}."
    return QuantityFault("quantity-unit-unknown", message, _suggestion(number, words, kind), at)


def _suggestion(number: str, words: str, kind: Kind) -> str:
    near: Sequence[str] = difflib.get_close_matches(plain_unit(words), spellings(kind.name), 1, 0.7)
    unit = find_unit(near[0], kind.name) if near else None
    if unit is not None:
        return f"Did you mean `{number} {unit.symbol}`?"
    symbols = [unit.symbol for unit in kind.units if unit.symbol]
    return (
        f"Write it in {', '.join(symbols[:-1])} or {symbols[-1]}, like `{kind.example}`."
        if len(symbols) > 1
        else (f"Write it like `{kind.example}`.")
    )


def left_over(raw: str, end: int, at: int) -> QuantityFault:
    """Say that something stands after the quantity, which ends before `end`."""
    return _extra(raw[at:], "after", raw[:end], at)


def _extra(stray: str, side: str, kept: str, at: int) -> QuantityFault:
    return QuantityFault(
        "quantity-extra",
        f"`{stray.strip()}` stands {side} the quantity; one quantity is wanted here.",
        f"Write `{kept.strip()}`, and tell the rest in the story.",
        at,
    )
