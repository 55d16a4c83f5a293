"""The page that is open beside the fire: a log kept by one thumb, on the device alone."""

from __future__ import annotations

from markupsafe import Markup

from builder.checks.form_rules import as_json
from builder.fire.cautions import BY_KEY, Caution
from builder.pages.fragments import fill
from builder.publish.site import Page
from builder.readings.rows import COLDEST_C, HOTTEST_C, never_read
from builder.settings import Settings

PAGE = "fireside"

SCRIPTS = (
    "elements",
    "device_store",
    "fire_log",
    "fire_curve",
    "screen_awake",
    "file_saving",
    "fireside_pad",
    "fireside_lines",
    "fireside_shelf",
    "fireside",
    "offline",
)

HAPPENINGS = ("Wood on", "Flames over the rim", "Heard a crack", "Wind changed", "Raked open", "Something else")
"""What the big buttons write; the last asks for words."""

_STAGES = {
    "before": ("permission", "wind", "people", "ground"),
    "burning": ("people", "steam", "smoke", "wind"),
    "over": ("hot-ware", "watch", "smoke"),
}
"""The cautions that matter most before the fire, while it burns, and after it."""

_SENTENCE = (
    "A log of the fire, kept on this device and nowhere else: readings and happenings with their times, written down "
    "at a tap. It needs no signal once this page has been opened."
)


def fireside_page(settings: Settings) -> Page:
    """Make the page of the log; the methods' windows and the limits of a reading stand in it for the script."""
    rules = as_json(
        {
            "methods": [
                {"key": method.key, "name": method.name, "low": method.window_low_c, "high": method.window_high_c}
                for method in settings.methods.values()
            ],
            "happenings": list(HAPPENINGS),
            "coldest": COLDEST_C,
            "hottest": HOTTEST_C,
            "neverRead": list(never_read("⟦raw⟧")),
        }
    )
    lead = fill(
        "fireside.html",
        PAGE,
        sentence=_SENTENCE,
        methods=list(settings.methods.values()),
        stages=[(stage, _cautions(keys)) for stage, keys in _STAGES.items()],
        rules=Markup(rules),  # noqa: S704
    )
    return Page(
        path=PAGE,
        title="By the fire",
        description=_SENTENCE,
        lead=lead,
        section="fireside",
        kind="fireside",
        scripts=SCRIPTS,
        searched=False,
    )


def _cautions(keys: tuple[str, ...]) -> list[Caution]:
    return [BY_KEY[key] for key in keys]
