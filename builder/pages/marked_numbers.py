"""Numbers in HTML: what `numbers.py` writes, with each temperature marked so that a script can show another unit.

A temperature is `<span class="t" data-c="742">742 °C</span>`; a difference also has the class `step`, a rate the
class `rate`, an area of degrees times minutes the class `area`, and a number whose unit stands beside it the class
`bare`. `data-c` is always in °C, °C a minute or °C times minutes. What is only for readers of °C has the class `in-c`,
what is only for readers of °F `in-f`.
"""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup, escape

from builder.base.quantity import Quantity
from builder.heat.figures import Figure
from builder.pages import numbers
from builder.pages.numbers import STYLES, figure_decimals, plain, with_unit
from builder.pages.quantities import as_written, quantity_words

_CLASSES = {"temperature": "t", "temperature_step": "t step", "rate": "t rate", "degree_minutes": "t area"}


@lru_cache(maxsize=4096)
def temperature(celsius: float, quantity: str = "temperature", decimals: int = 0, bare: bool = False) -> Markup:
    """Write a temperature, a difference or a rate as a marked span.

    >>> str(temperature(742.3))
    '<span class="t" data-c="742.3">742\\xa0°C</span>'
    """
    number = plain(celsius, decimals)
    words = number if bare else with_unit(number, STYLES[quantity].unit)
    kind = _CLASSES[quantity] + (" bare" if bare else "")
    exact = f"{celsius:.2f}".rstrip("0").rstrip(".")
    exact = "0" if exact == "-0" else exact
    return Markup(f'<span class="{kind}" data-c="{exact}">{words}</span>')  # noqa: S704 - nothing but our own numbers


def marked_value(figure: Figure, quantity: str) -> Markup:
    """Write a figure's value in HTML, `at least` included."""
    return value_and_interval(figure, quantity)[0]


def marked_interval(figure: Figure, quantity: str) -> Markup:
    """Write a figure's 95 % interval in HTML as `719 to 765`; empty where it has none."""
    return value_and_interval(figure, quantity)[1]


@lru_cache(maxsize=1024)
def value_and_interval(figure: Figure, quantity: str) -> tuple[Markup, Markup]:
    """Write both in HTML; kept for a while, because a firing's page and its data ask for the same ones."""
    if quantity not in _CLASSES:
        value, interval = numbers.value_and_interval(figure, quantity)
        return escape(value), escape(interval)
    decimals, tells_more = figure_decimals(figure, quantity)
    interval = Markup("")
    if tells_more and figure.low is not None and figure.high is not None:
        interval = marked_range(figure.low, figure.high, quantity, decimals)
    if figure.value is None:
        return Markup("not known"), interval
    value = temperature(figure.value, quantity, decimals)
    return (Markup("at least ") + value if figure.at_least else value), interval


def marked_range(low: float, high: float, quantity: str = "temperature", decimals: int = 0) -> Markup:
    """Write two ends as `719 to 765`, both marked, the unit left to what stands before."""
    first, last = temperature(low, quantity, decimals, True), temperature(high, quantity, decimals, True)
    return Markup(f"{first} to {last}")  # noqa: S704 - both are marked already


def marked_figure(figure: Figure, quantity: str) -> Markup:
    """Write a figure with its interval in HTML: `742 °C (719 to 765)`."""
    interval = marked_interval(figure, quantity)
    value = marked_value(figure, quantity)
    return value + Markup(' <span class="interval">(') + interval + Markup(")</span>") if interval else value


def window(low: float | None, high: float | None) -> Markup:
    """Write a method's window: `640 to 780 °C`, `from 640 °C`, `up to 780 °C`; empty where there is none."""
    if low is not None and high is not None:
        return temperature(low, bare=True) + Markup(" to ") + temperature(high)
    if low is not None:
        return Markup("from {} up").format(temperature(low))
    return Markup("up to {}").format(temperature(high)) if high is not None else Markup("")


def marked_quantity(quantity: Quantity, written: bool = True) -> Markup:
    """Write a recorded quantity in HTML: a temperature marked; `written` puts its written value beside it."""
    if quantity.kind not in _CLASSES:
        return escape(quantity_words(quantity))
    about = "about " if quantity.approximate else ""
    if quantity.high > quantity.low:
        low = temperature(quantity.low, quantity.kind, bare=True)
        value = Markup(f"{about}{low} to {temperature(quantity.high, quantity.kind)}")  # noqa: S704 - both are marked
    else:
        value = Markup(f"{about}{temperature(quantity.canonical, quantity.kind)}")  # noqa: S704 - it is marked
    if not written:
        return value
    seen = {"°F": "written in-c", "°C": "written in-f"}.get(quantity.unit, "written")
    return value + Markup(f' <span class="{seen}">(written {escape(as_written(quantity))})</span>')  # noqa: S704
