"""site_config.yml to Settings: what the group decides, checked once, frozen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

NOBODY = "nobody"
"""The way to be shown that shows nothing, and the one key under which all who chose it stand."""
NOBODY_NAME = "a potter of the group"


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
    group: str = ""
    """Name of the group that the potter belongs to; empty for this archive's own."""

    @property
    def named(self) -> str:
        """The name, with that of the group where it is another's: two groups may have a Wren each."""
        return f"{self.name} ({self.group})" if self.group else self.name


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
    """Address of the published site, ending in a slash; empty while it has none, and in a build for a folder."""
    address: str = ""
    """The same, told in a build for a folder too."""
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
class SourcePlace:
    """Where another group's published data is to be read."""

    key: str
    """The word that stands for the source: in addresses, and before its files where problems are told."""
    path: str
    """Folder or zip file as it was written: from the project's folder, or from the top of the disk."""
    address: str = ""
    """Address of that group's site, ending in a slash, where the data does not tell it."""


@dataclass(frozen=True, slots=True)
class Settings:
    """All that the group decides."""

    group: Group
    potters: Mapping[str, Potter]
    """All who are shown somehow; one `nobody` for all who are not."""
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
    unnamed: Mapping[str, str] = field(default_factory=dict)
    """Potters who are shown as nobody: the key that entries use, and the name as it was written. Only what checks an
    entry may know them; before anything is made of the entries, `without_unnamed` leaves them behind."""
    place_decimals: int | None = None
    """Decimals of a degree to which coordinates of a place are rounded; None where the group takes none at all."""
    asked: tuple[SourcePlace, ...] = ()
    """The sources: other groups' archives whose published data is to become a part of this one."""
    sources: Mapping[str, Source] = field(default_factory=dict)
    """Those of them that could be read, by key."""
    own: Settings | None = None
    """What this archive decided before potters, methods and words of its sources came in; None where none did."""

    @property
    def alone(self) -> Settings:
        """What this archive decides for its own entries."""
        return self.own or self

    def rules_of(self, source: str) -> Settings:
        """The settings by which an entry of a source is read; of none: this archive's own."""
        return self.sources[source].rules if source else self.alone

    def group_of(self, source: str) -> Group:
        """The group whose firing it is."""
        return self.sources[source].rules.group if source else self.group


@dataclass(frozen=True, slots=True)
class Source:
    """Another group's archive, as its published data tells of it."""

    key: str
    rules: Settings
    """What that group decided: by this its entries are read."""
    methods: Mapping[str, str]
    """The methods by that group's key: their keys in this archive."""


def without_unnamed(settings: Settings) -> Settings:
    """Return the settings for all that comes after the checks, which knows nothing of those who are not named."""
    own = settings.own
    return replace(settings, unnamed={}, own=None if own is None else replace(own, unnamed={}))
