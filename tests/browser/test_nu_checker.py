"""Every page and style sheet of the demo by the Nu Html Checker, the checker that the makers of the standard use."""

from __future__ import annotations

import re
from pathlib import Path

from tests.nu_checker import Remark, check_pages

LEFT = (
    # It does not hold a relative address against 'self'; the guard of the browser tests sees what is really blocked.
    r"Resource violates Content Security Policy \(meta tag\): (external stylesheet|external script|image) "
    r"“(?!\w+:|//)[^”]*” blocked by “(style|script|img)-src” directive\.",
    # The words for machines: a block of data, which no browser runs.
    r"Inline script violates Content Security Policy \(meta tag\): blocked by “script-src” directive .*",
    # Its CSS is older than these; each is in a published module (CSS Conditional 5, CSS Sizing 4, SVG 2).
    r"CSS: Unrecognized at-rule “@container”",
    r"CSS: “(container|contain-intrinsic-size|paint-order|vector-effect)”: Property “\1” doesn't exist\.",
)
"""What is left as it is, each with its reason; everything else the checker says is a fault."""


def _faults(remarks: list[Remark]) -> list[Remark]:
    return [one for one in remarks if not any(re.fullmatch(known, one.words) for known in LEFT)]


def test_the_nu_html_checker_finds_no_fault_in_any_page_or_style_sheet(site_dir: Path) -> None:
    files = sorted(path for path in site_dir.rglob("*") if path.suffix in {".html", ".css"})
    assert len(files) > 100
    assert _faults(check_pages(files)) == []


def test_the_checker_would_notice(tmp_path: Path) -> None:
    """What html5lib lets pass: content in the wrong place, an attribute of no meaning, a label without its field."""
    wrong = tmp_path / "wrong.html"
    wrong.write_text(
        '<!doctype html><html lang="en"><head><title>Wrong</title></head><body><ul><p>no item</p></ul>'
        '<p wide="yes"></p><label for="nothing">A label</label><h2></h2></body></html>',
        "utf-8",
    )
    (tmp_path / "wrong.css").write_text("p { colour: red; }", "utf-8")
    said = " ".join(one.words for one in _faults(check_pages(sorted(tmp_path.iterdir()))))
    for word in (
        "“p” not allowed as child of element “ul”",
        "“wide” not allowed",
        "“for”",
        "Empty heading",
        "“colour”",
    ):
        assert word in said
