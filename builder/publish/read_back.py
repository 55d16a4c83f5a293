"""What was written down for mkdocs, read back without its readers: our own lines of JSON, our own block of HTML.

mkdocs' YAML and Markdown readers give the same (a test holds that) and take ten times as long.
"""

from __future__ import annotations

import json
from typing import Any

_FENCE = "---\n"


def read_page(markdown: str) -> tuple[dict[str, Any], str]:
    """Return a page's front matter and its prose, a block of HTML that Markdown passes through unchanged."""
    head, _, body = markdown.removeprefix(_FENCE).partition(f"\n{_FENCE}")
    return read_lines(head), body.strip()


def read_lines(lines: str) -> dict[str, Any]:
    """Return names with their values, one on each line, as `mkdocs_site` writes them."""
    named = (line.partition(": ") for line in lines.split("\n") if line)
    return {name: json.loads(value) for name, _, value in named}
