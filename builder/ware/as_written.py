"""How finely a quantity was written down, which is as well as it can be known, and what that makes of a figure."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from builder.base.quantity import Quantity
from builder.base.units import find_unit
from builder.heat.figures import Figure
from builder.readings.uncertainty import propagated, rectangular_sd

NORMAL_95 = 1.959964
"""Half-width of a 95 % interval in standard uncertainties, for a normal error (JCGM 100:2008, G.1.3)."""

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


def figure_of(function: Callable[..., float], values: Sequence[float], half_widths: Sequence[float]) -> Figure:
    """Work out a figure of values known to ± their half-widths, with its 95 % interval, value ± 1.96 u.

    Each half-width is that of a rectangle, u = a/√3; together they are taken as normal. Source: JCGM 100:2008, 4.3.7,
    5.1.2 and G.2.
    """
    steps = [float(rectangular_sd(width)) for width in half_widths]
    value, half = function(*values), NORMAL_95 * propagated(function, values, steps)
    return Figure(value, value - half, value + half)


def figure_of_written(function: Callable[..., float], *quantities: Quantity) -> Figure:
    """Work out a figure of quantities, with the 95 % interval that their writing alone gives it."""
    return figure_of(function, [one.canonical for one in quantities], [half_width(one) for one in quantities])
