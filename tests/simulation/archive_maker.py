"""Archives whose truth is known: what the fires do is drawn by a rule, what is written down of it has gaps and errors.

Everything comes from a seed. Two methods, a window that is real, pieces that share their fire's luck, peaks read with
an error, outcomes that somebody forgot, and conditions that do nothing at all.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.random import Generator

from builder.archive.archive import Record
from builder.base.quantity import Quantity
from builder.checks.firing import ConditionValue, Firing, Piece
from builder.heat.figures import Figure, FiringHeat, ProbeHeat
from builder.readings.curve import NO_CURVES, Floats
from builder.settings import Group, Method, Potter, Settings
from builder.ware.outcome import judge

SUCCESS = {"survival": ("sound",), "carbon": ("cleared",), "paint": ("held",)}
SETTINGS = Settings(
    Group("Nobody"),
    {"a": Potter("a", "A")},
    {key: Method(key, key, "ground", "", SUCCESS) for key in ("first", "second")},
)


@dataclass(frozen=True, slots=True)
class Truth:
    """What is really so."""

    clears_c: float = 680.0
    """Where carbon clears in half of the pieces of a fire with ordinary luck, °C."""
    burns_c: float = 830.0
    """Where paint is lost in half of them."""
    width_c: float = 28.0
    """Degrees in which the logit of either changes by one."""
    luck: float = 0.6
    """Standard deviation of a fire's own luck on the logit scale, for each outcome by itself."""
    sound: tuple[float, float] = (1.6, 0.6)
    """Logit of coming through sound, by method."""
    peaks_c: tuple[float, float] = (745.0, 75.0)
    """Mean and standard deviation of the true peaks."""
    read_sd_c: float = 15.0
    """Standard error of a peak as read, stated as such."""
    forgotten: float = 0.12
    """Share of outcomes that nobody wrote down."""
    forgotten_of_bad: float = 1.0
    """How many times as often an outcome is forgotten that came out badly."""
    forgotten_of_lost: float = 0.0
    """Share of lost pieces of which nobody wrote down anything but the loss, beside what is forgotten anyway."""
    largest: int = 5
    """Pieces a firing: one to so many, evenly."""
    numbers: int = 8
    words: int = 8
    """Conditions that have nothing to do with anything, as numbers and as words."""
    missing: float = 0.2
    """Share of firings that did not record a condition."""

    def chances(self, peak_c: Floats, luck: Floats, method: int) -> Floats:
        """Chance of each outcome at a peak, with the fire's luck of each; shape (3, …): sound, carbon, paint."""
        logits = np.stack(
            [
                np.broadcast_to(self.sound[method], peak_c.shape),
                (peak_c - self.clears_c) / self.width_c,
                (self.burns_c - peak_c) / self.width_c,
            ]
        )
        return np.asarray(1 / (1 + np.exp(-(logits + luck))), dtype=np.float64)

    def rate(self, method: int, draws: int = 400_000) -> float:
        """True rate of success of a method over all fires, by plain drawing."""
        chance = np.random.default_rng(1000 + method)
        peaks = chance.normal(*self.peaks_c, draws)
        return float(self.chances(peaks, chance.normal(0, self.luck, (3, draws)), method).prod(axis=0).mean())

    def ends_c(self, level: float = 0.5) -> tuple[float, float]:
        """True ends of the window: where carbon cleared and paint held, each averaged over luck, reach the level."""
        grid = np.arange(400.0, 1100.0, 0.5)
        nodes, weights = np.polynomial.hermite_e.hermegauss(41)
        weights = weights / weights.sum()
        luck = np.broadcast_to(self.luck * nodes[None, :, None], (3, len(nodes), 1))
        averaged = np.einsum("k,okt->ot", weights, self.chances(grid[None, :] + 0 * nodes[:, None], luck, 0))
        inside = grid[averaged[1] * averaged[2] >= level]
        return float(inside[0]), float(inside[-1])


def make_records(truth: Truth, firings: int, seed: int) -> list[Record]:
    """Make an archive: three firings in five by the first method, the others by the second."""
    chance = np.random.default_rng(seed)
    return [_record(truth, number, int(number % 5 >= 3), chance) for number in range(firings)]


def _record(truth: Truth, number: int, method: int, chance: Generator) -> Record:
    peak = chance.normal(*truth.peaks_c)
    odds = truth.chances(np.array(peak), chance.normal(0, truth.luck, 3), method)
    pieces = tuple(_piece(truth, odds, chance) for _ in range(int(chance.integers(1, truth.largest + 1))))
    read, half = peak + chance.normal(0, truth.read_sd_c), 1.959964 * truth.read_sd_c
    heat = FiringHeat((ProbeHeat("wall", {"peak_c": Figure(read, read - half, read + half)}),), 0)
    key = ("first", "second")[method]
    day = date(2000, 1, 1) + timedelta(days=number)
    conditions = _conditions(truth, chance)
    firing = Firing(f"{day}-fire", "", "Fire", day, "a", key, pieces, "", conditions=conditions)
    judged = tuple(judge(piece, SETTINGS.methods[key], painted=True) for piece in pieces)
    return Record(number + 1, firing, NO_CURVES, heat, judged)


def _piece(truth: Truth, odds: Floats, chance: Generator) -> Piece:
    came = chance.random(3) < odds
    luck = chance.random(3)  # the first is free for the loss: survival is always written down
    told = luck >= truth.forgotten * np.where(came, 1.0, truth.forgotten_of_bad)
    if not came[0] and luck[0] < truth.forgotten_of_lost:
        told[:] = False
    return Piece(
        "tile",
        "sound" if came[0] else "cracked",
        carbon=("cleared" if came[1] else "core") if told[1] else None,
        paint=("held" if came[2] else "burnt off") if told[2] else None,
    )


_NUMBERS = (
    ("clay.wall", "length"),
    ("clay.dried", "time"),
    ("clay.temper_share", "share"),
    ("fuel.mass", "mass"),
    ("fuel.moisture", "share"),
    ("weather.air", "temperature"),
    ("weather.humidity", "share"),
    ("weather.wind", "speed"),
)
_WORDS = (
    "clay.body",
    "surface.slip",
    "surface.finish",
    "fuel.form",
    "fuel.stack",
    "setting.ground",
    "setting.support",
    "setting.pots",
)


def _conditions(truth: Truth, chance: Generator) -> dict[str, ConditionValue]:
    found: dict[str, ConditionValue] = {}
    for path, kind in _NUMBERS[: truth.numbers]:
        value = float(chance.normal(10, 2))
        if chance.random() >= truth.missing:
            found[path] = Quantity("", kind, value, "", value, value, value)
    for path in _WORDS[: truth.words]:
        word = str(chance.choice(["this", "that", "other"]))
        if chance.random() >= truth.missing:
            found[path] = word
    return found
