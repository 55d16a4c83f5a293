"""The long forms of the trials that take whole builds: kills, attacks in a browser, secrets, equal bytes."""

from __future__ import annotations

import shutil
import time
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from builder.build import Options, build
from tests.checks.examples import example_settings
from tests.commands.archives import write_archive
from tests.trust.attacks import ATTACKS
from tests.trust.faults import kill_builds, site_bytes
from tests.trust.hostile_archive import attacking, write_hostile_archive
from tests.trust.judging import make_folder
from tests.trust.opening import html_pages, open_all
from tests.trust.schema_against_checks import compare
from tests.trust.test_privacy import SECRETS, told, write_secret_archive
from tests.trust.test_sameness import USERS, built_by


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table."""

    what: str
    count: int | str
    faults: tuple[str, ...]
    good: str = "nothing"
    """What is said where there are no faults."""

    def __str__(self) -> str:
        found = "; ".join(self.faults)[:2000].replace("\n", " ").replace("|", "/") if self.faults else self.good
        count = f"{self.count:,}" if isinstance(self.count, int) else self.count
        return f"| {self.what} | {count} | {found} |"


def schema_compared(seconds: float, folder: Path) -> Row:
    """Compare the schema and the checks until the time is over."""
    until, tried, faults, place = time.monotonic() + seconds, 0, [], make_folder(folder)
    while time.monotonic() < until:
        faults += compare(250, place, example_settings(), 1_000_000 + tried).unexplained
        tried += 250
    return Row("spoilt entries judged by the JSON Schema and by the checks", tried, tuple(faults), "no difference")


def builds_killed(seconds: float, folder: Path) -> Row:
    """Kill builds until the time is over, at least 200."""
    until, killed, looks, rounds = time.monotonic() + seconds, 0, 0, 0
    faults: list[str] = []
    while killed < 200 or time.monotonic() < until:
        place = folder / str(rounds)
        place.mkdir()
        result = kill_builds(place, 25, seed=rounds)
        killed, looks, rounds = killed + result.killed, looks + result.looks, rounds + 1
        faults += result.faults or ()
        shutil.rmtree(place)
    good = f"nothing lost; the site was read {looks:,} times meanwhile and was whole each time"
    return Row("builds killed at random moments", killed, tuple(faults), good)


def attacks_opened(seconds: float, folder: Path) -> Row:
    """Build every attack into every place that takes it and open all pages, until the time is over."""
    path = next((found for name in ("chromium", "google-chrome") if (found := shutil.which(name))), None)
    if path is None:
        return Row("pages full of attacks opened in Chromium", 0, ("there is no Chromium on this machine",))
    until, pages, first = time.monotonic() + seconds, 0, 0
    faults: list[str] = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        while first < len(ATTACKS) and (first == 0 or time.monotonic() < until):
            project = write_hostile_archive(folder / str(first), 20, attacking, first=first)
            build(Options(project, project / "site"))
            page = browser.new_page()
            _listen(page, faults)
            opened = open_all(page, project / "site", html_pages(project / "site"))
            page.close()
            pages, first = pages + opened.pages, first + 20
            faults += opened.faults
            shutil.rmtree(project)
        browser.close()
    good = (
        f"nothing ran, nothing loaded; {len(ATTACKS)} attacks, {min(first, len(ATTACKS))} of them in every single place"
    )
    return Row("pages full of attacks opened in Chromium", pages, tuple(faults), good)


def _listen(page: Page, faults: list[str]) -> None:
    """Take down every request to elsewhere, and every breach of the policy, which the console tells."""
    page.on(
        "request", lambda request: None if request.url.startswith(("file:", "data:")) else faults.append(request.url)
    )
    page.on("console", lambda line: faults.append(line.text) if line.type == "error" else None)


def secrets_searched(seconds: float, folder: Path) -> Row:
    """Plant secrets, build for the web and for a stick, and search every byte."""
    project = write_secret_archive(folder / "archive")
    build(Options(project, project / "site"))
    build(Options(project, project / "stick", offline=True))
    found = [*told(project / "site"), *told(project / "stick"), *told(project / ".ashbook" / "docs")]
    size = sum(len(raw) for name in ("site", "stick") for raw in site_bytes(project / name).values())
    return Row("bytes of sites searched for planted secrets", size, tuple(map(str, found)), f"none of {len(SECRETS)}")


def bytes_compared(seconds: float, folder: Path) -> Row:
    """Build one archive as two people who differ in everything, cold and warm, and compare."""
    sites = []
    for number, user in enumerate(USERS):
        project = write_archive(folder / f"place {number}", 30)
        sites += [built_by(user, project, folder / f"home {number}") for _ in range(2)]
    differing = {name for site in sites for name in site if site[name] != sites[0].get(name)}
    size = sum(sum(map(len, site.values())) for site in sites)
    return Row(
        "bytes compared between folders, users, locales, zones, cores, cold and warm",
        size,
        tuple(sorted(differing)),
        "all equal",
    )
