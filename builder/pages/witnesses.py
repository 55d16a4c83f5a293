"""What else told of the heat: witness cones and the colour of the glow, each with what it is worth."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from markupsafe import Markup, escape

from builder.archive.archive import Record
from builder.base.cones import COLUMNS_HOLD_C, FASTEST_C_PER_H, SOURCE, Cone
from builder.heat.figures import Figure
from builder.heat.rates import rise_between_c_per_min
from builder.pages.marked_numbers import temperature
from builder.pages.numbers import listed, plain
from builder.readings.curve import Curve
from builder.ware.glow import WORTH_C, Read, glow_range_c, read_glow
from builder.ware.witness import ConeWitness, columns_c, cone_witness, outside_columns


@dataclass(frozen=True, slots=True)
class Witnessed:
    """One witness: what was seen, and sentences of what it says."""

    label: str
    seen: str
    sentences: tuple[Markup, ...]


def witnesses(record: Record) -> tuple[Witnessed, ...]:
    """Return the other witnesses of a firing, none where none was recorded."""
    witness = record.firing.witness
    if witness is None:
        return ()
    found = []
    cones = cone_witness(witness)
    if cones is not None:
        told = [f"{listed(words)} {did}" for words, did in _lists(witness.cones_down, witness.cones_standing) if words]
        found.append(Witnessed("Witness cones", "; ".join(told), tuple(_cone_sentences(cones, record))))
    if witness.glow:
        sentences = tuple(_glow_sentences(read_glow(witness.glow), record.figure("peak_c")))
        found.append(Witnessed("Colour of the glow", witness.glow, sentences))
    return tuple(found)


def _lists(down: tuple[str, ...], standing: tuple[str, ...]) -> tuple[tuple[tuple[str, ...], str], ...]:
    return ((down, "went down"), (standing, "stood"))


def _cone_sentences(cones: ConeWitness, record: Record) -> list[Markup]:
    told = [_column_sentence(cone, did) for cone, did in ((cones.down, "went down"), (cones.standing, "stood")) if cone]
    if cones.contradicts:
        told.append(Markup("The two contradict one another, so these cones bear nothing out."))
    if cones.unknown:
        told.append(Markup("No published column: {}.").format(listed(cones.unknown)))
    if cones.down or cones.standing:
        told.append(_order_sentence(_last_rise_c_per_min(record.curves.ware_curve)))
    return told


def _last_rise_c_per_min(curve: Curve | None) -> float | None:
    """Give the mean rise over the last 100 °C below the hottest reading, for which the columns hold; None if unread."""
    if curve is None:
        return None
    top_c = float(curve.celsius.max())
    rise = float(rise_between_c_per_min(curve.minutes, curve.celsius, top_c - COLUMNS_HOLD_C, top_c))
    return None if np.isnan(rise) else rise


def _column_sentence(cone: Cone, did: str) -> Markup:
    low, high = columns_c(cone)
    memory = "" if cone.seen else ", from memory of the chart"
    span = Markup("{} to {}").format(temperature(low, bare=True), temperature(high)) if low < high else temperature(low)
    kiln = "at 60 to 300 °C an hour it" if cone.large_60_c else f"the small one, at {FASTEST_C_PER_H:.0f} °C an hour,"
    return Markup("Cone {} {}: in a kiln {} goes down at {}{}.").format(cone.name, did, kiln, span, memory)


def _order_sentence(rise_c_per_min: float | None) -> Markup:
    """Say why the columns hold no temperature of this fire, or that they may."""
    if not outside_columns(rise_c_per_min):
        return Markup("Over its last 100 °C the fire rose slowly enough for the columns ({}).").format(SOURCE)
    words = (
        "A cone needs time as well as heat. Over its last 100 °C this fire rose faster than any published column"
        if rise_c_per_min is not None
        else "A cone needs time as well as heat, and an open fire mostly rises faster than any published column"
    )
    rate = "" if rise_c_per_min is None else f"{plain(round(rise_c_per_min * 60.0, -1))} °C an hour against "
    against = f"{rate}{FASTEST_C_PER_H:.0f} °C an hour"
    return Markup(
        "{} ({}): the cones tell which of two such fires did more, and give it no temperature. Columns: {}."
    ).format(words, against, SOURCE)


def _glow_sentences(reads: tuple[Read, ...], peak: Figure | None) -> list[Markup]:
    span = glow_range_c(reads)
    if span is None:
        return [Markup("Neither of the two published scales of glowing colours has it.")]
    scales = Markup("; ").join(_scale_words(read) for read in reads)
    least, most = WORTH_C
    worth = Markup("{}. A colour is worth ± {} to {}: together they say {} to {}.").format(
        scales,
        plain(least),
        temperature(most, "temperature_step"),
        temperature(round(span[0], -1), bare=True),
        temperature(round(span[1], -1)),
    )
    return [worth, *_against_peak(span, peak)]


def _scale_words(read: Read) -> Markup:
    names = listed([shade.name for shade in read.shades], "or")
    if read.low_c == read.high_c:
        return Markup("{} has {} at {}").format(read.scale.author, names, temperature(read.low_c))
    ends = temperature(read.low_c, bare=True), temperature(read.high_c)
    return Markup("{} has {} at {} to {}").format(read.scale.author, names, *ends)


def _against_peak(span: tuple[float, float], peak: Figure | None) -> list[Markup]:
    """Compare the colour with the hottest reading of the ware's probe."""
    if peak is None or peak.value is None:
        return []
    low = peak.value if peak.low is None else peak.low
    high = float("inf") if peak.at_least else peak.value if peak.high is None else peak.high
    if high < span[0]:
        return [escape("The hottest reading lies below that, by more than the two are worth.")]
    if low > span[1]:
        return [escape("The hottest reading lies above that, by more than the two are worth.")]
    return [escape("The hottest reading agrees with it.")]
