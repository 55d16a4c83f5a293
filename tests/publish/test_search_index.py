"""The search index: the words of every page in files of one size, in the order of the alphabet, the same each time."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.kept.folder import Folder
from builder.kept.store import kept
from builder.publish.search_index import (
    OFTEN,
    ONCE,
    PAGES_EACH,
    TAG,
    TITLE,
    WORDS_BYTES,
    Part,
    Searched,
    searched_pages,
    words_of,
)
from tests.publish.reading_index import Index, index_files, read_index, renewed, told


def page(number: int, text: str, title: str = "", tags: tuple[str, ...] = ()) -> Searched:
    return Searched(f"p-{number}.html", title or f"Page {number}", tags, (Part("", "", text),))


def indexed(folder: Path, *pages: Searched) -> Index:
    for address, content in index_files(pages).items():
        (folder / address).parent.mkdir(exist_ok=True)
        (folder / address).write_bytes(content)
    return read_index(folder)


def test_a_word_knows_its_pages_and_where_each_has_it(tmp_path: Path) -> None:
    index = indexed(
        tmp_path,
        page(0, "ash ash ash"),
        page(1, "ash"),
        page(2, "none"),
        page(3, "", "Ash"),
        page(4, "", "B", ("ash",)),
    )
    assert index.words["ash"] == {0: OFTEN, 1: ONCE, 3: TITLE, 4: TAG}


def test_a_large_index_is_cut_into_files_of_about_one_size(tmp_path: Path) -> None:
    chance = random.Random(1)
    pages = [page(number, " ".join(f"w{chance.randrange(9000)}" for _ in range(90))) for number in range(400)]
    index = indexed(tmp_path, *pages)
    assert len(index.pages) == 400
    sizes = [path.stat().st_size for path in (tmp_path / "search").glob("words-*.js")]
    assert len(sizes) > 4
    assert max(sizes) < 1.5 * WORDS_BYTES
    assert len(list((tmp_path / "search").glob("pages-*.js"))) == 400 // PAGES_EACH
    for number in (0, 199, 399):
        for word in words_of(pages[number].parts[0].text):
            assert f"p-{number}.html" in index.pages_of(word)


def test_an_empty_site_has_an_index_of_nothing(tmp_path: Path) -> None:
    assert indexed(tmp_path).pages == []


def test_a_page_of_mkdocs_becomes_its_parts_in_plain_words() -> None:
    told = [
        {"location": "a.html", "title": "A & <B>", "text": "<p>One &lt; two</p>", "tags": ["x"]},
        {"location": "a.html#smoke", "title": "Smoke", "text": "<ul><li>Keep</li><li>upwind</li></ul>"},
    ]
    found = list(searched_pages(["", ",".join(map(json.dumps, told))]))
    assert found == [
        Searched("a.html", "A & <B>", ("x",), (Part("", "", "One < two"), Part("smoke", "Smoke", "Keep upwind")))
    ]


@given(st.lists(st.text(max_size=40), max_size=6))
def test_nothing_that_anybody_writes_ends_the_script(texts: list[str]) -> None:
    for content in index_files([page(number, text, text, (text,)) for number, text in enumerate(texts)]).values():
        told = content.decode("utf-8", "surrogatepass")
        assert "<" not in told
        assert not {"\u2028", "\u2029"} & set(told)


@given(st.text(max_size=60))
def test_words_are_folded_once_and_for_all(text: str) -> None:
    """A word that was cut and folded is cut and folded into itself, or into parts of itself."""
    for word in words_of(text):
        assert "".join(words_of(word)).startswith(word[:1])


def test_the_same_pages_give_the_same_bytes_and_another_word_another_version() -> None:
    pages = [page(0, "one"), page(1, "two")]
    assert index_files(pages) == index_files(list(pages))
    assert (
        index_files(pages)["search/directory.js"]
        != index_files([page(0, "one"), page(1, "three")])["search/directory.js"]
    )


def test_an_index_renewed_after_any_changes_is_that_made_from_nothing(tmp_path: Path) -> None:
    chance = random.Random(3)
    words = [f"w{number}" for number in range(300)]

    def anew(number: int) -> Searched:
        return page(number, " ".join(chance.choices(words, k=30)), chance.choice(words), (chance.choice(words),))

    pages = [anew(number) for number in range(60)]
    before: dict[str, str] = {}
    docs = Folder(tmp_path / "docs", "docs")
    with kept(tmp_path, "1") as store:
        for changes in (0, 1, 3, 0, 2, 40, 1, 1, 2):
            for place in chance.sample(range(len(pages)), changes):
                pages[place] = anew(place)
            for _ in range(chance.randrange(2)):  # what was kept is damaged, and so is not there
                store.clear("searched pages", {one.address for one in chance.sample(pages, 40)})
            if changes == 2:
                pages = [*pages[:7], anew(100), *pages[8:]]
            now = {one.address: told(one) for one in pages}
            files = renewed(docs, store, now, {one: now[one] for one in now if now[one] != before.get(one)})
            docs.sweep(files)
            assert {address: (docs.root / address).read_bytes() for address in files} == index_files(pages)
            before = now


def test_of_an_index_only_what_a_changed_page_touches_is_made_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pages = {f"p-{number}.html": told(page(number, f"word {number}")) for number in range(60)}
    docs = Folder(tmp_path / "docs", "docs")
    with kept(tmp_path, "1") as store:
        before = renewed(docs, store, pages)
        monkeypatch.setattr("builder.publish.index_parts.counted", None)
        changed = {"p-20.html": told(page(20, "other words"))}
        after = renewed(docs, store, pages | changed, changed)
    assert {address for address in before if before[address] != after[address]} == {
        "search/words-0.js",
        "search/pages-2.js",
        "search/directory.js",
    }


def test_one_search_loads_a_small_part_of_a_large_index(tmp_path: Path) -> None:
    """At 3,000 pages: the directory, one or two files of words, and at most a file of texts for each result shown."""
    chance = random.Random(2)
    known = [f"{number:x}w" for number in range(12_000)]
    frequent = [1 / place for place in range(1, 12_001)]
    pages = [page(number, " ".join(chance.choices(known, frequent, k=220))) for number in range(3_000)]
    files = index_files(pages)
    largest = {kind: max(len(files[name]) for name in files if f"/{kind}-" in name) for kind in ("words", "pages")}
    assert len(files["search/directory.js"]) + 2 * largest["words"] + 20 * largest["pages"] < 350_000
    assert sum(map(len, files.values())) > 4_000_000
