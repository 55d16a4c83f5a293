"""A Site written down as mkdocs reads it: a folder of pages and files, and a configuration beside them.

The configuration has no hooks and no macros, so that plain `mkdocs build` makes the same pages, and another
generator that reads the same files can take over.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Mapping
from pathlib import Path

from builder.kept.folder import Folder
from builder.publish.search_index import DIRECTORY
from builder.publish.site import Page, Site, SiteFacts, Written

DOCS = "docs"
"""Name of the docs folder within the working folder."""

CONFIG = "mkdocs.yml"
"""Name of the configuration within the working folder."""

SPARE = "site-new"
"""Name of the folder within it in which the next site is made."""

Value = str | bool | int | list["Value"] | dict[str, "Value"]
"""What a configuration or a page's front matter is made of."""

_FIRST_STYLES = ("tokens.css", "base.css", "shell.css", "search.css")
_LAST_STYLES = ("print.css",)

_ESCAPED = re.compile("[\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]")
"""What JSON leaves as it is and a YAML reader refuses or takes for the end of a line."""

_JSON = json.JSONEncoder(ensure_ascii=False)
_BLANK_LINE = re.compile(r"\n +(?=\n)")
_FENCE = re.compile(r"\n([`~])(?=[`~]{2})")


def write_site(site: Site, work: Path, theme: Path) -> Path:
    """Write `docs/` and `mkdocs.yml` into the working folder and give the path of the configuration."""
    docs = Folder(work / DOCS, DOCS)
    written = write_docs(site, docs)
    docs.sweep({one.address for one in written})
    return write_configuration(site.facts, work, theme)


def write_docs(site: Site, docs: Folder) -> tuple[Written, ...]:
    """Write a site's pages and files into the docs folder; return all that now belongs there."""
    pages = [write_page(page, docs) for page in site.pages]
    files = [write_file(address, content, docs) for address, content in site.files.items()]
    return (*site.written, *pages, *files)


def write_page(page: Page, docs: Folder) -> Written:
    """Write one page as Markdown into the docs folder."""
    address = _checked(f"{page.path}.md")
    return Written(address, docs.put(address, page_markdown(page).encode()))


def write_file(address: str, content: bytes, docs: Folder) -> Written:
    """Write one file into the docs folder."""
    return Written(address, docs.put(_checked(_file_address(address)), content))


def write_configuration(facts: SiteFacts, work: Path, theme: Path) -> Path:
    """Write `mkdocs.yml` beside the docs folder and give its path."""
    config = work / CONFIG
    config.write_text(_yaml_lines(_configuration(facts, work, theme)), encoding="utf-8", newline="\n")
    return config


def page_markdown(page: Page) -> str:
    """Write one page as Markdown: all but the prose in the front matter, the prose as one block of raw HTML."""
    meta: dict[str, Value] = {
        "title": page.title,
        "description": page.description,
        "section": page.section,
        "kind": page.kind,
        "lead": page.lead,
        "rest": page.rest,
        "tags": list(page.tags),
        "scripts": list(page.scripts),
        "image": page.image,
        "author": page.author,
        "published": page.published.isoformat() if page.published else "",
        "json_ld": page.json_ld.replace("<", "\\u003c"),
        "search": {"exclude": True} if not page.searched else {},
    }
    kept = {name: value for name, value in meta.items() if value or name == "title"}
    return f"---\n{_yaml_lines(kept)}---\n\n{_raw_block(page.prose)}\n"


def yaml_value(value: Value) -> str:
    """Write a value on one line so that every YAML reader gives it back unchanged (as JSON, which YAML includes)."""
    written = json.dumps(value)
    # Letters beyond U+FFFF are written so as two halves, which no YAML reader joins.
    return written if "\\ud" not in written else _ESCAPED.sub(_escape, _JSON.encode(value))


def _escape(match: re.Match[str]) -> str:
    code = ord(match[0])
    return "\ufffd" if 0xD800 <= code <= 0xDFFF else f"\\u{code:04x}"


def _yaml_lines(values: Mapping[str, Value]) -> str:
    return "".join(f"{name}: {yaml_value(value)}\n" for name, value in values.items())


def _raw_block(prose: str) -> str:
    """One block that a Markdown reader passes through.

    It would turn a tab into spaces, drop some controls and the blanks of a line that has nothing else, and read a line
    that begins as a fence as code.
    """
    kept = prose.replace("\t", "&#9;").replace("\x02", "").replace("\x03", "").replace("\r\n", "\n").replace("\r", "\n")
    kept = _FENCE.sub(lambda fence: f"\n&#{ord(fence[1])};", _BLANK_LINE.sub("\n", kept))
    return f'<div class="prose">{kept}</div>'


def _file_address(address: str) -> str:
    """Refuse what mkdocs would take for a page."""
    if address.lower().endswith((".md", ".markdown", ".mdown", ".mkd", ".mkdn")):
        raise ValueError(f"a file of the site must not be Markdown: {address}")
    return address


def _checked(address: str) -> str:
    """Give an address back; one that would leave the docs folder is a bug of the caller."""
    if "\\" in address or any(not part or part.startswith(".") for part in address.split("/")):
        raise ValueError(f"not an address of a site: {address!r}")
    return address


def _configuration(facts: SiteFacts, work: Path, theme: Path) -> dict[str, Value]:
    """The whole of mkdocs.yml. Pages stay out of the navigation, where mkdocs' time grows with their square."""
    config: dict[str, Value] = {
        "site_name": facts.name,
        "site_url": facts.url,
        "site_description": facts.description,
        "docs_dir": DOCS,
        "site_dir": SPARE,
        "use_directory_urls": False,
        "theme": {"name": "material", "custom_dir": _relative(theme, work), "font": False},
        "plugins": ["search"],
        "markdown_extensions": [],
        "nav": [{facts.name: "index.md"}],
        "not_in_nav": "/**",
        "extra_css": [f"styles/{name}" for name in _style_sheets(theme)],
        "extra": _extra(facts),
    }
    return {name: value for name, value in config.items() if value or value is False or isinstance(value, list)}


def _extra(facts: SiteFacts) -> dict[str, Value]:
    """What the templates show of the site."""

    def entries(rows: tuple[tuple[str, str, str], ...]) -> list[Value]:
        return [{"section": section, "words": words, "address": f"{path}.html"} for section, words, path in rows]

    return {
        "group": facts.group,
        "language": facts.language,
        "notice": facts.notice,
        "licence": facts.licence,
        "header": entries(facts.header),
        "footer": entries(facts.footer),
        "search_directory": DIRECTORY,
    }


def _style_sheets(theme: Path) -> list[str]:
    """The theme's style sheets: tokens first, print last, the rest in order of their names."""
    found = sorted(path.name for path in (theme / "styles").glob("*.css"))
    middle = [name for name in found if name not in _FIRST_STYLES + _LAST_STYLES]
    return [name for name in (*_FIRST_STYLES, *middle, *_LAST_STYLES) if name in found]


def _relative(theme: Path, work: Path) -> str:
    """The theme's path as seen from the configuration; absolute where the two lie on different drives."""
    try:
        return Path(os.path.relpath(theme.resolve(), work.resolve())).as_posix()
    except ValueError:
        return theme.resolve().as_posix()
