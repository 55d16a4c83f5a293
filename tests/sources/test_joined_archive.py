"""Two groups' archives become a third: from a folder and a zip, figures the same, every firing with its group."""

from __future__ import annotations

import csv
import io
import json
import re
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import jsonschema
import pytest

from builder.build import Built, Options, build
from tests.nu_checker import check_pages, check_xml
from tests.sources.groups import contents, joined_demo, packed, split_demo


@dataclass(frozen=True, slots=True)
class Joined:
    """Two groups and the archive made of them."""

    lode: Path
    fen: Path
    both: Path
    built: Built

    @property
    def site(self) -> Path:
        return self.both / "site"

    def page(self, address: str) -> str:
        return (self.site / address).read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def three(tmp_path_factory: pytest.TempPathFactory) -> Joined:
    root = tmp_path_factory.mktemp("groups")
    lode, fen = split_demo(root)
    for project in (lode, fen):
        build(Options(project, project / "site"))
    packed(fen, root / "fen.zip")
    both = joined_demo(root, "  lode: ../lode/site\n  fen: ../fen.zip\n")
    return Joined(lode, fen, both, build(Options(both, both / "site")))


def rows(site: Path, table: str) -> list[dict[str, str]]:
    text = (site / "data" / f"{table}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def by_firing(three: Joined, table: str) -> Iterator[tuple[dict[str, str], dict[str, str]]]:
    """Yield each row of the groups' own tables beside the same row of the joined archive."""
    own = [
        (f"{name}--{row['firing']}", row)
        for name, project in (("lode", three.lode), ("fen", three.fen))
        for row in rows(project / "site", table)
    ]
    found: dict[str, list[dict[str, str]]] = {}
    for row in rows(three.site, table):
        found.setdefault(row["firing"], []).append(row)
    places: dict[str, int] = {}
    for firing, row in own:
        place = places.setdefault(firing, 0)
        places[firing] += 1
        yield row, found[firing][place]
    assert places == {firing: len(several) for firing, several in found.items()}


def test_every_firing_is_there_and_nothing_is_wrong(three: Joined) -> None:
    assert three.built.problems == ()
    assert (three.built.entries, three.built.published) == (51, 51)


def test_every_figure_is_the_one_of_its_own_group_s_site(three: Joined) -> None:
    """All columns of firings.csv, intervals too, but for those that say whose it is and where it stands."""
    whose = {"firing", "potter", "published_at", "entry", "url"}
    compared = list(by_firing(three, "firings"))
    assert len(compared) == 51
    for own, here in compared:
        assert {name: cell for name, cell in here.items() if name not in whose} == {
            name: cell for name, cell in own.items() if name not in whose
        }


@pytest.mark.parametrize("table", ["readings", "pieces"])
def test_every_reading_and_piece_is_the_one_of_its_own_group_s_site(three: Joined, table: str) -> None:
    for own, here in by_firing(three, table):
        assert here | {"firing": ""} == own | {"firing": ""}


def test_each_row_tells_group_licence_and_where_it_was_published(three: Joined) -> None:
    found = {row["firing"]: row for row in rows(three.site, "firings")}
    lode = found["lode--2024-04-20-pale-jar-first"]
    assert (lode["group"], lode["licence"]) == ("The Lode Group", "CC-BY-4.0")
    assert lode["published_at"] == "https://lode.example/fires/firings/2024-04-20-pale-jar-first.html"
    fen = found["fen--2024-05-11-three-cups"]
    assert (fen["group"], fen["licence"]) == ("The Fen Group", "CC0-1.0")
    assert fen["published_at"].startswith("https://fen.example/fires/")
    assert (fen["entry"], fen["potter"]) == ("", "fen--hesper")


def test_rates_take_each_fire_once_over_all_groups(three: Joined) -> None:
    def counts(site: Path) -> dict[tuple[str, str], tuple[int, int, int]]:
        return {
            (row["method"], row["outcome"]): (int(row["firings"]), int(row["pieces"]), int(row["successes"]))
            for row in rows(site, "rates")
        }

    lode, fen, both = counts(three.lode / "site"), counts(three.fen / "site"), counts(three.site)
    nothing = (0, 0, 0)
    assert both == {
        key: tuple(a + b for a, b in zip(lode.get(key, nothing), fen.get(key, nothing), strict=True)) for key in both
    }
    assert both.keys() == lode.keys() | fen.keys()


def test_a_firing_s_page_names_its_group_and_the_way_back(three: Joined) -> None:
    page = three.page("firings/fen--2024-05-11-three-cups.html")
    assert '<a href="../groups/fen.html">The Fen Group</a>' in page
    back = "https://fen.example/fires/firings/2024-05-11-three-cups.html"
    assert f'<a href="{back}" rel="noopener noreferrer">Read it where it was published</a>' in page
    assert "<dt>Licence</dt><dd>CC0-1.0</dd>" in page
    assert f"in The Fen Ashbook, The Fen Group. {back}. CC0-1.0." in page
    assert "<img" not in page


def test_what_a_page_tells_machines_is_its_own_group_s(three: Joined) -> None:
    page = three.page("firings/fen--2024-05-11-three-cups.html")
    match = re.search(r'<script type="application/ld\+json">(.*?)</script>', page, re.DOTALL)
    assert match is not None
    told = json.loads(match[1])
    assert told["publisher"]["name"] == "The Fen Group"
    assert told["license"]["identifier"] == "CC0-1.0"
    assert told["isBasedOn"] == "https://fen.example/fires/firings/2024-05-11-three-cups.html"


def test_the_story_is_the_one_of_its_own_page(three: Joined) -> None:
    def story(page: str) -> str:
        return page.partition('<div class="spread story">')[2].partition("<section")[0]

    own = (three.lode / "site/firings/2024-04-20-pale-jar-first.html").read_text(encoding="utf-8")
    here = three.page("firings/lode--2024-04-20-pale-jar-first.html")
    assert len(story(own)) > 500
    assert story(here) == story(own)


def test_the_groups_are_a_way_in_and_a_facet(three: Joined) -> None:
    index = three.page("groups/index.html")
    assert "29\N{NO-BREAK SPACE}firings · Licence: CC-BY-4.0" in index
    assert "22\N{NO-BREAK SPACE}firings · Licence: CC0-1.0" in index
    assert 'href="https://fen.example/fires/"' in index
    group = three.page("groups/fen.html")
    assert group.count('class="firing-line"') == 22
    assert "Judged alike there and here" in group
    assert 'href="groups/index.html"' in three.page("index.html")
    assert "The Fen Group" in three.page("firings/index.html")


def test_two_potters_of_one_name_stay_two(three: Joined) -> None:
    index = three.page("potters/index.html")
    assert "Wren Oddie (The Lode Group)" in index
    assert "Wren Oddie (The Fen Group)" in index
    assert (three.site / "potters/lode--wren.html").is_file()


def test_only_the_archive_s_own_potters_are_offered_for_writing_up(three: Joined) -> None:
    page = three.page("write-up.html")
    assert "Wren Oddie" not in page
    assert "names no potter of its own" in page
    schema = json.loads((three.site / "data/entry.schema.json").read_bytes())
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["$defs"]["potter"] == {"not": {}}


def test_a_joined_archive_publishes_no_entry_of_another_group(three: Joined) -> None:
    assert not (three.site / "data/entries").exists()
    assert json.loads((three.site / "data/settings.json").read_bytes())["potters"] == {}
    assert len(list((three.lode / "site/data/entries").iterdir())) == 29


def test_a_feed_s_entry_has_the_id_that_its_own_group_gave_it(three: Joined) -> None:
    ids = {item["id"] for item in json.loads((three.lode / "site/feed.json").read_bytes())["items"]}
    both = json.loads((three.site / "feed.json").read_bytes())["items"]
    assert ids <= {item["id"] for item in both} | ids
    assert len(ids & {item["id"] for item in both}) >= 28
    assert all(item["external_url"].startswith("https://") for item in both)


def test_outside_checkers_find_nothing_in_the_pages_of_groups_and_in_the_feed(three: Joined) -> None:
    """But for the policy, which knows no place for pages of a folder (see `tests/browser/test_nu_checker.py`)."""
    firing = three.site / "firings/fen--2024-05-11-three-cups.html"
    told = check_pages([*(three.site / "groups").glob("*.html"), firing, three.site / "write-up.html"])
    assert [one for one in told if "Content Security Policy" not in one.words] == []
    schema = Path(__file__).parents[1] / "schemas" / "atom.rnc"
    assert check_xml(three.site / "feed.xml", schema) == []
    feed = (three.site / "feed.xml").read_text(encoding="utf-8")
    assert 'rel="via" href="https://lode.example/fires/firings/' in feed


def test_the_same_content_gives_the_same_bytes_from_a_folder_or_a_zip_renewed_or_new(
    three: Joined, tmp_path: Path
) -> None:
    before = contents(three.site)
    build(Options(three.both, three.site))
    assert contents(three.site) == before
    again = joined_demo(tmp_path, f"  lode: {three.lode}/site/data\n  fen: {three.fen}/site\n")
    build(Options(again, again / "site", jobs=1))
    told = contents(again / "site")
    assert told.keys() == before.keys()
    assert [name for name in before if told[name] != before[name]] == []


def test_a_source_that_cannot_be_read_is_one_problem_and_the_rest_is_built(three: Joined, tmp_path: Path) -> None:
    both = joined_demo(tmp_path, f"  lode: {three.lode}/site\n  fen: nowhere.zip\n")
    built = build(Options(both, both / "site"))
    assert [(found.code, found.place.file) for found in built.problems] == [("source-missing", "fen")]
    assert built.published == 29
    about = (both / "site/about.html").read_text(encoding="utf-8")
    assert "<code>fen</code>" in about
    assert "nowhere.zip" not in about  # where things lie on the keeper's disk is nobody's business


def test_a_broken_entry_of_a_source_is_told_by_its_source_and_left_out(three: Joined, tmp_path: Path) -> None:
    site = tmp_path / "lode-site"
    shutil.copytree(three.lode / "site", site)
    entry = site / "data/entries/2024-04-20-pale-jar-first/entry.txt"
    entry.write_text(entry.read_text(encoding="utf-8").replace("survival: broken", "survival: bropken"), "utf-8")
    both = joined_demo(tmp_path, "  lode: ../lode-site\n")
    built = build(Options(both, both / "site"))
    place = "lode/data/entries/2024-04-20-pale-jar-first/entry.txt"
    assert {(found.code, found.place.file) for found in built.problems} == {("not-listed", place)}
    assert built.published == 28
