"""The pages that open without a signal: listed with all that they load, under a version that is their contents."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from builder.publish.errors import PublishError
from builder.publish.offline import worker_script
from builder.publish.publish import publish, theme_folder
from builder.publish.site import Site
from tests.publish.small_site import small_site


def kept(worker: str) -> dict[str, Any]:
    found = re.search(r"const KEPT = (\{.*\});", worker)
    assert found is not None
    return json.loads(found[1])  # type: ignore[no-any-return]


def published(site: Site, folder: Path) -> Path:
    publish(site, folder / "site", folder / "work")
    return folder / "site"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    small = small_site(2)
    facts = replace(small.facts, offline=("cautions", "firings/2026-01-0001-jar"))
    return published(replace(small, facts=facts), tmp_path_factory.mktemp("offline"))


def test_the_list_names_the_pages_and_every_file_they_load(site: Path) -> None:
    addresses = kept((site / "sw.js").read_text())["addresses"]
    assert {"cautions.html", "firings/2026-01-0001-jar.html", "styles/tokens.css", "scripts/scheme.js"} <= set(
        addresses
    )
    assert "index.html" not in addresses
    assert all((site / address).is_file() for address in addresses)
    assert addresses == sorted(set(addresses))


def test_a_site_that_keeps_no_page_has_no_worker(tmp_path: Path) -> None:
    assert not (published(small_site(1), tmp_path) / "sw.js").exists()


def test_the_same_contents_give_the_same_worker_and_any_change_another(site: Path) -> None:
    pages = ["cautions", "firings/2026-01-0001-jar"]
    first = worker_script(site, theme_folder(), pages)
    assert first == worker_script(site, theme_folder(), pages) == (site / "sw.js").read_bytes()
    page = site / "cautions.html"
    text = page.read_text(encoding="utf-8")
    page.write_text(text.replace("Keep upwind", "Keep well upwind"), encoding="utf-8")
    changed = worker_script(site, theme_folder(), pages)
    page.write_text(text, encoding="utf-8")
    assert kept(changed.decode())["version"] != kept(first.decode())["version"]


def test_a_worker_without_a_place_for_the_list_is_a_fault_of_the_theme(site: Path, tmp_path: Path) -> None:
    (tmp_path / "sw.js").write_text("// nothing")
    with pytest.raises(PublishError, match=r"no place for the list"):
        worker_script(site, tmp_path, ["cautions"])
