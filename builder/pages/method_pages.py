"""The methods: an index, and a page each: what it is, its window, its rule of success, its rate, its firings."""

from __future__ import annotations

from functools import partial

from markupsafe import Markup

from builder.archive.archive import Archive, Rate, Record
from builder.archive.findings import NO_FINDINGS, Findings
from builder.charts.marks import fire_mark
from builder.charts.rate_chart import rate_chart
from builder.pages.addresses import method_page
from builder.pages.drafts import Draft, lines_of
from builder.pages.firing_lines import line_list
from builder.pages.fragments import fill
from builder.pages.numbers import counted
from builder.pages.rate_words import outcome_heading, rate_of, rate_rows, rate_sentence
from builder.pages.rules import rule_words
from builder.pages.window_part import WindowPart, window_part
from builder.publish.site import Page
from builder.settings import Method, Settings


def methods_index(archive: Archive, settings: Settings) -> Page:
    """Make the index of methods, in the order of the settings."""
    page, firings = "methods/index", archive.by_method()
    sentence = f"{counted(len(settings.methods), 'way')} of firing, and what each has given so far."
    rows = [
        {
            "method": method,
            "page": method_page(method.key),
            "mark": Markup(fire_mark(method.kind)),  # noqa: S704
            "rate": _rate_words(archive, method),
            "firings": len(firings.get(method.key, ())),
        }
        for method in settings.methods.values()
    ]
    return Page(
        path=page,
        title="Methods",
        description=sentence,
        lead=fill("methods.html", page, sentence=sentence, rows=rows),
        section="methods",
        kind="methods",
    )


def method_pages(archive: Archive, settings: Settings, findings: Findings = NO_FINDINGS) -> tuple[Draft, ...]:
    """Draft a page for each method; its window is found from its own firings."""
    firings = archive.by_method()
    drafts = []
    for method in settings.methods.values():
        records, rates = firings.get(method.key, ()), [rate for rate in archive.rates if rate.method == method.key]
        make = partial(_method_page, method, records, archive, settings, findings)
        drafts.append(Draft(method_page(method.key), (rates, lines_of(records)), make))
    return tuple(drafts)


def _method_page(
    method: Method, records: tuple[Record, ...], archive: Archive, settings: Settings, findings: Findings
) -> Page:
    page, sentence = method_page(method.key), _rate_words(archive, method)
    rates = tuple(rate for rate in archive.rates if rate.method == method.key)
    return Page(
        path=page,
        title=method.name,
        description=sentence,
        lead=fill(
            "method_lead.html",
            page,
            method=method,
            mark=Markup(fire_mark(method.kind)),  # noqa: S704
            sentence=sentence,
            rule=rule_words(method),
        ),
        prose=fill("paragraph.html", page, words=method.summary) if method.summary else "",
        rest=fill(
            "method.html",
            page,
            window_part=_window(method, records, findings),
            method=method,
            chart=_chart(rates, method),
            rows=rate_rows(rates, settings),
            list=line_list(records, settings),
        ),
        section="methods",
        kind="method",
    )


def _window(method: Method, records: tuple[Record, ...], findings: Findings) -> WindowPart | None:
    """The window found from the method's firings; None where it counts no outcomes that one could be found from."""
    found = findings.windows.get(method.key)
    if found is None:
        return None
    return window_part(found, records, method.key, method.name, findings.soakings.get(method.key))


def _rate_words(archive: Archive, method: Method) -> str:
    rate = rate_of(archive, method.key)
    return "No firing by this method has been written up yet." if rate is None else rate_sentence(rate, bounds=True)


def _chart(rates: tuple[Rate, ...], method: Method) -> Markup:
    if not rates:
        return Markup("")
    rows = [(outcome_heading(rate.outcome), rate) for rate in rates]
    words = " ".join(rate_sentence(rate, name) for name, rate in rows)
    return Markup(rate_chart(rows, f"rates-{method.key}", words))  # noqa: S704
