"""site_config.yml to Settings: what the group decides, checked once, frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Potter:
    """One of the group."""

    key: str
    """The word that entries use."""
    name: str
    """The name as the potter wants it published: what is withheld of it is nowhere in the settings."""
    about: str = ""
    shown: str = "full"
    """How much of the name is published: one of `shown_names.WAYS`."""


@dataclass(frozen=True, slots=True)
class Method:
    """A way of firing, what it aims at, and what the group counts as success with it."""

    key: str
    """The word that entries use; also its address on the site."""
    name: str
    kind: str
    """`ground`, `pit`, `trench` or `kiln`: which of the section drawings stands for it."""
    summary: str
    success: Mapping[str, tuple[str, ...]]
    """For each outcome that counts, the words that count as success."""
    window_low_c: float | None = None
    """Lower edge of the temperatures aimed at, °C; None where the group names no window."""
    window_high_c: float | None = None


@dataclass(frozen=True, slots=True)
class Group:
    """Who keeps the archive."""

    name: str
    title: str = "Ashbook"
    about: str = ""
    """One or two sentences for the home page."""
    url: str = ""
    """Address of the published site, ending in a slash; empty while it has none."""
    contact: str = ""
    language: str = "en"
    licence: str = "CC-BY-4.0"
    """SPDX id for entries that name none."""
    notice: str = ""
    """A sentence shown on every page: that the archive is invented, say."""


@dataclass(frozen=True, slots=True)
class HeatSettings:
    """How figures are worked out, where the group may choose."""

    rise_window_min: float = 1.0
    levels_c: tuple[float, ...] = (300.0, 500.0, 573.0, 600.0, 700.0, 800.0, 900.0)
    soak_within_c: float = 50.0
    wall_diffusivity_mm2_s: tuple[float, float, float] = (0.5, 0.3, 0.8)
    """Thermal diffusivity of the wall, mm²/s: value, low, high."""


@dataclass(frozen=True, slots=True)
class Settings:
    """All that the group decides."""

    group: Group
    potters: Mapping[str, Potter]
    methods: Mapping[str, Method]
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Words that the group adds to a fixed list, by dotted field path (`pieces.survival`)."""
    units: Mapping[str, str] = field(default_factory=dict)
    """Unit of bare numbers by kind of quantity, where the group declared one."""
    heat: HeatSettings = HeatSettings()
    window_level: float = 0.5
    """The chance of success above which a temperature counts as inside the working window."""
    place_rule: str = "as coarse as a parish"
    """How coarse a place may be told, in the group's words."""
    place_decimals: int | None = None
    """Decimals of a degree to which coordinates of a place are rounded; None where the group takes none at all."""
