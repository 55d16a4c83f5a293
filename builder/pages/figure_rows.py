"""The figures of one probe as rows of a table: label, best reckoning, 95 % interval, remark."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from markupsafe import Markup, escape

from builder.fire.circumstances import FireCircumstances
from builder.heat.figures import FIGURE_KINDS, Figure, FigureKind
from builder.pages.addresses import page_file, relative
from builder.pages.degree_words import degree_words
from builder.pages.marked_numbers import temperature, value_and_interval

_LEVEL = "minutes_above_"
_CIRCUMSTANCES = (
    ("Wood in this air comes to", "emc_pct", "share"),
    ("Dew point", "dew_point_c", "temperature"),
    ("Drying power of the air", "vpd_kpa", "pressure"),
    ("Fosberg fire-weather index", "fosberg", "count"),
    ("Net heat in the wood", "net_heat_mj", "energy"),
    ("Wood to a kilogram of ware", "wood_per_ware", "mass"),
)


@dataclass(frozen=True, slots=True)
class FigureRow:
    """One figure, ready to show."""

    kind: str
    """Name in FIGURE_KINDS: its place on the page of figures."""
    label: Markup
    value: Markup
    interval: Markup
    known: bool
    remark: str


def figure_rows(figures: Mapping[str, Figure]) -> tuple[FigureRow, ...]:
    """Return a row for each figure that the probe has, in the order of FIGURE_KINDS, one a level of minutes above."""
    return tuple(_row(kind, label, figure) for kind, label, figure in each_figure(figures))


def rows_html(rows: Iterable[FigureRow], page: str) -> Markup:
    """Write rows as those of a page's table; joined here, because a template takes ten times as long."""
    written = [
        f'<tr><th scope="row"><a href="{relative(page, page_file("figures"), row.kind)}">{row.label}</a></th>'
        f'<td class="{"value" if row.known else "unknown"}">{row.value}</td><td class="interval">{row.interval}</td>'
        f'<td class="remark">{degree_words(row.remark)}</td></tr>'
        for row in rows
    ]
    return Markup("\n    ".join(written))  # noqa: S704 - everything in it is HTML of our own


def circumstance_rows(circumstances: FireCircumstances) -> tuple[FigureRow, ...]:
    """Return a row for each figure of the air and the wood that could be worked out."""
    rows = []
    for label, name, quantity in _CIRCUMSTANCES:
        figure: Figure = getattr(circumstances, name)
        if figure.value is not None:
            value, interval = value_and_interval(figure, quantity)
            rows.append(FigureRow("circumstances", Markup(label), value, interval, True, figure.remark))  # noqa: S704
    return tuple(rows)


def each_figure(figures: Mapping[str, Figure]) -> Iterator[tuple[FigureKind, Markup, Figure]]:
    """Yield every figure that a probe has, with its kind and label, in the order of FIGURE_KINDS."""
    for kind in FIGURE_KINDS:
        if kind.name == "minutes_above":
            for name in figures:
                if name.startswith(_LEVEL):
                    yield kind, _above(float(name.removeprefix(_LEVEL).removesuffix("_c"))), figures[name]
        elif kind.name in figures:
            yield kind, _LABELS[kind.name], figures[kind.name]


_LABELS = {kind.name: escape(kind.label) for kind in FIGURE_KINDS}


@cache
def _above(level_c: float) -> Markup:
    return Markup("Above {}").format(temperature(level_c))


def _row(kind: FigureKind, label: Markup, figure: Figure) -> FigureRow:
    value, interval = value_and_interval(figure, kind.quantity)
    return FigureRow(kind.name, label, value, interval, figure.value is not None, figure.remark)
