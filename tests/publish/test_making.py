"""A site that is renewed is the site that would have been made from nothing, and only what changed is made again."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from builder.kept.folder import Folder
from builder.kept.store import FILE
from builder.publish.press import press
from builder.publish.publish import publish, publish_from, site_look, theme_folder, workshop
from builder.publish.site import Site
from tests.publish.small_site import FACTS, small_site


@pytest.fixture(autouse=True)
def one_version(monkeypatch: pytest.MonkeyPatch) -> None:
    """Keep the program the same throughout a test, whoever edits it meanwhile."""
    monkeypatch.setattr("builder.publish.publish.program_version", lambda *folders: "this version")
    monkeypatch.setattr("builder.publish.publish._first", {})


def _bytes(site: Path) -> dict[str, bytes]:
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()}


def _made_from_nothing(site: Site, folder: Path) -> dict[str, bytes]:
    publish(site, folder / "site", folder / "work")
    return _bytes(folder / "site")


@pytest.fixture
def pressed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Collect the pages that mkdocs is given to make."""
    seen: list[str] = []

    def listening(config: Path, uris: Sequence[str], site: Folder, jobs: int | None = None) -> object:
        seen.extend(uris)
        return press(config, uris, site, jobs)

    monkeypatch.setattr("builder.publish.making.press", listening)
    return seen


def _changed(site: Site, place: int) -> Site:
    pages = list(site.pages)
    pages[place] = replace(pages[place], prose="<p>Other words.</p>")
    return replace(site, pages=tuple(pages))


def test_only_the_page_that_changed_is_made_again(tmp_path: Path, pressed: list[str]) -> None:
    site = small_site()
    publish(site, tmp_path / "site", tmp_path / "work")
    pressed.clear()
    for changed in (_changed(site, 9), site, _changed(site, 4), _changed(site, 9)):
        publish(changed, tmp_path / "site", tmp_path / "work")
    assert pressed[:3] == ["firings/2026-01-0003-jar.md", "firings/2026-01-0003-jar.md", "cautions.md"]
    assert _bytes(tmp_path / "site") == _made_from_nothing(_changed(site, 9), tmp_path / "new")


def test_nothing_is_made_again_where_nothing_changed(tmp_path: Path, pressed: list[str]) -> None:
    publish(small_site(), tmp_path / "site", tmp_path / "work")
    before = _bytes(tmp_path / "site")
    pressed.clear()
    for _ in range(3):
        publish(small_site(), tmp_path / "site", tmp_path / "work")
        assert _bytes(tmp_path / "site") == before
    assert pressed == []


def test_pages_and_files_that_are_no_more_leave_the_site(tmp_path: Path) -> None:
    for firings in (12, 3, 12, 1):
        publish(small_site(firings), tmp_path / "site", tmp_path / "work")
        new = _made_from_nothing(small_site(firings), tmp_path / f"new-{firings}")
        assert _bytes(tmp_path / "site") == new


def test_another_fact_of_the_site_renews_every_page(tmp_path: Path, pressed: list[str]) -> None:
    publish(small_site(), tmp_path / "site", tmp_path / "work")
    pressed.clear()
    site = replace(small_site(), facts=replace(FACTS, notice="Another notice."))
    publish(site, tmp_path / "site", tmp_path / "work")
    assert len(pressed) == len(site.pages)
    assert _bytes(tmp_path / "site") == _made_from_nothing(site, tmp_path / "new")


def test_what_somebody_changed_in_the_site_or_the_working_folder_is_put_right(tmp_path: Path) -> None:
    site, out, work = small_site(), tmp_path / "site", tmp_path / "work"
    new = _made_from_nothing(site, tmp_path / "new")
    publish(site, out, work)
    publish(site, out, work)
    for place in (out / "about.html", work / "site-new" / "about.html", work / "docs" / "about.md"):
        place.write_text("somebody else's words", encoding="utf-8")
    (out / "stranger.html").write_text("not ours", encoding="utf-8")
    (work / "site-new" / "results.html").unlink()
    (work / "site-new" / "results.html").symlink_to(out / "cautions.html")
    for _ in range(2):
        publish(site, out, work)
        assert _bytes(out) == new
        assert not any(path.is_symlink() for path in out.rglob("*"))


def test_a_site_looks_as_it_did_when_it_was_made(tmp_path: Path) -> None:
    """However its files are shared with the working folder and the site before, also where that was thrown away."""
    out, work = tmp_path / "site", tmp_path / "work"
    for site in (small_site(), small_site(), _changed(small_site(), 9), small_site(3), small_site()):
        with workshop(out, work) as at:
            looks = publish_from(at, site)
        assert looks == site_look(out, work)
        if site == small_site():
            (work / FILE).unlink()


@pytest.mark.parametrize("damage", ["cut", "words", "bits", "folder", "gone"])
def test_damage_to_what_was_kept_is_passed_over(tmp_path: Path, damage: str) -> None:
    site, kept = small_site(), tmp_path / "work" / FILE
    publish(site, tmp_path / "site", tmp_path / "work")
    content = kept.read_bytes()
    if damage == "cut":
        kept.write_bytes(content[: len(content) // 2])
    elif damage == "words":
        kept.write_text("no database", encoding="utf-8")
    elif damage == "bits":
        kept.write_bytes(bytes(byte ^ (at % 97 == 0) for at, byte in enumerate(content)))
    elif damage == "folder":
        kept.unlink()
        kept.mkdir()
    else:
        shutil.rmtree(tmp_path / "work")
    changed = _changed(site, 9)
    publish(changed, tmp_path / "site", tmp_path / "work")
    assert _bytes(tmp_path / "site") == _made_from_nothing(changed, tmp_path / "new")


def test_a_template_of_the_theme_knows_no_other_page_and_no_day() -> None:
    """A finished page is taken up again by its own Markdown and the configuration: it must not depend on more."""
    for path in theme_folder().rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert "build_date_utc" not in text and "nav." not in text and "pages" not in text.split("{%")[0], path
        if path.parent.name != "fragments":
            assert "in pages" not in text and "in nav" not in text, path
