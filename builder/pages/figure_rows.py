"""The figures of one probe as rows of a table: label, best reckoning, 95 % interval, remark."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import NamedTuple

from markupsafe import Markup, escape

from builder.fire.circumstances import FireCircumstances
from builder.heat.figures import FIGURE_KINDS, Figure, FigureKind
from builder.pages.addresses import page_file, relative
from builder.pages.degree_words import degree_words
from builder.pages.marked_numbers import temperature, value_and_interval

_LEVEL = "minutes_above_"
GROUPS = (
    ("How hot", ("start_c", "peak_c", "time_to_peak_min", "equivalent_1h_c", "spread_c", "wall_lag_c")),
    ("How fast", ("heating_rate_c_per_min", "fastest_rise_c_per_min", "steam_rise_c_per_min", "quartz_rise_c_per_min",
                  "quartz_fall_c_per_min", "cooling_rate_c_per_min")),
    ("How long", ("minutes_above", "soak_min")),
    ("Against the method’s window", ("window_min", "over_min", "over_c_min", "short_c")),
    ("How well it was seen", ("largest_gap_min", "n_readings")),
)  # fmt: skip
"""What a reader asks, and the figures that answer it, in the order of the table."""
_CIRCUMSTANCES = (
    ("Wood in this air comes to", "emc_pct", "share"),
    ("Dew point", "dew_point_c", "temperature"),
    ("Drying power of the air", "vpd_kpa", "pressure"),
    ("Fosberg fire-weather index", "fosberg", "count"),
    ("Net heat in the wood", "net_heat_mj", "energy"),
    ("Wood to a kilogram of ware", "wood_per_ware", "mass"),
)


class FigureRow(NamedTuple):
    """One figure, ready to show."""

    kind: str
    """Name in FIGURE_KINDS: its place on the page of figures."""
    label: Markup
    value: Markup
    interval: Markup
    known: bool
    nought: bool
    """Nothing of it, and surely: a row to pass over."""
    remark: str


def figure_rows(figures: Mapping[str, Figure]) -> tuple[FigureRow, ...]:
    """Return a row for each figure that the probe has, in the order of FIGURE_KINDS, one a level of minutes above."""
    return tuple(_row(kind, label, figure) for kind, label, figure in each_figure(figures))


def rows_html(rows: Iterable[FigureRow], page: str) -> Markup:
    """Write rows as the bodies of a page's table, a group each; joined here: a template takes ten times as long."""
    grouped: dict[str, list[str]] = {heading: [] for heading, _ in GROUPS}
    meanings = relative(page, page_file("figures"))
    for row in rows:
        grouped.setdefault(_GROUP_OF.get(row.kind, ""), []).append(_row_html(row, meanings))
    bodies = [
        "\n    ".join((f"<tbody>{_heading(heading)}", *written)) + "</tbody>"
        for heading, written in grouped.items()
        if written
    ]
    return Markup("".join(bodies))  # noqa: S704 - everything in it is HTML of our own


def _row_html(row: FigureRow, meanings: str) -> str:
    return (
        f'<tr class="{"nought" if row.nought else "figure"}"><th scope="row">'
        f'<a href="{meanings}#{row.kind}">{row.label}</a></th>'
        f'<td class="{"value" if row.known else "unknown"}">{row.value}</td><td class="interval">{row.interval}</td>'
        f'<td class="remark">{degree_words(row.remark)}</td></tr>'
    )


def _heading(words: str) -> str:
    return f'<tr class="group"><th scope="rowgroup" colspan="4">{escape(words)}</th></tr>' if words else ""


def circumstance_rows(circumstances: FireCircumstances) -> tuple[FigureRow, ...]:
    """Return a row for each figure of the air and the wood that could be worked out."""
    rows = []
    for label, name, quantity in _CIRCUMSTANCES:
        figure: Figure = getattr(circumstances, name)
        if figure.value is not None:
            value, interval = value_and_interval(figure, quantity)
            rows.append(FigureRow("circumstances", Markup(label), value, interval, True, False, figure.remark))  # noqa: S704
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


_GROUP_OF = {kind: heading for heading, kinds in GROUPS for kind in kinds}
_LABELS = {kind.name: escape(kind.label) for kind in FIGURE_KINDS}


@cache
def _above(level_c: float) -> Markup:
    return Markup("Above {}").format(temperature(level_c))


def _row(kind: FigureKind, label: Markup, figure: Figure) -> FigureRow:
    value, interval = value_and_interval(figure, kind.quantity)
    nought = figure.value == 0 and not interval and not figure.remark
    return FigureRow(kind.name, label, value, interval, figure.value is not None, nought, figure.remark)
