"""The reader's side: seconds to the first result of search and of the list, in Chromium, its processor slowed down.

A site is served from this machine, so that nothing but the reader's own device is measured.
"""

from __future__ import annotations

import functools
import http.server
import shutil
import statistics
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from builder.build import Options, build
from tests.bench.archive_maker import make_archive

SLOWER = 4
ROUNDS = 3


def main(counts: list[int]) -> None:
    """Print the times for archives of each size."""
    from playwright.sync_api import sync_playwright

    chromium = shutil.which("chromium")
    if chromium is None:
        print("There is no Chromium here: nothing was measured.")
        return
    print("| firings | search: first result, s | list: page and first pick, s |\n|--:|--:|--:|")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for count in counts:
            with tempfile.TemporaryDirectory() as folder:
                archive = Path(folder) / "archive"
                make_archive(archive, count)
                build(Options(archive, archive / "site"))
                with _served(archive / "site") as address:
                    search = statistics.median(_search(browser, address) for _ in range(ROUNDS))
                    listed = statistics.median(_pick(browser, address) for _ in range(ROUNDS))
            print(f"| {count} | {search:.2f} | {listed:.2f} |", flush=True)
        browser.close()


@contextmanager
def _served(site: Path) -> Iterator[str]:
    handler = functools.partial(_Quiet, directory=str(site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_address[1]}/"
        server.shutdown()


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing of each request."""


def _slowed(browser: Any) -> Any:
    page = browser.new_context().new_page()
    page.set_default_timeout(60_000)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    return page


def _search(browser: Any, address: str) -> float:
    """Open the first page, then time from the last letter typed to the first page found, nothing kept from before."""
    page = _slowed(browser)
    page.goto(f"{address}about.html")
    page.click(".search-open")
    start = time.perf_counter()
    page.fill("#search-words", "smoke branch")
    page.wait_for_selector(".search-results li a")
    taken = time.perf_counter() - start
    page.context.close()
    return taken


def _pick(browser: Any, address: str) -> float:
    """Time from asking for the list of firings to its first pick being shown."""
    page = _slowed(browser)
    start = time.perf_counter()
    page.goto(f"{address}firings/index.html?method=trench", wait_until="domcontentloaded")
    page.wait_for_function(
        "(() => { const rows = [...document.querySelectorAll('.firing-line')];"
        " return rows.length > 0 && rows.some((row) => row.hidden || row.closest('[hidden]')); })()"
    )
    taken = time.perf_counter() - start
    page.context.close()
    return taken
