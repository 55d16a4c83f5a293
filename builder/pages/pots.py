"""The pots of one firing, ready for their shelf: marks, words for every outcome, verdict, measures, colour."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from builder.charts.marks import pot_mark
from builder.charts.profiles import pot_profile
from builder.checks.firing import Piece
from builder.entries.fields import OUTCOMES
from builder.pages.numbers import figure_words
from builder.pages.sentences import verdict_words
from builder.settings import Method
from builder.ware.hardness import band_words, mohs_band
from builder.ware.measures import PieceMeasures, piece_measures
from builder.ware.outcome import JudgedPiece

_MEASURES = (
    ("Water absorption", "absorption_pct", "share"),
    ("Apparent porosity", "porosity_pct", "share"),
    ("Bulk density", "bulk_density_g_cm3", "density"),
    ("Shrinkage, wet to dry", "drying_pct", "share"),
    ("Shrinkage, dry to fired", "firing_pct", "share"),
    ("Shrinkage, wet to fired", "shrinkage_pct", "share"),
)


@dataclass(frozen=True, slots=True)
class Pot:
    """One line of pieces on the shelf."""

    name: str
    count: int
    form: str
    drawing: Markup
    """Its form and damage in section."""
    mark: Markup
    """Its outcome by shape."""
    outcomes: tuple[str, ...]
    """How it came out, in words, each outcome the entry tells or its method counts."""
    verdict: str
    """`yes`, `no` or `unjudged`, for the style sheet."""
    verdict_words: str
    remark: str
    hardness: str
    colour: str
    swatch: str
    """The colour as `#rrggbb` for the screen; empty where there is none."""
    measures: tuple[tuple[str, str], ...]
    """Label and value of what was weighed and marked."""

    @property
    def has_more(self) -> bool:
        """Tell whether there is more to say of it than fits on the shelf."""
        return bool(self.measures or self.remark or self.hardness)


def pots(pieces: tuple[JudgedPiece, ...], method: Method, painted: bool) -> tuple[Pot, ...]:
    """Make the pots of a firing ready to show."""
    return tuple(_pot(judged, method, painted) for judged in pieces)


def mark_of(judged: JudgedPiece) -> Markup:
    """Draw the mark of a piece: its shape by how it came through."""
    return Markup(pot_mark(judged.piece.survival, judged.success.value))  # noqa: S704


def _pot(judged: JudgedPiece, method: Method, painted: bool) -> Pot:
    piece, measured = judged.piece, piece_measures(judged.piece)
    return Pot(
        name=piece.name,
        count=piece.count,
        form=piece.form if piece.form and piece.form.casefold() != piece.name.casefold() else "",
        drawing=_drawing(piece.form or piece.name, piece.survival),
        mark=mark_of(judged),
        outcomes=_outcomes(piece, method, painted),
        verdict=judged.success.value,
        verdict_words=verdict_words(judged),
        remark=piece.remark or "",
        hardness=_hardness(piece.hardness),
        colour=piece.colour or "",
        swatch=measured.swatch.hex if measured.swatch else "",
        measures=_measures(measured),
    )


@lru_cache(maxsize=512)
def _drawing(form: str, survival: str) -> Markup:
    return Markup(pot_profile(form, survival))  # noqa: S704


def _hardness(words: str | None) -> str:
    """Write a piece's hardness as it was written, with its band on Mohs' scale where the words tell one."""
    band = mohs_band(words) if words else None
    return f"{words} ({band_words(band)})" if band is not None else words or ""


def _outcomes(piece: Piece, method: Method, painted: bool) -> tuple[str, ...]:
    told = [piece.survival]
    for outcome in OUTCOMES[1:]:
        word: str | None = getattr(piece, outcome)
        if outcome == "paint" and (word == "none" or (word is None and not painted)):
            told.append("no paint")
        elif word:
            told.append(f"{word} ring" if outcome == "ring" else f"{outcome} {word}")
        elif outcome in method.success:
            told.append(f"{outcome} not recorded")
    return tuple(told)


def _measures(measured: PieceMeasures) -> tuple[tuple[str, str], ...]:
    told = []
    for label, name, quantity in _MEASURES:
        figure = getattr(measured, name)
        if figure is not None:
            told.append((label, figure.remark if figure.value is None else figure_words(figure, quantity)))
    return tuple(told)
