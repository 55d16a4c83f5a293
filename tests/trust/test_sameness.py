"""The same content gives the same bytes: in any folder, for any user, in any language, zone, and number of cores."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from builder.build import Options, build
from tests.commands.archives import write_archive
from tests.trust.faults import site_bytes

PROJECT = Path(__file__).parents[2]

_GERMAN = {"LANG": "de_DE.UTF-8", "LC_ALL": "de_DE.UTF-8", "TZ": "Pacific/Kiritimati", "PYTHONHASHSEED": "1"}
_PLAIN = {"LANG": "C", "LC_ALL": "C", "TZ": "Pacific/Pago_Pago", "PYTHONHASHSEED": "4242", "PYTHONUTF8": "0"}
USERS = ({**_GERMAN, "umask": "077", "jobs": "2"}, {**_PLAIN, "umask": "000", "jobs": "1"})
"""Two people who could hardly differ more."""


def built_by(user: dict[str, str], project: Path, home: Path, **more: str) -> dict[str, bytes]:
    """Build an archive as somebody else would, in a process of their own."""
    home.mkdir(exist_ok=True)
    environment = {"PATH": os.environ["PATH"], "HOME": str(home), **user, **more}
    mask, jobs = int(environment.pop("umask"), 8), environment.pop("jobs")
    command = [sys.executable, "-m", "builder", "--project", str(project), "build", "--jobs", jobs]
    done = subprocess.run(
        command, cwd=PROJECT, env=environment, capture_output=True, text=True, umask=mask, check=False
    )
    assert done.returncode == 0, done.stderr
    return site_bytes(project / "site")


@pytest.fixture(scope="module")
def sites(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, bytes]]:
    folder = tmp_path_factory.mktemp("same")
    places = (folder / "a", folder / "with a space and ümläut" / "deep" / "archive")
    return [
        built_by(user, write_archive(place, 25), folder / f"home {number}")
        for number, (place, user) in enumerate(zip(places, USERS, strict=True))
    ]


def test_two_people_who_differ_in_everything_build_the_same_bytes(sites: list[dict[str, bytes]]) -> None:
    one, other = sites
    assert one.keys() == other.keys()
    assert [name for name in one if one[name] != other[name]] == []
    assert sum(map(len, one.values())) > 1_000_000


def test_a_build_in_this_process_after_others_gives_those_bytes_too(
    sites: list[dict[str, bytes]], tmp_path: Path
) -> None:
    project = write_archive(tmp_path / "archive", 25)
    build(Options(project, project / "site"))
    build(Options(project, project / "site"))
    assert site_bytes(project / "site") == sites[0]


def test_the_date_that_the_environment_names_is_used(tmp_path: Path) -> None:
    user = USERS[0]
    project = write_archive(tmp_path / "archive", 2)
    one = built_by(user, project, tmp_path / "home", SOURCE_DATE_EPOCH="1000000000")
    assert one["sitemap.xml.gz"][4:8] == (999_993_600).to_bytes(4, "little")  # RFC 1952: the time; midnight of that day
