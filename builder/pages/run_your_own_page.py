"""Run this for your own group: from an empty folder to a published site."""

from __future__ import annotations

from builder.pages.fragments import fill
from builder.publish.site import Page

_SENTENCE = (
    "From an empty folder to a published site: an archive of your own, kept by one of you, with no service to pay."
)


def run_your_own_page() -> Page:
    """Make the page that tells a keeper how to begin."""
    page = "run-your-own"
    lead = fill("run_your_own.html", page, sentence=_SENTENCE)
    return Page(
        path=page,
        title="Run this for your own group",
        description=_SENTENCE,
        lead=lead,
        section="about",
        kind="reference",
        tags=("keeper", "publish", "own archive"),
    )
