"""What every page of the site shows: its name, who keeps it, and the entries of header and footer."""

from __future__ import annotations

from builder.archive.archive import Archive
from builder.pages.home_page import home_sentence
from builder.publish.site import SiteFacts
from builder.settings import Settings

_HEADER = (
    ("firings", "Firings", "firings/index"),
    ("methods", "Methods", "methods/index"),
    ("potters", "Potters", "potters/index"),
    ("results", "Results", "results"),
    ("compare", "Compare", "compare"),
    ("cautions", "Cautions", "cautions"),
    ("write-up", "Write up", "write-up"),
)
_OFFLINE = ("before-you-light", "cautions", "fireside", "write-up")
"""Pages that open without a signal once they have been visited."""

_FOOTER = (
    ("fireside", "By the fire", "fireside"),
    ("before-you-light", "Before you light", "before-you-light"),
    ("words", "Words", "words"),
    ("materials", "Materials", "materials/index"),
    ("places", "Places", "places/index"),
    ("years", "Years", "years/index"),
    ("fields", "Fields of an entry", "fields"),
    ("problems", "Problems", "problems"),
    ("figures", "How the figures are worked out", "figures"),
    ("data", "Open data", "data"),
    ("run-your-own", "Run this for your own group", "run-your-own"),
    ("about", "About", "about"),
)


_GROUPS = ("groups", "Groups", "groups/index")


def site_facts(archive: Archive, settings: Settings) -> SiteFacts:
    """Gather what every page shows."""
    group = settings.group
    return SiteFacts(
        name=group.title,
        group=group.name,
        description=home_sentence(archive, settings),
        language=group.language,
        url=group.url,
        notice=group.notice,
        header=_HEADER,
        footer=(_GROUPS, *_FOOTER) if settings.sources else _FOOTER,
        licence=group.licence,
        offline=_OFFLINE,
    )
