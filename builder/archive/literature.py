"""Published open firings beside the group's own: only what was seen in print, with where it stands.

Abstracts and first pages could be read, not the tables behind them; no published loss rate by method was found, so
none stands here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.archive.archive import Record
from builder.settings import Settings

OPEN_KINDS = ("ground", "pit", "trench")
KILN_KINDS = ("kiln",)
EVERY_KIND = OPEN_KINDS + KILN_KINDS


@dataclass(frozen=True, slots=True)
class Published:
    """One published finding about a figure."""

    figure: str
    """Name of the figure it speaks of."""
    words: str
    """What was found, in a sentence."""
    kinds: tuple[str, ...]
    """Kinds of fire it speaks of."""
    source: str
    low: float | None = None
    """The published range, in the figure's unit; None where no number was given."""
    high: float | None = None


MAGGETTI = "Maggetti, Neururer and Ramseyer 2011, Applied Clay Science 53:500 (abstract)"
KOSTADINOVA = "Kostadinova-Avramova, Dimitrov and Kosterov, Archaeometry (abstract)"
GOSSELAIN = "Gosselain 1992, Journal of Archaeological Science 19:243 (abstract)"
LIVINGSTONE_SMITH = "Livingstone Smith 2001, Journal of Archaeological Science 28:991 (abstract)"
THER = "Thér 2014, Archaeometry (abstract)"
PLAINS = "Goodwin and Hollenback 2016 (abstract)"

PUBLISHED: tuple[Published, ...] = (
    Published(
        "time_to_peak_min",
        "In three surface firings with thermocouples in the pot the hottest moment came after 12 to 22 minutes.",
        ("ground",),
        MAGGETTI,
        12.0,
        22.0,
    ),
    Published(
        "peak_c",
        "In 16 firings open hearths and kilns reached very similar temperatures, 800 to 900 °C.",
        EVERY_KIND,
        KOSTADINOVA,
        800.0,
        900.0,
    ),
    Published(
        "peak_c",
        "Pottery of the Plains was fired below 750 °C throughout, some of it below 500 °C.",
        OPEN_KINDS,
        PLAINS,
        None,
        750.0,
    ),
    Published(
        "peak_c",
        "Temperatures overlap largely between kinds of fire, and vary much within one fire and on one pot; the rate of "
        "heating and the time of exposure are proposed to tell fires apart instead.",
        EVERY_KIND,
        GOSSELAIN,
    ),
    Published(
        "peak_c",
        "Of 72 experimental firings only those with one space and those with two (pots apart from the fuel) differed.",
        EVERY_KIND,
        THER,
    ),
    Published(
        "spread_c",
        "Within one surface firing temperatures differed by up to 390 °C, and on one section through a pot by up to "
        "220 °C.",
        ("ground",),
        MAGGETTI,
        None,
        390.0,
    ),
    Published(
        "heating_rate_c_per_min",
        "Duration, hottest moment, rate of heating and soak are analysed together; earlier authors are quoted that "
        "fuel has no influence on the hottest moment. The rates themselves could not be read.",
        EVERY_KIND,
        LIVINGSTONE_SMITH,
    ),
    Published(
        "cooling_rate_c_per_min",
        "Only cooling told open hearths from kilns; above 800 °C the time of soaking did not depend on the structure.",
        EVERY_KIND,
        KOSTADINOVA,
    ),
)


@dataclass(frozen=True, slots=True)
class Own:
    """The group's own firings in one figure."""

    firings: int
    """Firings in which it is known, those left out that are known only as "at least"."""
    lowest: float
    middle: float
    highest: float
    inside: int | None
    """How many lie within the published range; None where there is none to lie in."""


@dataclass(frozen=True, slots=True)
class Beside:
    """A published finding with the group's own firings of the same kinds beside it."""

    published: Published
    own: Own | None
    """None where the group has no such firing, or the figure is known of none."""


def beside_literature(records: Sequence[Record], settings: Settings) -> tuple[Beside, ...]:
    """Put the group's firings beside each published finding."""
    by_kind: Mapping[str, list[Record]] = {kind: [] for kind in EVERY_KIND}
    for record in records:
        by_kind[settings.methods[record.firing.method].kind].append(record)
    return tuple(
        Beside(one, _own(one, [record for kind in one.kinds for record in by_kind[kind]])) for one in PUBLISHED
    )


def _own(published: Published, records: Sequence[Record]) -> Own | None:
    figures = (record.figure(published.figure) for record in records)
    known = [one.value for one in figures if one is not None and one.value is not None and not one.at_least]
    if not known:
        return None
    low, high = published.low, published.high
    ranged = low is not None or high is not None
    inside = sum((low is None or low <= value) and (high is None or value <= high) for value in known)
    from statistics import median  # only now: it loads all of Python's kinds of numbers

    return Own(len(known), min(known), median(known), max(known), inside if ranged else None)
