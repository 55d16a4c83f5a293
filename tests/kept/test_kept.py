"""What is kept comes back unchanged or not at all."""

from __future__ import annotations

import os
import pickle
import sqlite3
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from builder.base.problem import Severity
from builder.kept.digest import digest
from builder.kept.fingerprints import RESTED_NS, folder_fingerprint
from builder.kept.folder import Folder
from builder.kept.packed import packed, unpacked
from builder.kept.store import FILE, Thing, kept
from builder.publish.site import Page
from builder.readings.curve import Event


def test_a_thing_comes_back_for_the_same_version_and_is_gone_for_another(tmp_path: Path) -> None:
    with kept(tmp_path, "one") as store:
        store.keep("shelf", [("name", Thing("key", b"content"))])
    with kept(tmp_path, "one") as store:
        assert store.shelf("shelf") == {"name": Thing("key", b"content")}
    with kept(tmp_path, "two") as store:
        assert store.shelf("shelf") == {}


def test_a_build_that_ends_in_an_error_keeps_what_was_kept_before(tmp_path: Path) -> None:
    with kept(tmp_path, "one") as store:
        store.keep("shelf", [("name", Thing("key", b"before"))])
    with pytest.raises(RuntimeError, match="stop"), kept(tmp_path, "one") as store:
        store.keep("shelf", [("name", Thing("key", b"after"))])
        raise RuntimeError("stop")
    with kept(tmp_path, "one") as store:
        assert store.shelf("shelf")["name"].content == b"before"


def test_a_thing_that_was_tampered_with_is_not_there(tmp_path: Path) -> None:
    with kept(tmp_path, "one") as store:
        store.keep("shelf", [("one", Thing("key", b"content")), ("two", Thing("key", b"content"))])
    base = sqlite3.connect(tmp_path / FILE)
    base.execute("UPDATE kept SET content = x'00' WHERE name = 'one'")
    base.commit()
    base.close()
    with kept(tmp_path, "one") as store:
        assert set(store.shelf("shelf")) == {"two"}


def test_a_shelf_is_cleared_of_all_but_the_wanted(tmp_path: Path) -> None:
    with kept(tmp_path, "one") as store:
        store.keep("shelf", [(name, Thing("key", b"")) for name in "abc"])
        store.clear("shelf", {"b", "d"})
        assert set(store.shelf("shelf")) == {"b"}


def test_without_a_version_nothing_is_kept(tmp_path: Path) -> None:
    with kept(tmp_path, "") as store:
        store.keep("shelf", [("name", Thing("key", b"content"))])
    assert not (tmp_path / FILE).exists()


def test_values_and_arrays_come_back_from_bytes() -> None:
    value = (Event(2.5, "flames"), Severity.ERROR, date(2026, 5, 2), {"a": None}, np.array([1.5, np.nan]))
    found = unpacked(packed(value))
    assert found[:4] == value[:4]
    np.testing.assert_array_equal(found[4], value[4])


class _Trap:
    def __reduce__(self) -> tuple[object, tuple[str]]:
        return os.system, ("true",)


@pytest.mark.parametrize("value", [_Trap(), Path.unlink, print, digest, FILE.join])
def test_bytes_that_would_run_something_are_refused(value: object) -> None:
    with pytest.raises(ValueError, match="no value of ours"):
        unpacked(pickle.dumps(value))


def test_damaged_bytes_are_refused() -> None:
    with pytest.raises(ValueError, match="no value of ours"):
        unpacked(packed((1, 2, 3))[:-3])


@dataclass(frozen=True)
class _Named:
    name: str


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("ab", ("a", "b")),
        (("a", "bc"), ("ab", "c")),
        (1, "1"),
        (1, 1.0),
        (True, 1),
        (None, "None"),
        ({"a": 1, "b": 2}, {"b": 2, "a": 1}),
        (_Named("a"), ("a",)),
        (((),), ((), ())),
        (b"a", "a"),
    ],
)
def test_values_that_differ_have_digests_that_differ(one: object, other: object) -> None:
    assert digest(one) != digest(other)


def test_a_set_has_one_digest_whatever_its_order_in_memory() -> None:
    words = [f"word {number}" for number in range(50)]
    assert digest(frozenset(words)) == digest(frozenset(reversed(words)))


def test_a_page_has_a_digest_and_an_array_has_none() -> None:
    assert digest(Page("a", "b", "c")) == digest(Page("a", "b", "c")) != digest(Page("a", "b", "d"))
    with pytest.raises(TypeError, match="ndarray has no digest"):
        digest(np.zeros(3))


def _aged(path: Path) -> None:
    """Set a file's time back beyond doubt; what the system itself notes of the change stays young."""
    past = path.stat().st_mtime_ns - 2 * RESTED_NS
    os.utime(path, ns=(past, past))


def test_a_fingerprint_tells_contents_and_names_apart(tmp_path: Path) -> None:
    (tmp_path / "entry.md").write_text("one")
    first = folder_fingerprint(tmp_path, None)
    (tmp_path / "entry.md").write_text("two")
    second = folder_fingerprint(tmp_path, first)
    (tmp_path / "entry.md").rename(tmp_path / "story.md")
    third = folder_fingerprint(tmp_path, second)
    assert first is not None and second is not None and third is not None
    assert len({first.content, second.content, third.content}) == 3


def test_a_file_that_was_only_just_written_is_read_again_next_time(tmp_path: Path) -> None:
    """Another save within the clock's step would leave the same size and time."""
    (tmp_path / "entry.md").write_text("one")
    _aged(tmp_path / "entry.md")
    found = folder_fingerprint(tmp_path, None)
    assert found is not None and not found.rested


def test_a_folder_with_a_link_in_it_has_no_fingerprint(tmp_path: Path) -> None:
    (tmp_path / "entry.md").symlink_to("/etc/hostname")
    assert folder_fingerprint(tmp_path, None) is None
    assert folder_fingerprint(tmp_path / "nowhere", None) is None


def test_a_folder_never_writes_through_a_link(tmp_path: Path) -> None:
    (tmp_path / "precious").write_text("mine")
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs/a.md").symlink_to(tmp_path / "precious")
    docs = Folder(tmp_path / "docs", "docs")
    docs.put("a.md", b"ours")
    assert (tmp_path / "precious").read_text() == "mine"
    assert (tmp_path / "docs/a.md").read_text() == "ours"


def test_a_folder_leaves_alone_what_it_holds_already(tmp_path: Path) -> None:
    with kept(tmp_path, "one") as store:
        docs = Folder(tmp_path / "docs", "docs", store)
        docs.put("a/b.md", b"words")
        docs.put("c.md", b"words")
        docs.keep(store)
    before = (tmp_path / "docs/a/b.md").stat().st_mtime_ns
    with kept(tmp_path, "one") as store:
        docs = Folder(tmp_path / "docs", "docs", store)
        docs.put("a/b.md", b"words")
        docs.sweep({"a/b.md"})
    assert (tmp_path / "docs/a/b.md").stat().st_mtime_ns == before
    assert not (tmp_path / "docs/c.md").exists()
