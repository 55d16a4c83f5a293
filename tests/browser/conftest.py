"""A real browser, sites to open in it, and a guard that no page asks another host, breaks its policy or its scripts."""

from __future__ import annotations

import functools
import http.server
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, Request, Response, sync_playwright

from builder.publish.publish import publish
from tests.publish.small_site import small_site

PROJECT = Path(__file__).parents[2]
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"]
_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def chromium_path() -> str | None:
    """Path of a Chromium on this machine."""
    return next((path for name in _NAMES if (path := shutil.which(name))), None)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """One headless Chromium for all tests; without one they are skipped, or fail where ASHBOOK_BROWSER=required."""
    path = chromium_path()
    if path is None:
        words = "no Chromium on this machine: install the package chromium to run the browser tests"
        if os.environ.get("ASHBOOK_BROWSER") == "required":
            pytest.fail(words)
        pytest.skip(words)
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield chromium
        chromium.close()


@pytest.fixture(scope="session")
def shell_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A small invented site, for what every page has in common."""
    folder = tmp_path_factory.mktemp("shell")
    publish(small_site(), folder / "site", folder / "work")
    return folder / "site"


@pytest.fixture(scope="session")
def site_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The archive of content/, built as `ashbook build` builds it."""
    return _built(tmp_path_factory.mktemp("archive"))


@pytest.fixture(scope="session")
def split_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same archive as if it were large: its list on pages of six firings, its small curves four in a file."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("builder.pages.list_pages.PAGE_FIRINGS", 6)
        patch.setattr("builder.pages.list_columns.CURVES_EACH", 4)
        return _built(tmp_path_factory.mktemp("split"))


def _built(folder: Path) -> Path:
    """Build the archive of content/ in a folder."""
    from builder.build import Options, build

    for name in ("site_config.yml", "content"):
        source = PROJECT / name
        (shutil.copytree if source.is_dir() else shutil.copy2)(source, folder / name)
    built = build(Options(folder, folder / "site"))
    assert built.published
    return folder / "site"


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        """Say nothing."""


@pytest.fixture(scope="session")
def serve() -> Iterator[Callable[[Path], str]]:
    """Serve a folder on loopback; gives its address with a closing slash."""
    servers: dict[Path, http.server.ThreadingHTTPServer] = {}

    def start(folder: Path) -> str:
        if folder not in servers:
            handler = functools.partial(_Quiet, directory=str(folder))
            server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
            threading.Thread(target=server.serve_forever, daemon=True).start()
            servers[folder] = server
        return f"http://127.0.0.1:{servers[folder].server_port}/"

    yield start
    for server in servers.values():
        server.shutdown()
        server.server_close()


class Guard:
    """Takes down what a page must never do; `check` fails the test that opened it."""

    def __init__(self) -> None:
        self.faults: list[str] = []

    def watch(self, page: Page) -> None:
        """Listen to a page from before it loads anything."""
        page.on("request", self._request)
        page.on("console", lambda line: self._said(line.type, line.text))
        page.on("pageerror", lambda error: self.faults.append(f"script: {error}"))
        page.on("requestfailed", self._failed)
        page.on("response", self._answered)

    def _request(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme not in {"file", "data", "blob", "about"} and address.hostname != "127.0.0.1":
            self.faults.append(f"another host: {request.url}")

    def _failed(self, request: Request) -> None:
        if request.failure != "net::ERR_ABORTED":  # the reader went on before it had come
            self.faults.append(f"not loaded: {request.url} {request.failure}")

    def _answered(self, answer: Response) -> None:
        if answer.status >= 400:
            self.faults.append(f"{answer.status}: {answer.url}")

    def _said(self, kind: str, text: str) -> None:
        if kind in {"error", "warning"}:  # a breach of the Content-Security-Policy is said as an error
            self.faults.append(f"console {kind}: {text}")

    def check(self) -> None:
        """Fail with all that was seen."""
        assert not self.faults, "\n".join(self.faults)


OpenPage = Callable[..., Page]


@pytest.fixture
def open_page(browser: Browser) -> Iterator[OpenPage]:
    """Open an address in a fresh window under the guard: `open_page(address, width=360, scheme="dark")`."""
    guard = Guard()
    contexts = []

    def opened(
        address: str, *, width: int = 1280, scheme: str = "light", scripts: bool = True, **options: object
    ) -> Page:
        context = browser.new_context(
            viewport={"width": width, "height": 900},
            color_scheme=scheme,  # type: ignore[arg-type]
            java_script_enabled=scripts,
            **options,  # type: ignore[arg-type]
        )
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(10_000)
        guard.watch(page)
        page.goto(address)
        return page

    opened.guard = guard  # type: ignore[attr-defined]
    yield opened
    for context in contexts:
        context.close()
    guard.check()
