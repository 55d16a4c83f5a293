"""A column of a readings file to numbers: its decimal sign, the units written in its cells, what is no number."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

import numpy as np

from builder.base.units import find_unit
from builder.readings.curve import Floats
from builder.readings.table import is_missing

_PLAIN = re.compile(r"-?[0-9]{1,9}(?:\.[0-9]{1,9})?")
_CELL = re.compile(r"([-+−–]?)(\d[\d.,' ]*|[.,]\d+)([eE][-+]?\d{1,3})?\s*([^\d\s].*)?", re.ASCII)
_GROUPED = re.compile(r"[1-9]\.[0-9]{3}(?![0-9])")
"""Degrees in thousands, or a few with three decimals."""
_HUNDREDS = re.compile(r"-?[1-9][0-9]{2}(?![0-9.,])")
_UNITS = ("°C", "°F", "mV")


def read_numbers(cells: Sequence[str]) -> tuple[Floats, Counter[str], list[int]]:
    """Read a column's numbers: values with NaN where there is none, units written in cells, indices unread."""
    values = np.full(len(cells), np.nan)
    units: Counter[str] = Counter()
    unread: list[int] = []
    comma: bool | None = None
    if _point_parts_thousands(cells):
        cells = [cell.replace(".", "") if _GROUPED.match(cell) else cell for cell in cells]
    written: list[tuple[int, str]] = []
    for index, cell in enumerate(cells):
        if _PLAIN.fullmatch(cell):
            values[index] = float(cell)
            continue
        match = None if is_missing(cell) else _CELL.fullmatch(cell)
        unit = _unit(match[4]) if match and match[4] else ""
        if comma is None and match and "," in cell:
            comma = comma_is_decimal(cells)
        value = _value(match, bool(comma)) if match and unit is not None else None
        if value is None:
            unread.append(index)
            continue
        values[index] = value
        if unit:
            units[unit] += 1
            written.append((index, unit))
    if len(units) > 1:
        _to_one_unit(values, written, units.most_common(1)[0][0])
    return values, units, unread


def _unit(words: str) -> str | None:
    """Return the unit that is written so, of those that a thermometer shows."""
    unit = find_unit(words, "temperature") or find_unit(words, "voltage")
    return unit.symbol if unit and unit.symbol in _UNITS else None


def _value(match: re.Match[str], comma: bool) -> float | None:
    digits = match[2].replace("'", "").replace(" ", "")
    digits = digits.replace(".", "").replace(",", ".") if comma else digits.replace(",", "")
    if digits.count(".") > 1 or len(digits) > 30:
        return None
    number = float(f"{digits}{match[3] or ''}") if digits != "." else float("nan")
    return -number if match[1] in ("-", "−", "–") else number


def comma_is_decimal(cells: Sequence[str]) -> bool:
    """Tell whether a column's comma begins the decimals.

    It parts thousands where points stand beside it (`1,450.5`), and where numbers of three digits or fewer go
    without it while every comma stands before exactly three (`815`, `1,450`).
    """
    digits = [re.sub(r"[^\d.,]", "", cell) for cell in cells]
    with_comma = [text for text in digits if "," in text]
    if any("." in text for text in digits):
        return any(text.rfind(",") > text.rfind(".") >= 0 for text in with_comma)
    if any(len(text) - text.rfind(",") != 4 or text.startswith("0,") for text in with_comma):
        return True
    return len(with_comma) == sum(bool(text) for text in digits)


def _point_parts_thousands(cells: Sequence[str]) -> bool:
    """Tell whether a column's point parts thousands: it stands before exactly three digits wherever it stands, and
    whole hundreds go without it (`815`, `1.050`). No thermometer writes some readings to the degree and others to a
    thousandth."""
    pointed = [cell for cell in cells if "." in cell]
    return bool(pointed) and all(map(_GROUPED.match, pointed)) and any(map(_HUNDREDS.match, cells))


def _to_one_unit(values: Floats, written: Sequence[tuple[int, str]], unit: str) -> None:
    for index, other in written:
        if other == unit:
            continue
        if "mV" in (other, unit):
            values[index] = np.nan
        elif other == "°F":
            values[index] = (values[index] - 32) / 1.8
        else:
            values[index] = values[index] * 1.8 + 32
