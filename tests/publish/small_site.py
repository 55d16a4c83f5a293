"""A small invented site to publish in tests, with what tends to go wrong: odd letters, long words, empty pages."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from builder.publish.site import Page, Site, SiteFacts

FACTS = SiteFacts(
    name="Alder Fen ashbook",
    group="the Alder Fen potters",
    description="Open wood firings, written down by the people who lit them.",
    language="en",
    url="https://ashbook.example/fen/",
    notice="This archive is invented: no such group, place or firing exists.",
    header=(
        ("firings", "Firings", "firings/index"),
        ("methods", "Methods", "methods/index"),
        ("results", "Results", "results"),
        ("cautions", "Cautions", "cautions"),
    ),
    footer=(("about", "About", "about"), ("data", "Open data", "data")),
    licence="CC-BY-4.0",
)

_TABLE = (
    '<div class="scroll" tabindex="0"><table>'
    "<thead><tr><th>Figure</th><th>Best reckoning</th><th>95 % interval</th></tr></thead>"
    "<tbody><tr><td>Peak</td><td>742 °C</td><td>719 to 765</td></tr>"
    "<tr><td>tablewordonly</td><td>48 min</td><td>43 to 53</td></tr></tbody></table></div>"
)


def firing(number: int) -> Page:
    """One firing's page; every third has soot, every fifth has spalled."""
    words = ["The reed was laid wet on purpose."]
    words += ["Soot stayed on the shoulder."] * (number % 3 == 0) + ["One jar spalled at the foot."] * (number % 5 == 0)
    return Page(
        path=f"firings/2026-01-{number:04d}-jar",
        title=f"Pale jar, attempt {number}",
        description=f"Firing {number} of the invented archive.",
        lead=f"<h1>Pale jar, attempt {number}</h1>{_TABLE}",
        prose=f"<p>{' '.join(words)}</p>",
        rest=f'<section class="spread"><div class="margin"><h2>Figures</h2></div><div>{_TABLE}</div></section>',
        tags=("crushed sherd", "hazel"),
        section="firings",
        kind="firing",
        json_ld='{"@type":"Dataset","name":"</script><script>alert(1)</script>"}',
    )


def small_site(firings: int = 12) -> Site:
    """A home page, some pages in prose, and as many firings as asked for."""
    pages = (
        Page("index", "Alder Fen ashbook", "The archive.", lead="<h1>Ashbook</h1>", section="home", kind="home"),
        Page("firings/index", "Firings", "All firings.", rest="<p>All of them.</p>", section="firings", kind="firings"),
        Page("methods/index", "Methods", "Ways of firing.", prose="<p>Ground, pit, trench.</p>", section="methods"),
        Page("results", "Results", "What they say.", prose="<p>Too few to tell.</p>", section="results"),
        Page(
            "cautions",
            "Cautions",
            "Reasons to stop.",
            prose="<h2 id=smoke>Smoke</h2><p>Keep upwind.</p>",
            section="cautions",
        ),
        Page("about", 'About <us> & "Wren"', 'A "quoted" <b> description', prose="<p>Words — ✓ 𝔘 </p>"),
        Page("data", "Open data", "Files.", prose="<p>secretword</p>", searched=False),
    )
    files = {"data/firings.csv": b"firing,title\n", "firings/2026-01-0001-jar/photo-1-480.jpg": b"\xff\xd8\xff"}
    return Site(FACTS, (*pages, *(firing(number + 1) for number in range(firings))), files, date(2026, 5, 2))


def offline(site: Site) -> Site:
    """The same site without an address on the web."""
    return replace(site, facts=replace(site.facts, url=""))
