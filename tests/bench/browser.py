"""`python -m tests.bench.browser [FIRINGS …]`: how soon a reader's page answers, its processor slowed four times.

Prints, never fails. For each size of archive a site is published (`large_site.py`) and opened in Chromium on a phone's
screen, from a web host on loopback and from a folder, each act on a page just opened, so many times as `ROUNDS` says;
medians. An answer counts when it stands in the page and the page has been drawn with it; the pause of 120 ms in which
a field waits for further letters is part of it. Beside the clock's milliseconds stand those that the page's own thread
was at work for, which do not grow when other programs keep the machine busy.
"""

from __future__ import annotations

import gzip
import http.server
import sys
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from statistics import median

from playwright.sync_api import Browser, Page, sync_playwright

from tests.bench.large_site import publish_large_site
from tests.browser.conftest import ARGUMENTS, chromium_path

SLOWED = 4
ROUNDS = 3
SIZES = (1000, 3000, 10_000)
_ASKED = "No firing|firings: "
"""What stands in the sentence over the list once something was picked."""

# Runs in every page before its own scripts: `seen(selector, pattern)` gives the moment at which an element with these
# words has been drawn, counted from when the page was asked for; not a number where that takes half a minute.
_WATCH = """
window.seen = (selector, pattern) => new Promise((told) => {
  const drawn = () => requestAnimationFrame(() => setTimeout(() => told(performance.now())));
  const shows = (one) => !one.closest("[hidden]") && new RegExp(pattern).test(one.textContent);
  const there = () => [...document.querySelectorAll(selector)].some(shows);
  const look = () => there() ? drawn() : performance.now() > 30000 ? told(NaN) : requestAnimationFrame(look);
  look();
});
"""
_ACT = """async ([act, selector, value, shown, pattern]) => {
  const one = document.querySelector(selector);
  const start = performance.now();
  if (act === "click") one.click();
  else { one.focus(); one.value = value; one.dispatchEvent(new Event(act, {bubbles: true})); }
  return await window.seen(shown, pattern) - start;
}"""

Act = tuple[str, str, str, str, str]
"""`click`, or the event that tells a field's new value; where; the value; where the answer stands; what it says."""
Took = tuple[float, float]
"""Milliseconds by the clock, and those at work."""
_FIELD, _ORDER = "[data-firings-form] input[name=q]", "[data-firings-form] select[name=sort]"
_SENTENCE, _MORE = "[data-firings-sentence]", "[data-firings-more]"
_LIST_ACTS: dict[str, Act] = {
    "a facet picked": ("click", "[data-facet] input[type=checkbox]", "", _SENTENCE, _ASKED),
    "a word in the list": ("input", _FIELD, "ember", _SENTENCE, "with “ember"),
    "hottest first": ("change", _ORDER, "hottest", _SENTENCE, "hottest first"),
    "by title": ("change", _ORDER, "title", _SENTENCE, "by title"),
    "more lines shown": ("click", f"{_MORE} button", "", f"{_MORE} [role=status]", r"^(9\d|1[01]\d) of"),
    "first result of the search": ("input", "#search-words", "spalled", ".search-results li", "."),
}
_COMPARE_ACTS: dict[str, Act] = {
    "a firing offered": ("input", "#compare-words", "ember 77", ".compare-offered li", "77"),
}


def main(sizes: tuple[int, ...]) -> None:
    """Publish sites of these sizes, time their pages, print."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=ARGUMENTS)
        for firings in sizes:
            site = publish_large_site(firings, Path(folder))
            print(f"\n{firings:,} firings; {_sizes(site)}", flush=True)
            with _served(site) as host:
                _measure(browser, {"host": host, "folder": f"{site.as_uri()}/"}, firings)
        browser.close()


def _sizes(site: Path) -> str:
    names = ("firings/index.html", "firings/list.js", "firings/curves-0.js")
    found = [(name, (site / name).read_bytes()) for name in names]
    return "; ".join(
        f"{name} {len(data) / 1000:.0f} kB, {len(gzip.compress(data, 6)) / 1000:.0f} compressed" for name, data in found
    )


def _measure(browser: Browser, roots: dict[str, str], firings: int) -> None:
    """Print one line an act: medians in milliseconds by the clock and of the page's own thread, from each root."""
    rounds = {name: [_round(browser, root, firings) for _ in range(ROUNDS)] for name, root in roots.items()}
    print(f"{'ms by the clock (at work)':<32}" + "".join(f"{name:>16}" for name in rounds))
    for act in next(iter(rounds.values()))[0]:
        took = [[one[act] for one in found] for found in rounds.values()]
        medians = [(median(clock for clock, _ in times), median(work for _, work in times)) for times in took]
        print(f"{act:<32}" + "".join(f"{clock:8.0f} ({work:5.0f})" for clock, work in medians), flush=True)


def _round(browser: Browser, root: str, firings: int) -> dict[str, Took]:
    """Do once what a reader does: pages opened in windows of their own, where nothing was loaded before; then acts."""
    index, two = f"{root}firings/index.html", f"{root}compare.html?firings={firings - 1},{firings}"
    found = {}
    for name, address, shown, pattern in (
        ("an empty page", f"{root}results.html", "h1", "."),
        ("the list, its first lines", index, "[data-firings-list]", "."),
        ("the list, opened with a pick", f"{index}?method=trench", _SENTENCE, _ASKED),
        ("two firings laid over", two, "[data-said]", "are laid over"),
    ):
        with _window(browser, root) as window:
            found[name] = window.opened(address, shown, pattern)
    with _window(browser, root) as window:
        found |= {name: window.acted(index, act) for name, act in _LIST_ACTS.items()}
        found |= {name: window.acted(f"{root}compare.html", act) for name, act in _COMPARE_ACTS.items()}
    return found


class _Window:
    """A window on a phone's screen with a slow processor."""

    def __init__(self, page: Page) -> None:
        self._page = page
        self._session = page.context.new_cdp_session(page)
        self._session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        self._session.send("Performance.enable", {"timeDomain": "threadTicks"})

    def opened(self, address: str, shown: str, pattern: str) -> Took:
        """Open a page; how long until it shows what is asked for."""
        before = self._work_ms()
        self._page.goto(address, wait_until="commit")
        clock = self._page.evaluate("([shown, pattern]) => window.seen(shown, pattern)", [shown, pattern])
        return float(clock), self._work_ms() - before

    def acted(self, address: str, act: Act) -> Took:
        """Open a page, let it come to rest, act."""
        self._page.goto(address)
        self._page.wait_for_function("window.ashbookList")
        self._page.wait_for_timeout(300)
        before = self._work_ms()
        clock = self._page.evaluate(_ACT, list(act))
        return float(clock), self._work_ms() - before

    def _work_ms(self) -> float:
        """How long the page's own thread has been at work so far."""
        metrics = self._session.send("Performance.getMetrics")["metrics"]
        return float(next(one["value"] for one in metrics if one["name"] == "TaskDuration")) * 1000


@contextmanager
def _window(browser: Browser, root: str) -> Iterator[_Window]:
    """Open a window; a small page of the site first, so that its process is there."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.add_init_script(_WATCH)
    page.goto(f"{root}about.html")
    yield _Window(page)
    context.close()


class _Server(http.server.ThreadingHTTPServer):
    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing: a window may be closed while a file is on its way to it."""


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""


@contextmanager
def _served(site: Path) -> Iterator[str]:
    server = _Server(("127.0.0.1", 0), partial(_Quiet, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


if __name__ == "__main__":
    main(tuple(int(word) for word in sys.argv[1:]) or SIZES)
