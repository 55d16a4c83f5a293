"""A working window in words: the sentence that comes first, its best peak, its ends, what stands beside it."""

from __future__ import annotations

from markupsafe import Markup

from builder.archive.firth import FirthFit, crossing
from builder.archive.soaking import Soaking
from builder.archive.window import LEAST_FIRINGS, End, Finding, Window
from builder.archive.window_plain import PLAIN_MIDDLE_C, PLAIN_SCALE_C
from builder.pages.marked_numbers import temperature
from builder.pages.numbers import MINUS, counted, in_words, percent, percent_range, plain

CAME_OUT = "carbon cleared and paint held"


def share_words(level: float) -> str:
    """Say the level of the settings: `at least half of the pots`, `at least 60 % of the pots`."""
    return "at least half of the pots" if level == 0.5 else f"at least {percent(level)} of the pots"


def window_sentence(window: Window, unit: str = "°C") -> Markup:
    """Say what was found, honestly: the window, that there is none, or that the firings are too few to tell."""
    if window.finding is Finding.TOO_FEW:
        return Markup("{}").format(_too_few(window))
    if window.finding is Finding.NONE or window.low is None or window.high is None:
        return Markup("No window in the temperatures tried: nowhere did {} come out with {}.").format(
            share_words(window.level), CAME_OUT
        )
    share = share_words(window.level)
    ends = (window.low.low_c, window.low.high_c, window.high.low_c, window.high.high_c)
    if None not in ends:
        return Markup("Between {}–{} and {}–{} {} come out with {}.").format(
            *(_bare(end or 0.0, unit) for end in ends[:3]), _full(ends[3] or 0.0, unit), share, CAME_OUT
        )
    return Markup("From {} to {} {} come out with {}.").format(
        _open_end(window.low, unit, low=True), _open_end(window.high, unit, low=False), share, CAME_OUT
    )


def end_words(end: End | None, unit: str = "°C") -> Markup:
    """Write one end for a table: `692 °C (636 to 720)`, `between …`, `open`."""
    if end is None or (end.low_c is None and end.high_c is None):
        return Markup("open: beyond what was tried")
    if end.low_c is None:
        return Markup("below {}").format(_full(end.high_c or 0.0, unit))
    if end.high_c is None:
        return Markup("above {}").format(_full(end.low_c, unit))
    if end.value_c is None:
        return Markup("between {} to {}").format(_bare(end.low_c, unit), _full(end.high_c, unit))
    between = Markup("{} to {}").format(_bare(end.low_c, unit), _bare(end.high_c, unit))
    return Markup('{} <span class="interval">({})</span>').format(_full(end.value_c, unit), between)


def best_words(window: Window, unit: str = "°C") -> Markup:
    """Say the best peak and its chance, each with its interval; empty where it cannot be told."""
    if window.best_c is None or window.best_chance is None:
        return Markup("")
    (best, low, high), (chance, least, most) = window.best_c, window.best_chance
    return Markup("The best chance is near {} ({} to {}): {}, likely {}.").format(
        _full(best, unit), _bare(low, unit), _bare(high, unit), percent(chance), percent_range(least, most)
    )


def plain_words(window: Window) -> tuple[str, ...]:
    """Say the plain fits beside the window: where each passes one half, with its numbers for whoever checks."""
    told = []
    for fit, name in zip(window.plain, ("Carbon cleared", "Paint held"), strict=True):
        if fit is not None:
            told.append(f"{name}: {_fit_words(fit)}")
    return tuple(told)


def soaking_sentence(soaking: Soaking) -> Markup:
    """Say whether minutes above a temperature explain more than the peak, and by how much."""
    verdict = "no more and no less than the peak does"
    if soaking.explains_more:
        verdict = "clearly more than the peak does"
    elif soaking.explains_less:
        verdict = "clearly less than the peak does"
    gain = plain(abs(soaking.log_gain), 1)
    sign = "+" if soaking.log_gain >= 0 else MINUS
    return Markup(
        "Minutes above {} explain how the pots came out {}: the log of their marginal likelihood less that of the peak "
        "is {}{}, over {}; only from 3 on would one be called better."
    ).format(temperature(soaking.level_c), verdict, sign, gain, counted(soaking.firings, "firing"))


def _too_few(window: Window) -> str:
    carbon = sum(one.needs_heat is not None for one in window.told)
    paint = sum(one.destroyed is not None for one in window.told)
    if min(carbon, paint) < LEAST_FIRINGS:
        return (
            f"Too few firings to tell a working window: {_named(carbon)} with a known peak "
            f"{'tells' if carbon == 1 else 'tell'} of carbon and {in_words(paint)} of paint, and it takes "
            f"{in_words(LEAST_FIRINGS)} of either."
        )
    return (
        f"Too few firings to tell a working window: at no temperature tried do the {counted(window.firings, 'firing')} "
        f"settle whether {share_words(window.level)} come out with {CAME_OUT}."
    )


def _named(number: int) -> str:
    return f"{in_words(number)} {'firing' if number == 1 else 'firings'}"


def _fit_words(fit: FirthFit) -> str:
    half = crossing(fit)
    where = ""
    if half is not None and abs(half) < 10:
        where = f"passes one half at {plain(PLAIN_MIDDLE_C + PLAIN_SCALE_C * half)} °C; "
    intercept, slope = (plain(float(value), 2) for value in fit.coefficients)
    errors = " and ".join(plain(float(value), 2) for value in fit.standard_errors)
    return f"{where}intercept {intercept}, slope {slope} for every 100 °C from 770 °C (standard errors {errors})."


def _open_end(end: End, unit: str, low: bool) -> Markup:
    if end.low_c is None and end.high_c is None:
        return Markup("the coolest that was tried") if low else Markup("the hottest that was tried")
    if end.low_c is None:
        return Markup("somewhere below {}").format(_full(end.high_c or 0.0, unit))
    if end.high_c is None:
        return Markup("somewhere above {}").format(_full(end.low_c, unit))
    return Markup("{}–{}").format(_bare(end.low_c, unit), _full(end.high_c, unit))


def _bare(value: float, unit: str) -> Markup:
    return temperature(value, bare=True) if unit == "°C" else Markup("{}").format(plain(value))


def _full(value: float, unit: str) -> Markup:
    return temperature(value) if unit == "°C" else Markup("{}\u00a0{}").format(plain(value), unit)
