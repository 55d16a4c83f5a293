"""How finely a quantity was written down: half its last step, which is as well as it can be known."""

from __future__ import annotations

import re

from builder.base.quantity import Quantity
from builder.base.units import find_unit

_NUMBER_AND_UNIT = re.compile(
    r"(?:\d+\s*/\s*(?P<parts>\d+)|(?!0+,)\d+,\d{3}(?!\d)|\d*[.,](?P<decimals>\d+)|\d+)\s*(?P<unit>[^\W\d]*)"
)


def half_width(quantity: Quantity) -> float:
    """Give how far a quantity may be off for its writing alone, in its canonical unit.

    Half of a range where one was written, else half of the last step: `812 g` is known to half a gram, `81.2 g` to
    half a tenth, `1/4 in` to an eighth, `2 lb 3 oz` to half an ounce. Source: JCGM 100:2008, F.2.2.1.

    >>> from builder.base.quantity import parse_quantity
    >>> half_width(parse_quantity("812 g", "mass"))
    0.0005
    """
    if quantity.low < quantity.high:
        return (quantity.high - quantity.low) / 2.0
    written = list(_NUMBER_AND_UNIT.finditer(quantity.raw))
    if not written:
        return abs(quantity.canonical) / 2.0
    last = written[-1]
    unit = find_unit(last["unit"] or quantity.unit, quantity.kind) or find_unit(quantity.unit, quantity.kind)
    step = unit.canonical(1.0) - unit.canonical(0.0) if unit else 1.0
    if last["parts"]:
        step /= int(last["parts"])
    return step * 10.0 ** -len(last["decimals"] or "") / 2.0
