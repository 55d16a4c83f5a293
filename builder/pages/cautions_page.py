"""The cautions: reasons to wait or to stop. Nothing on this page, or any other, says that something is safe."""

from __future__ import annotations

from collections.abc import Mapping

from markupsafe import Markup

from builder.fire.cautions import CAUTIONS
from builder.pages.fragments import fill
from builder.publish.clean_html import clean_markdown
from builder.publish.site import Page

_SENTENCE = (
    "Reasons to wait or to stop. Local fire rules, the landowner, the fire service and licensed practice come before "
    "anything written here, and a fire that gives none of these reasons can still hurt somebody."
)


def cautions_page(prose: Mapping[str, str]) -> Page:
    """Make the page of cautions, with the group's own words after them."""
    page = "cautions"
    own = Markup(clean_markdown(prose["cautions"], inside=True)) if prose.get("cautions") else Markup("")  # noqa: S704
    return Page(
        path=page,
        title="Cautions",
        description=_SENTENCE,
        lead=fill("opening_only.html", page, title="Cautions", sentence=_SENTENCE),
        prose=fill("cautions.html", page, cautions=CAUTIONS, own=own),
        section="cautions",
        kind="cautions",
        tags=("safety", "reasons to stop"),
    )
