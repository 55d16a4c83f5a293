"""How soon the search answers: `python -m tests.bench.search [PAGES]`. Prints, never fails.

Pages of 220 words out of 12,000 made-up ones, as frequent as Zipf's law has it; Chromium with its processor slowed four
times; from a web host on loopback and from a folder. The clock runs from the first letter to the first result in the
page, the search's own pause of 120 ms for further letters included; nothing is loaded before.
"""

from __future__ import annotations

import functools
import gzip
import http.server
import random
import shutil
import sys
import tempfile
import threading
from dataclasses import replace
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from builder.publish.publish import publish
from builder.publish.site import Page
from tests.publish.small_site import offline, small_site

SLOWED = 4
WORDS = 220
_SYLLABLES = (
    "ba be bi bo da de di do fa fe ga ha ka ke ki la le li lo ma me mi na ne no pa ra re sa se si ta te to".split()
)
_FIRST = """([words]) => new Promise((done) => {
  const [field, list] = [document.querySelector("#search-words"), document.querySelector(".search-results")];
  const start = performance.now();
  const seen = new MutationObserver(() => list.children.length && done(performance.now() - start));
  seen.observe(list, {childList: true});
  field.focus();
  field.value = words;
  field.dispatchEvent(new Event("input", {bubbles: true}));
})"""


def pages(number: int) -> list[Page]:
    """Make up pages; the word `spalled` stands on one in thirty-seven."""
    chance = random.Random(7)
    made = {"".join(chance.choices(_SYLLABLES, k=chance.choice((1, 2, 2, 3, 3, 4)))) for _ in range(16_000)}
    known = sorted(made)[:12_000]
    chance.shuffle(known)
    frequent = [1 / place for place in range(1, len(known) + 1)]

    def words(count: int) -> list[str]:
        return chance.choices(known, frequent, k=count)

    def page(at: int) -> Page:
        text = " ".join(["spalled"] * (at % 37 == 0) + words(WORDS))
        title = f"Firing {at} {' '.join(words(3))}"
        return Page(f"firings/fire-{at}", title, "One.", prose=f"<p>{text}</p>", tags=tuple(words(6)), kind="firing")

    return [page(at) for at in range(number)]


def first_result_ms(browser: Browser, root: str, words: str) -> float:
    """Open a page, slow the processor, ask, and wait for the first result."""
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{root}firings/fire-0.html")
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    taken = float(page.evaluate(_FIRST, [words]))
    context.close()
    return taken


def main(number: int) -> None:
    """Build, ask and print."""
    with tempfile.TemporaryDirectory() as folder:
        site = offline(small_site(0))
        out = Path(folder) / "site"
        publish(replace(site, pages=(*site.pages, *pages(number))), out, Path(folder) / "work")
        files = [path.read_bytes() for path in (out / "search").iterdir()]
        packed = sum(len(gzip.compress(content, 6)) for content in files)
        print(f"{number} pages: {len(files)} files, {sum(map(len, files)):,} bytes, {packed:,} compressed")
        handler = functools.partial(http.server.SimpleHTTPRequestHandler, directory=str(out))
        handler.func.log_message = lambda *words: None  # type: ignore[attr-defined]
        server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
            for name, root in (("host", f"http://127.0.0.1:{server.server_port}/"), ("folder", f"{out.as_uri()}/")):
                for words in ("spalled", "firing", "ba", "spalled firing ba"):
                    print(f"{name:>7}  {words:<20} {first_result_ms(browser, root, words):6.0f} ms", flush=True)
            browser.close()
        server.shutdown()


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else 3000)
