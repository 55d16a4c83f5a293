"""Built pages opened in a browser: what would show that contributed words became more than words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Dialog, Page

RAN = "window.ran = () => { window.hasRun = true; }; window.hasRun = false;"
"""Put into each page before anything of its own: the attacks call it."""

_SEEN = """() => {
  const shapes = new Set(), bad = [];
  for (const one of document.querySelectorAll("*")) {
    const names = [...one.attributes].map((each) => each.name).sort();
    const prose = one.closest(".prose, .story");
    if (!prose && !one.closest("svg")) shapes.add([one.localName, ...names].join(" "));
    if (prose) shapes.add("prose " + one.localName);
    if (one.closest("svg")) shapes.add("svg " + one.localName);
    if (names.some((name) => name.startsWith("on") || name === "srcdoc" || name === "style")) bad.push(one.outerHTML);
    for (const name of ["href", "src", "action", "formaction", "xlink:href", "data", "poster"]) {
      const value = one.getAttribute(name);
      if (value === null) continue;
      const scheme = new URL(value, document.baseURI).protocol;
      if (!["http:", "https:", "file:", "mailto:"].includes(scheme) && !value.startsWith("data:image/svg+xml,"))
        bad.push(one.outerHTML);
    }
  }
  const policy = document.querySelector("meta[http-equiv=Content-Security-Policy]");
  return {
    shapes: [...shapes], bad, ran: window.hasRun, where: location.href, policy: policy ? policy.content : "",
    words: document.querySelector("main").textContent.replace(/\\s+/g, " ").normalize("NFC"),
    title: document.title.replace(/\\s+/g, " "),
  };
}"""


@dataclass(slots=True)
class Opened:
    """What was seen on the pages of a site."""

    pages: int = 0
    shapes: set[str] = field(default_factory=set)
    """Every kind of element with the names of its attributes."""
    words: dict[str, str] = field(default_factory=dict)
    """Each page's text by its address."""
    faults: list[str] = field(default_factory=list)


def open_all(page: Page, site: Path, addresses: Iterable[str], prepared: bool = False) -> Opened:
    """Open pages of a site from its folder and take down what is wrong with them.

    A window that has been used before is `prepared`; dialogs and windows go to the faults of its first call.
    """
    opened = Opened()
    if not prepared:
        _prepare(page, opened)
    for address in addresses:
        where = (site / address).as_uri()
        page.goto(where)
        seen = page.evaluate(_SEEN)
        opened.pages += 1
        opened.shapes.update(seen["shapes"])
        opened.words[address] = seen["words"]
        opened.faults += [f"{address}: {one}" for one in seen["bad"]]
        opened.faults += [f"{address}: something ran"] * bool(seen["ran"])
        opened.faults += [f"{address}: went to {seen['where']}"] * (seen["where"] != where)
        opened.faults += [f"{address}: policy {seen['policy']!r}"] * (not _strict(seen["policy"]))
    return opened


def _prepare(page: Page, opened: Opened) -> None:
    page.add_init_script(RAN)

    def dismissed(dialog: Dialog) -> None:
        opened.faults.append(f"dialog: {dialog.message}")
        dialog.dismiss()

    page.on("dialog", dismissed)
    page.on("popup", lambda other: opened.faults.append(f"window: {other.url}"))


def _strict(policy: str) -> bool:
    return policy.startswith("default-src 'none'; script-src 'self';") and "unsafe" not in policy


def html_pages(site: Path) -> list[str]:
    """Return the addresses of a site's pages; the page for wrong addresses holds on a host only."""
    found = (path.relative_to(site).as_posix() for path in site.rglob("*.html"))
    return sorted(address for address in found if address != "404.html")
