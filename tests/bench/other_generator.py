"""The same pages for hugo, with a theme of one light template: what a fast generator of plain pages takes."""

from __future__ import annotations

import json
from pathlib import Path

from mkdocs.utils.meta import get_data

_PAGE = """\
<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{{ .Title }}</title>
<meta name="description" content="{{ .Description }}"></head>
<body><main>{{ .Params.lead | safeHTML }}{{ .Content }}{{ .Params.rest | safeHTML }}</main></body></html>
"""


def write_hugo_site(docs: Path, folder: Path) -> None:
    """Write every Markdown page of a docs folder, with its finished HTML, as hugo reads it."""
    layouts = folder / "layouts" / "_default"
    layouts.mkdir(parents=True)
    for name in ("single.html", "list.html"):
        (layouts / name).write_text(_PAGE, encoding="utf-8")
    (folder / "config.toml").write_text('title = "Benchmark"\nbaseURL = "/"\ndisableKinds = ["taxonomy", "term"]\n')
    for page in docs.rglob("*.md"):
        body, meta = get_data(page.read_text(encoding="utf-8"))
        kept = {name: meta.get(name, "") for name in ("title", "description", "lead", "rest")}
        address = page.relative_to(docs)
        target = folder / "content" / address.with_name(f"{address.stem.replace('index', '_index')}.html")
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_text(f"{json.dumps(kept)}\n{body}", encoding="utf-8")
