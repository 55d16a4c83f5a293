"""Lines of firings on pages about something else: the newest whole, those before them as titles, none left out."""

from __future__ import annotations

import pytest

from builder.pages.firing_lines import MOST_LINES, line_list
from builder.pages.method_pages import method_pages
from builder.pages.people_pages import potter_pages
from tests.pages.every_page import made
from tests.pages.invented import SETTINGS, archive, record
from tests.pages.reading_html import read

MANY = tuple(record(number, slug=f"f{number}") for number in range(1, MOST_LINES + 4))


@pytest.mark.parametrize("newest_first", [True, False])
def test_the_newest_stand_whole_and_the_others_follow_in_the_same_order(newest_first: bool) -> None:
    found = line_list(MANY, SETTINGS, newest_first=newest_first)
    lines, others = [line.number for line in found.lines], [one.number for one in found.others]
    step = -1 if newest_first else 1
    assert lines == list(range(4, MOST_LINES + 4))[::step]
    assert others == [1, 2, 3][::step]


def test_a_methods_and_a_potters_page_link_each_of_many_firings() -> None:
    shelf = archive(*MANY)
    for page in made((method_pages(shelf, SETTINGS)[0], potter_pages(shelf, SETTINGS)[0])):
        found = read(page.rest)
        linked = [link.attributes["href"] for link in found.all("a") if "/f" in link.attributes["href"]]
        assert len(found.all("li", "firing-line")) == MOST_LINES
        assert {address.rpartition("/")[2] for address in linked} >= {
            f"f{number}.html" for number in range(1, len(MANY) + 1)
        }
