"""`ashbook preview`: build, serve on this machine only, build again on save."""

from __future__ import annotations

import argparse
import functools
import http.server
import importlib
import os
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from builder.asked import SETTINGS_FILE, Built, Options
from builder.base.problem import has_errors
from builder.commands.progress import StagedProgress
from builder.commands.report import report, summary
from builder.publish.errors import PublishError
from builder.renew import renew

LOOK_EVERY_S = 0.4
"""How often the project is looked at for a saved file."""
ASK_PATH = "/.ashbook-preview"
_SCRIPT = f"""
const seen = await (await fetch("{ASK_PATH}")).text();
setInterval(async () => {{
  const now = await fetch("{ASK_PATH}").then((answer) => answer.text(), () => seen);
  if (now !== seen) location.reload();
}}, 700);
"""
"""Reloads the page once the site behind it is another. Served by the preview alone; no site ever holds it."""
_LOADED = (
    "builder.stages",
    "builder.pages.site_pages",
    "builder.exports.export_files",
    "builder.pages.list_columns",
    "builder.publish.making",
    "builder.publish.markdown_reader",
)
"""What the next build may need, loaded while the potter still writes: a site that stood loaded nothing."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what the command can be told."""
    parser.add_argument("--port", type=_port, default=8765, metavar="N", help="port on this machine (default: 8765)")


def _port(text: str) -> int:
    if not text.isdecimal() or not 0 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"`{text}` is not a port from 0 to 65535")
    return int(text)


def run(args: argparse.Namespace) -> int:
    """Serve the site until interrupted."""
    # On the project's own disk a new site takes the old one's place in one step, however large it is.
    with tempfile.TemporaryDirectory(prefix=".ashbook-preview-", dir=args.project) as folder:
        options = Options(args.project, Path(folder) / "site")
        preview = Preview(options)
        if not preview.renew() and preview.version == 0:
            return 1
        try:
            server = serve(preview, args.port)
        except OSError as error:
            print(f"Port {args.port} cannot be used: {error.strerror}. Try `--port 0`.", file=sys.stderr)
            return 2
        with server:
            print(f"Look at http://127.0.0.1:{server.server_address[1]}/ - stop with Ctrl-C.", flush=True)
            threading.Thread(target=server.serve_forever, daemon=True).start()
            for module in _LOADED:
                importlib.import_module(module)
            try:
                preview.watch()
            except KeyboardInterrupt:
                print("\nStopped.", file=sys.stderr)
            finally:
                server.shutdown()
    return 0


class Preview:
    """The last good site, renewed when something in the project is saved."""

    def __init__(self, options: Options) -> None:
        self.options = options
        self.version = 0
        """Counts the good sites; 0 while there is none."""

    def renew(self) -> bool:
        """Build; tell what happened; return whether there is a new site.

        While an entry has an error the last good site stays. The first build leaves broken entries out, so that
        there is something to look at.
        """
        progress = StagedProgress()
        try:
            options = (
                self.options if self.version == 0 else Options(self.options.project, self.options.out, strict=True)
            )
            built = renew(options, progress)
        except PublishError as error:
            progress.close()
            print(f"The site was not renewed: {error}", file=sys.stderr)
            return False
        progress.close()
        return self._told(built)

    def _told(self, built: Built) -> bool:
        drawn = report(built.problems, self.options.project, "text")
        if drawn:
            print(drawn)
        print(summary(built.problems, built.entries), file=sys.stderr)
        if built.published is None:
            if has_errors(built.problems) and self.version:
                print("You still see the last good site.", file=sys.stderr)
            return False
        self.version += 1
        return True

    def watch(self) -> None:
        """Renew the site whenever a file of the project changes; never returns."""
        seen = snapshot(self.options.project)
        while True:
            time.sleep(LOOK_EVERY_S)
            now = snapshot(self.options.project)
            if now != seen:
                seen = now
                self.renew()


def snapshot(project: Path) -> dict[str, tuple[int, int]]:
    """Return size and time of every file that the site depends on."""
    found = {}
    for path in _watched(project):
        try:
            status = path.stat()
        except OSError:
            continue  # Gone between listing and looking: the next look will see it.
        found[str(path)] = (status.st_mtime_ns, status.st_size)
    return found


def _watched(project: Path) -> Iterator[Path]:
    yield project / SETTINGS_FILE
    for folder, _, names in os.walk(project / "content"):
        for name in names:
            yield Path(folder) / name


def serve(preview: Preview, port: int) -> http.server.ThreadingHTTPServer:
    """Make a server for the preview's site, reachable from this machine only."""
    handler = functools.partial(_Handler, preview=preview, directory=str(preview.options.out))
    return http.server.ThreadingHTTPServer(("127.0.0.1", port), handler)


class _Handler(http.server.SimpleHTTPRequestHandler):
    """Serves the site's files, and tells an open page which site it is looking at."""

    def __init__(self, *args: Any, preview: Preview, **kwargs: Any) -> None:
        self.preview = preview
        super().__init__(*args, **kwargs)

    def do_GET(self) -> None:
        if self.path == ASK_PATH:
            self._answer(str(self.preview.version).encode(), "text/plain")
        elif self.path == f"{ASK_PATH}.js":
            self._answer(_SCRIPT.encode(), "text/javascript")
        elif (page := self._page()) is not None:
            script = f'<script type="module" src="{ASK_PATH}.js"></script></body>'.encode()
            self._answer(page.replace(b"</body>", script, 1), "text/html; charset=utf-8")
        else:
            super().do_GET()

    def _page(self) -> bytes | None:
        """Return the page that was asked for, or None where something else was."""
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        return path.read_bytes() if path.suffix == ".html" and path.is_file() else None

    def _answer(self, content: bytes, kind: str) -> None:
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing of each request."""
