"""What a command makes ready aside: leavings of a killed run are cleared, and nothing is seen before it is whole."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.commands.workplace import clear, emptied, write_whole


def test_a_place_is_empty_whatever_a_killed_run_left_in_it_and_gone_afterwards(tmp_path: Path) -> None:
    place = tmp_path / ".place"
    (place / "left" / "over").mkdir(parents=True)
    (place / "file").write_text("x", encoding="utf-8")
    with emptied(place) as given:
        assert list(given.iterdir()) == []
        (given / "mine").write_text("x", encoding="utf-8")
    assert not place.exists()


def test_a_place_is_gone_also_where_the_work_in_it_failed(tmp_path: Path) -> None:
    with pytest.raises(KeyError, match="mine"), emptied(tmp_path / ".place"):
        raise KeyError("mine")
    assert list(tmp_path.iterdir()) == []


def test_a_link_in_the_place_of_a_folder_is_taken_away_and_not_followed(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "file").write_text("x", encoding="utf-8")
    (tmp_path / ".place").symlink_to(tmp_path / "elsewhere")
    clear(tmp_path / ".place")
    assert (tmp_path / "elsewhere" / "file").is_file()
    assert not (tmp_path / ".place").is_symlink()


def test_a_file_that_could_not_be_written_whole_stays_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "map.yml"
    write_whole(file, b"old")

    def refused(number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", refused)
    with pytest.raises(OSError, match="No space"):
        write_whole(file, b"new")
    assert file.read_bytes() == b"old"
    assert [path.name for path in tmp_path.iterdir()] == ["map.yml"]
