"""The figures of one probe as rows of a table: label, best reckoning, 95 % interval, remark."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from builder.fire.circumstances import FireCircumstances
from builder.heat.figures import FIGURE_KINDS, Figure, FigureKind
from builder.pages.marked_numbers import marked_interval, marked_value, temperature

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


def circumstance_rows(circumstances: FireCircumstances) -> tuple[FigureRow, ...]:
    """Return a row for each figure of the air and the wood that could be worked out."""
    rows = []
    for label, name, quantity in _CIRCUMSTANCES:
        figure: Figure = getattr(circumstances, name)
        if figure.value is not None:
            value, interval = marked_value(figure, quantity), marked_interval(figure, quantity)
            rows.append(FigureRow("circumstances", Markup(label), value, interval, True, figure.remark))  # noqa: S704
    return tuple(rows)


def each_figure(figures: Mapping[str, Figure]) -> Iterator[tuple[FigureKind, Markup, Figure]]:
    """Yield every figure that a probe has, with its kind and label, in the order of FIGURE_KINDS."""
    for kind in FIGURE_KINDS:
        if kind.name == "minutes_above":
            for name in figures:
                if name.startswith(_LEVEL):
                    level = float(name.removeprefix(_LEVEL).removesuffix("_c"))
                    yield kind, Markup("Above {}").format(temperature(level)), figures[name]
        elif kind.name in figures:
            yield kind, Markup("{}").format(kind.label), figures[kind.name]


def _row(kind: FigureKind, label: Markup, figure: Figure) -> FigureRow:
    value = marked_value(figure, kind.quantity)
    interval = marked_interval(figure, kind.quantity)
    return FigureRow(kind.name, label, value, interval, figure.value is not None, figure.remark)
