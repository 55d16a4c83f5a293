"""One page of every type, and of firings those that differ most; new types of page are found by themselves."""

from __future__ import annotations

import re
from pathlib import Path

FIRINGS = (
    "firings/2024-05-25-pale-jar-second.html",
    "firings/2024-06-08-four-bowls-three-probes.html",
    "firings/2024-11-16-november.html",
)
"""With a photo and a curve; with three probes; without a curve."""
COMPARED = "compare.html?firings=5,6"


def page_types(site: Path) -> list[str]:
    """Addresses from the site's root: every page at the root, the first of every kind elsewhere, and the firings."""
    found: dict[str, str] = {}
    for path in sorted(site.rglob("*.html")):
        address = path.relative_to(site).as_posix()
        kind = re.search(r'<body class="kind-([\w-]+)', path.read_text("utf-8"))
        folder = address.rpartition("/")[0]
        if kind and address != "404.html":
            found.setdefault(f"{folder} {kind[1]}" if folder else address, address)
    rest = [address for address in found.values() if not address.startswith("firings/2") and address != "compare.html"]
    return [*rest, *FIRINGS, COMPARED]


def uri(site: Path, address: str) -> str:
    """Address of a page opened from its folder."""
    file, _, query = address.partition("?")
    return (site / file).as_uri() + (f"?{query}" if query else "")
