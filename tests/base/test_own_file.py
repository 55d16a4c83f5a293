"""A file of the archive is opened as a plain file, or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from builder.base.own_file import open_own


def test_a_plain_file_is_read(tmp_path: Path) -> None:
    (tmp_path / "log.csv").write_bytes(b"0:00,14")
    with open_own(tmp_path / "log.csv") as file:
        assert file.read() == b"0:00,14"


def test_a_link_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "secret").write_bytes(b"secret")
    (tmp_path / "log.csv").symlink_to(tmp_path / "secret")
    with pytest.raises(OSError, match="link"):
        open_own(tmp_path / "log.csv")


def test_nothing_is_read_in_a_folder_that_is_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "real" / "log.csv").write_bytes(b"x")
    (tmp_path / "linked").symlink_to(tmp_path / "real")
    with pytest.raises(OSError, match="link"):
        open_own(tmp_path / "linked" / "log.csv")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_refused_at_once_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "log.csv")
    with pytest.raises(OSError, match="plain file"):
        open_own(tmp_path / "log.csv")
