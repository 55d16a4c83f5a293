"""What is kept comes back unchanged or not at all."""

from __future__ import annotations

import os
import pickle
import random
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


def _things(build: int) -> dict[str, Thing]:
    return {f"name {number}": Thing(f"key {build}", bytes([number]) * 3000) for number in range(60)}


@pytest.mark.parametrize("seed", range(60))
def test_a_file_that_was_harmed_anywhere_gives_no_wrong_thing_and_is_whole_after_two_builds(
    seed: int, tmp_path: Path
) -> None:
    chance = random.Random(seed)
    with kept(tmp_path, "one") as store:
        store.keep("shelf", _things(0).items())
    content = bytearray((tmp_path / FILE).read_bytes())
    for _ in range(chance.choice([1, 1, 8])):
        at = chance.randrange(len(content)) if chance.random() < 0.5 else chance.randrange(0, len(content), 4096)
        content[at : at + 8] = chance.randbytes(8)
    if chance.random() < 0.2:
        del content[chance.randrange(len(content)) :]
    (tmp_path / FILE).write_bytes(content)
    for build in (1, 2):
        with kept(tmp_path, "one") as store:
            found = store.shelf("shelf")
            assert all(found[name] in (_things(0)[name], _things(1)[name]) for name in found)
            store.keep("shelf", _things(build).items())
            store.clear("shelf", _things(build))
    with kept(tmp_path, "one") as store:
        assert store.shelf("shelf") == _things(2)


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


def _two_folders(tmp_path: Path) -> tuple[Folder, Folder]:
    docs = Folder(tmp_path / "docs", "docs")
    return docs, Folder(tmp_path / "site", "site", beside=docs)


@pytest.mark.parametrize("links", [True, False])
def test_a_file_that_is_taken_is_the_same_and_is_never_written_to(
    tmp_path: Path, links: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not links:
        monkeypatch.setattr("os.link", _refuse)
    docs, site = _two_folders(tmp_path)
    digest = docs.put("a/b.csv", b"one")
    site.take("a/b.csv", digest, docs)
    assert (tmp_path / "site/a/b.csv").samefile(tmp_path / "docs/a/b.csv") == links
    for folder in (docs, site):
        assert folder.looks == Folder(folder.root, "again").looks
    docs.put("a/b.csv", b"two")
    assert (tmp_path / "site/a/b.csv").read_bytes() == b"one"


def _refuse(source: str, path: str) -> None:
    raise PermissionError(source)


def test_what_somebody_wrote_into_a_file_of_two_folders_is_seen_in_both(tmp_path: Path) -> None:
    docs, site = _two_folders(tmp_path)
    with kept(tmp_path, "one") as store:
        digest = docs.put("a.csv", b"one")
        site.take("a.csv", digest, docs)
        docs.keep(store)
        site.keep(store)
    (tmp_path / "site/a.csv").write_bytes(b"his")
    with kept(tmp_path, "one") as store:
        docs = Folder(tmp_path / "docs", "docs", store)
        site = Folder(tmp_path / "site", "site", store, beside=docs)
        assert docs.digest("a.csv") == site.digest("a.csv") != digest
        site.take("a.csv", docs.put("a.csv", b"one"), docs)
    assert (tmp_path / "site/a.csv").read_bytes() == (tmp_path / "docs/a.csv").read_bytes() == b"one"


def test_what_somebody_wrote_before_it_was_taken_is_not_believed(tmp_path: Path) -> None:
    docs, site = _two_folders(tmp_path)
    digest = docs.put("a.csv", b"one")
    (tmp_path / "docs/a.csv").write_bytes(b"his")
    site.take("a.csv", digest, docs)
    assert site.digest("a.csv") != digest


def test_a_file_that_became_a_link_is_not_taken(tmp_path: Path) -> None:
    (tmp_path / "precious").write_text("mine")
    docs, site = _two_folders(tmp_path)
    digest = docs.put("a.csv", b"one")
    (tmp_path / "docs/a.csv").unlink()
    (tmp_path / "docs/a.csv").symlink_to(tmp_path / "precious")
    with pytest.raises(OSError, match="link"):
        site.take("a.csv", digest, docs)
    assert not (tmp_path / "site/a.csv").is_file()


def test_a_folder_that_is_not_looked_through_keeps_what_was_known_of_it(tmp_path: Path) -> None:
    with kept(tmp_path, "one") as store:
        docs = Folder(tmp_path / "docs", "docs", store)
        digests = {name: docs.put(name, name.encode()) for name in ("a", "b", "c/d")}
        docs.keep(store)
        (tmp_path / "docs/a").write_bytes(b"his")
        seldom = Folder(tmp_path / "docs", "docs", store, through=False)
        assert seldom.digest("a") != digests["a"]
        assert seldom.digest("b") == digests["b"]
        assert seldom.digest("e") is None
        seldom.keep(store)
        (tmp_path / "docs/c/d").chmod(0o600)
        docs = Folder(tmp_path / "docs", "docs", store)
        assert {name: docs.digest(name) for name in digests} == digests | {"a": seldom.digest("a")}
