"""settings.json: what a group decided, as far as its published entries need it, in the form of site_config.yml.

Names stand in it as their potters want them shown; whoever is shown as nobody stands in it as nobody.
"""

from __future__ import annotations

import json

from builder.settings import NOBODY, HeatSettings, Method, Potter, Settings

PUBLISHED_SETTINGS = "settings.json"
FORM = "1"
"""Form of the published entries and settings; another number is for programs that came later."""

Json = dict[str, object]


def published_settings(settings: Settings) -> bytes:
    """Write the settings of an archive's own entries; of its sources nothing."""
    alone = settings.alone
    decimals = alone.place_decimals
    told: Json = {
        "form": FORM,
        "group": _group(alone),
        "potters": {key: _potter(potter) for key, potter in alone.potters.items()},
        "methods": {key: _method(method) for key, method in alone.methods.items()},
        "words": {path: list(words) for path, words in alone.words.items()},
        "units": dict(alone.units),
        "heat": _heat(alone.heat),
        "window": {"level": repr(alone.window_level)},
        "places": {
            "rule": alone.place_rule,
            "coordinates": "refuse" if decimals is None else f"{decimals} decimals",
        },
    }
    return (json.dumps(told, ensure_ascii=False, indent=2) + "\n").encode()


def _group(settings: Settings) -> Json:
    group = settings.group
    told = {
        "name": group.name,
        "title": group.title,
        "about": group.about,
        "url": group.address,
        "language": group.language,
        "licence": group.licence,
        "notice": group.notice,
    }
    return {name: words for name, words in told.items() if words}


def _potter(potter: Potter) -> Json:
    if potter.key == NOBODY:
        return {"shown": NOBODY}
    return {"name": potter.name, "about": potter.about} if potter.about else {"name": potter.name}


def _method(method: Method) -> Json:
    told: Json = {"name": method.name, "kind": method.kind}
    if method.summary:
        told["summary"] = method.summary
    if method.window_low_c is not None and method.window_high_c is not None:
        told["window"] = f"{_plain(method.window_low_c)} °C to {_plain(method.window_high_c)} °C"
    return {**told, "success": {outcome: list(words) for outcome, words in method.success.items()}}


def _heat(heat: HeatSettings) -> Json:
    return {
        "rise_window": f"{_plain(heat.rise_window_min)} min",
        "levels": [f"{_plain(level)} °C" for level in heat.levels_c],
        "soak_within": f"{_plain(heat.soak_within_c)} °C",
    }


def _plain(value: float) -> str:
    """Write a number so that it is read back the same, without an exponent."""
    return f"{value:.9f}".rstrip("0").rstrip(".")
