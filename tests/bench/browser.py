"""`python -m tests.bench.browser [COUNT]`: how quick the pages are in Chromium with its processor slowed four times.

Prints, never fails: first paint of an entry and of the list of firings, how long a facet, a word and another order
take to show in the list, how long two firings take to lie over one another, and what an entry weighs.
"""

from __future__ import annotations

import gzip
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from builder.build import Options, build
from tests.bench.archive_maker import make_archive
from tests.browser.conftest import ARGUMENTS, chromium_path

SLOWED = 4

_PAINTED = """() => new Promise((told) => {
  const first = () => performance.getEntriesByName("first-contentful-paint")[0]?.startTime;
  const wait = () => first() === undefined ? requestAnimationFrame(wait) : told(first());
  wait();
})"""
_READY = "() => performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd"
_TIMED = """async ([selector, what, value]) => {
  const one = document.querySelector(selector);
  const start = performance.now();
  if (what === "click") one.click();
  else { one.value = value; one.dispatchEvent(new Event(what, {bubbles: true})); }
  await new Promise((done) => setTimeout(done, what === "input" ? 130 : 0));
  await new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0)));
  return performance.now() - start;
}"""


def main(count: int) -> None:
    """Build an archive of a size and time its pages."""
    with tempfile.TemporaryDirectory() as folder:
        archive = Path(folder) / "archive"
        make_archive(archive, count)
        build(Options(archive, archive / "site"))
        measure(archive / "site")


def measure(site: Path) -> None:
    """Time the pages of a site that is built."""
    entries = sorted(path for path in (site / "firings").glob("*.html") if path.name != "index.html")
    sizes = [len(gzip.compress(path.read_bytes(), 6)) for path in entries]
    print(f"{len(entries)} firings; an entry's page, compressed: {max(sizes) / 1000:.1f} kB at most")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=ARGUMENTS)
        page = browser.new_page(viewport={"width": 360, "height": 740})
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        _opened(page, entries[len(entries) // 2], "an entry")
        _opened(page, site / "compare.html", "the comparing page")
        _opened(page, site / "firings" / "index.html", "the list of firings")
        for name, asked in (
            ("a facet", ["[data-facet] input[type=checkbox]", "click", ""]),
            ("the facet taken back", ["[data-facet] input[type=checkbox]", "click", ""]),
            ("a word", ["[data-firings-form] input[name=q]", "input", "smoke"]),
            ("another order", ["[data-firings-form] select[name=sort]", "change", "hottest"]),
        ):
            print(f"{name:<24} {page.evaluate(_TIMED, asked):8.0f} ms until the list shows it")
        browser.close()


def _opened(page: Page, path: Path, name: str) -> None:
    page.goto(path.as_uri())
    painted, ready = page.evaluate(_PAINTED), page.evaluate(_READY)
    print(f"{name:<24} {painted:8.0f} ms until the first paint, {ready:8.0f} ms until its scripts are ready")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 3000)
