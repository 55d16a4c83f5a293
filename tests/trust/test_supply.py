"""What the program is made from is bounded, and building asks nothing of any network."""

from __future__ import annotations

import re
import socket
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.version import Version

from tests.commands.archives import write_archive

PROJECT = Path(__file__).parents[2]
TOLD = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))
STUBS = "types-"
"""Stubs follow their library's number and are used by the type checker alone."""


def _requirements() -> list[Requirement]:
    extras = TOLD["project"]["optional-dependencies"].values()
    told = [
        *TOLD["build-system"]["requires"],
        *TOLD["project"]["dependencies"],
        *(one for many in extras for one in many),
    ]
    return [Requirement(one) for one in told]


def _plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


CONSTRAINTS = {
    _plain(name): Version(version)
    for name, _, version in (
        line.partition("==")
        for line in (PROJECT / "constraints.txt").read_text(encoding="utf-8").splitlines()
        if line and not line.startswith("#")
    )
}


@pytest.mark.parametrize("required", _requirements(), ids=lambda required: required.name)
def test_every_dependency_is_bounded_below_and_above_and_comes_from_the_index(required: Requirement) -> None:
    assert required.url is None
    if not required.name.startswith(STUBS):
        assert {one.operator for one in required.specifier} >= {">=", "<"}


@pytest.mark.parametrize("required", _requirements()[1:], ids=lambda required: required.name)
def test_the_constraints_name_a_version_within_the_bounds(required: Requirement) -> None:
    assert CONSTRAINTS[_plain(required.name)] in required.specifier


def test_the_constraints_are_exact_numbers_and_nothing_else() -> None:
    lines = (PROJECT / "constraints.txt").read_text(encoding="utf-8").splitlines()
    wrong = [line for line in lines if not re.fullmatch(r"#.*|[A-Za-z0-9._-]+==[0-9][0-9A-Za-z.+!]*", line)]
    assert wrong == []


_NO_NETWORK = """
import socket, sys
def refused(*given, **named):
    raise AssertionError("the build asked for a network")
for name in ("connect", "connect_ex", "bind", "sendto"):
    setattr(socket.socket, name, refused)
socket.getaddrinfo = socket.gethostbyname = socket.create_connection = refused
from builder.commands.cli import main
sys.exit(main(sys.argv[1:]))
"""


def _build(project: Path, *before: str) -> subprocess.CompletedProcess[str]:
    command = [*before, sys.executable, "-c", _NO_NETWORK, "--project", str(project), "build"]
    return subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, check=False)


def test_a_build_makes_no_call_to_a_network(tmp_path: Path) -> None:
    done = _build(write_archive(tmp_path / "archive", 2))
    assert (done.returncode, done.stderr.count("published")) == (0, 1), done.stderr


def test_a_build_works_where_there_is_no_network_at_all(tmp_path: Path) -> None:
    alone = ["unshare", "-n", "--"]
    try:
        able = subprocess.run([*alone, "true"], capture_output=True, check=False).returncode == 0
    except FileNotFoundError:
        able = False
    if not able:
        pytest.skip("only an administrator on Linux can take a process off the network")
    done = _build(write_archive(tmp_path / "archive", 2), *alone)
    assert done.returncode == 0, done.stderr


def test_the_guard_against_the_network_would_notice() -> None:
    probe = _NO_NETWORK.replace("from builder.commands.cli import main", "socket.create_connection(('127.0.0.1', 9))")
    done = subprocess.run([sys.executable, "-c", probe], capture_output=True, text=True, check=False)
    assert "asked for a network" in done.stderr
    assert socket.create_connection.__module__ == "socket"
