"""The long forms of the trials that take whole builds and commands: kills, secrets, equal bytes."""

from __future__ import annotations

import shutil
import time
from pathlib import Path

from builder.build import Options, build
from tests.checks.examples import example_settings
from tests.commands.archives import write_archive
from tests.trust.commands_killed import COMMANDS, Killed, kill_commands
from tests.trust.faults import kill_builds, site_bytes
from tests.trust.judging import make_folder
from tests.trust.row import Row
from tests.trust.schema_against_checks import compare
from tests.trust.test_privacy import SECRETS, told, write_secret_archive
from tests.trust.test_sameness import USERS, built_by


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


def commands_killed(seconds: float, folder: Path) -> Row:
    """Kill every other command that writes, at least 200 times in all, until the time is over."""
    until, rounds, total = time.monotonic() + seconds, 0, Killed()
    while total.killed < 200 or time.monotonic() < until:
        place = folder / str(rounds)
        place.mkdir()
        quick = tuple(name for name in COMMANDS if name != "pack")
        for names, times in ((quick, 6), (("pack",), 1)):
            result = kill_commands(place, times, rounds, names)
            total.killed, total.finished = total.killed + result.killed, total.finished + result.finished
            total.faults += result.faults
        shutil.rmtree(place)
        rounds += 1
    good = "nothing half written, nothing lost, nothing left behind; the next run succeeded or said that all is done"
    return Row(f"{', '.join(_NAMES)} killed at random moments", total.killed, tuple(total.faults), good)


_NAMES = tuple(f"`{name}`" for name in dict.fromkeys(name.partition(",")[0] for name in COMMANDS))


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
