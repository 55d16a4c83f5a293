"""Contributed text is hostile until cleaned: it can be read, and can do nothing."""

from __future__ import annotations

import re
import time
from html.parser import HTMLParser
from unittest.mock import patch

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.publish import clean_html
from builder.publish.clean_html import clean_markdown, clean_story

_ALLOWED = {
    "p",
    "br",
    "hr",
    "em",
    "strong",
    "code",
    "pre",
    "blockquote",
    "ul",
    "ol",
    "li",
    "a",
    "h3",
    "h4",
    "h5",
    "h6",
}
_ALLOWED |= {"table", "thead", "tbody", "tr", "th", "td"}

ATTACKS = {
    "script": "<script>alert(1)</script>",
    "script in words": "A jar <ScRiPt src=//evil.example/x.js></sCrIpT> here",
    "script after a blank line": "words\n\n<script>\n\nalert(1)\n\n</script>",
    "unclosed script": "<script src=x ",
    "event attribute": "<p onclick=alert(1)>x</p>",
    "picture with event": "<img src=x onerror=alert(1)>",
    "body event": "<body onload=alert(1)>",
    "details event": "<details open ontoggle=alert(1)>x</details>",
    "javascript link": "[x](javascript:alert(1))",
    "javascript link, mixed case": "[x](JaVaScRiPt:alert(1))",
    "javascript link, entity": "[x](&#106;avascript:alert(1))",
    "javascript link, hexadecimal entity": "[x](&#x6A&#x61;vascript&colon;alert(1))",
    "javascript link, tab": "[x](java\tscript:alert(1))",
    "javascript link, newline entity": "[x](java&#10;script:alert(1))",
    "javascript link, leading control": "[x](\x01javascript:alert(1))",
    "javascript autolink": "<javascript:alert(1)>",
    "javascript by reference": "[x][1]\n\n[1]: javascript:alert(1)",
    "data link": "[x](data:text/html;base64,PHNjcmlwdD5hbGVydCgxKTwvc2NyaXB0Pg==)",
    "vbscript link": "[x](vbscript:msgbox(1))",
    "file link": "[x](file:///etc/passwd)",
    "scheme-relative link": "[x](//evil.example/)",
    "backslash link": "[x](\\\\evil.example\\x)",
    "link breaking out of its attribute": '[x](https://a.example/"onmouseover="alert(1))',
    "title breaking out": '[x](https://a.example "t" onmouseover=alert(1) x=")',
    "picture": "![secret](https://evil.example/pixel.gif)",
    "picture, data": "![x](data:image/svg+xml,<svg onload=alert(1)>)",
    "svg": "<svg><script>alert(1)</script><a xlink:href='javascript:alert(1)'><text>x</text></a></svg>",
    "svg style mixture": "<svg><style><img src=x onerror=alert(1)></style></svg>",
    "mathml": "<math><mtext><table><mglyph><style><img src onerror=alert(1)></style></mglyph></table></mtext></math>",
    "style element": "<style>body{background:url(//evil.example)}</style>",
    "style attribute": "<p style='position:fixed;inset:0'>x</p>",
    "style sheet": "<link rel=stylesheet href=//evil.example/x.css>",
    "form": "<form action=//evil.example><input name=x><button>Go</button></form>",
    "base": "<base href=//evil.example/>",
    "meta refresh": "<meta http-equiv=refresh content='0;url=//evil.example'>",
    "iframe": "<iframe srcdoc='<script>alert(1)</script>'></iframe>",
    "object": "<object data=x></object><embed src=x>",
    "comment": "<!--[if IE]><script>alert(1)</script><![endif]-->",
    "cdata": "<![CDATA[<script>alert(1)</script>]]>",
    "processing instruction": "<?php echo 1 ?>",
    "noscript": '<noscript><p title="</noscript><img src=x onerror=alert(1)>">',
    "template element": "<template><script>alert(1)</script></template>",
    "attribute list": "words\n{: onclick=alert(1) .cls #main style='x' }",
    "attribute list of a link": "[x](https://a.example){: onclick=alert(1) target=_top }",
    "attribute list of a heading": "# Title {: #main onclick=alert(1) }",
    "markdown in html": '<div markdown="1" onclick=alert(1)>\n\n*x*\n\n</div>',
    "code with script": "`<script>alert(1)</script>`",
    "indented script": "    <script>alert(1)</script>",
    "fence with attributes": '``` { .html onclick="alert(1)" }\n<script>\n```',
    "table with script": "| a |\n|---|\n| <script>alert(1)</script> |",
    "table alignment": "| a |\n|:-:|\n| b |",
    "closing the page's parts": "</div></main></body></html><script>alert(1)</script>",
    "placeholder of the reader": "\x02klzzwxh:0\x03 \x02wzxhzdk:0\x03 \x02amp\x03",
    "id that shadows": "<a id=main name=main>x</a>",
}
"""Each is a way that has worked somewhere to make a page do what its author wants."""


SCROLL = '<div class="scroll" tabindex="0" role="region" aria-label="Table">'


class _Seen(HTMLParser):
    """Every tag and attribute of a piece of HTML, as a browser would find them."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str, str]] = []
        self.other: list[str] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += [(tag, name, value or "") for name, value in attrs]

    def handle_comment(self, data: str) -> None:
        self.other.append(data)

    def handle_decl(self, decl: str) -> None:
        self.other.append(decl)

    def handle_pi(self, data: str) -> None:
        self.other.append(data)


def assert_harmless(html: str) -> None:
    """Only text-like tags, and only links with a good address and the full rel."""
    seen = _Seen(html.replace(SCROLL, ""))
    assert set(seen.tags) <= _ALLOWED
    assert not seen.other
    for tag, name, value in seen.attributes:
        assert (tag, name) in {("a", "href"), ("a", "title"), ("a", "rel"), ("ol", "start")}
        if name == "href":
            assert re.match(r"(?i)https?://|mailto:", value)
        if name == "rel":
            assert value == "nofollow noopener noreferrer ugc"


@pytest.mark.parametrize("attack", ATTACKS.values(), ids=ATTACKS.keys())
def test_an_attack_does_nothing(attack: str) -> None:
    assert_harmless(clean_markdown(attack))
    assert_harmless(clean_markdown(f"Before the fire.\n\n> {attack}\n\n- {attack}\n\nAfter it."))


@given(
    st.lists(st.sampled_from([*ATTACKS.values(), "<", ">", '"', "'", "&", "\n", "\n\n", "    ", "`", "[", "](", ")"]))
)
def test_attacks_put_together_do_nothing(parts: list[str]) -> None:
    assert_harmless(clean_markdown("".join(parts)))


@given(st.text(max_size=300))
def test_no_text_at_all_breaks_out(text: str) -> None:
    assert_harmless(clean_markdown(text))


def test_raw_html_stays_readable_as_the_words_it_is() -> None:
    assert clean_markdown("A <b>red</b> jar") == "<p>A &lt;b&gt;red&lt;/b&gt; jar</p>"
    assert "alert(1)" in clean_markdown("<script>alert(1)</script>")


def test_less_than_in_a_sentence_survives() -> None:
    assert clean_markdown("It fell < 500 °C & stayed > 300 °C") == "<p>It fell &lt; 500 °C &amp; stayed &gt; 300 °C</p>"


@pytest.mark.parametrize(
    "syntax", ["{{ 7*7 }}", "{% include 'x' %}", "{{ config }}", "{# note #}", "${7*7}", "--8<-- 'secret'", "[TOC]"]
)
def test_template_syntax_is_plain_text(syntax: str) -> None:
    html = clean_markdown(f"Words {syntax} words")
    assert "49" not in html
    assert syntax.replace("<", "&lt;") in html


def test_ordinary_markdown_becomes_html() -> None:
    html = clean_markdown(
        "*Wet* ground, **damp** wood.\n\n1. lit\n2. raked\n\n> said Wren\n\n| a | b |\n|---|---|\n| 1 | 2 |"
    )
    for piece in ("<em>Wet</em>", "<strong>damp</strong>", "<ol>\n<li>lit</li>", "<blockquote>", "<td>2</td>"):
        assert piece in html


def test_a_wide_table_scrolls_within_itself() -> None:
    html = clean_markdown("| a |\n|---|\n| &lt;table&gt; `<table>` |")
    assert html.count(SCROLL) == html.count("<table>") == html.count("</table></div>") == 1


def test_contributed_headings_stand_below_the_page_s_own() -> None:
    html = clean_markdown("# One\n\n## Two\n\n### Three\n\n#### Four\n\n##### Five\n\n###### Six")
    assert re.findall(r"<(h\d)>", html) == ["h3", "h4", "h5", "h6", "h6", "h6"]


def test_headings_of_the_group_s_own_prose_stand_right_below_the_page_s_title() -> None:
    html = clean_markdown("# One\n\n## Two\n\n### Three", inside=True)
    assert re.findall(r"<(h\d)>", html) == ["h2", "h2", "h3"]


def test_good_links_are_kept_and_marked_as_contributed() -> None:
    assert clean_markdown("[a](https://a.example/b?c=1&d=2)") == (
        '<p><a href="https://a.example/b?c=1&amp;d=2" rel="nofollow noopener noreferrer ugc">a</a></p>'
    )
    assert 'href="mailto:wren@a.example"' in clean_markdown("[a](mailto:wren@a.example)")
    assert 'href="https://a.example/"' in clean_markdown("<https://a.example/>")


def test_links_within_the_site_are_for_the_group_s_own_prose_only() -> None:
    assert "href" not in clean_markdown("[a](../cautions.html)")
    assert 'href="../cautions.html#smoke"' in clean_markdown("[a](../cautions.html#smoke)", inside=True)
    for address in ("/etc", "//evil.example", "javascript:x", "a/../../b", "a\\b", "x:y", "..//evil.example"):
        assert "href" not in clean_markdown(f"[a]({address})", inside=True)


def test_the_words_of_a_picture_stand_for_it() -> None:
    assert clean_markdown("![the jar, drawn](jar.jpg)") == "<p><em>the jar, drawn</em></p>"


def test_one_text_does_not_leak_into_the_next() -> None:
    clean_markdown("[x][1]\n\n[1]: https://a.example")
    assert "href" not in clean_markdown("[x][1]")


def test_direction_marks_and_control_characters_are_taken_out() -> None:
    assert clean_markdown("a\u202egpj.exe\x00\x1b[31m") == "<p>agpj.exe[31m</p>"


SLOW = {
    "brackets": "[" * 20_000,
    "brackets with words": "[a" * 20_000,
    "pictures": "![" * 20_000,
    "links": "[a](" * 20_000,
    "stars": "*a_" * 10_000,
    "strong": "**a" * 10_000,
    "ticks": "`" * 20_001,
    "quotes": "> " * 5_000 + "x",
    "less than": "<" * 20_000,
    "ampersands": "&" * 20_000,
    "backslashes": "\\" * 20_001,
    "spaces": "a" + " " * 20_000 + "b",
    "rows": "|a" * 10_000 + "\n" + "|-" * 10_000,
    "deep lists": "\n".join("  " * depth * 2 + "- x" for depth in range(150)),
    "headings": "#" * 20_000,
}


@pytest.mark.parametrize("evil", SLOW.values(), ids=SLOW.keys())
def test_text_made_to_be_slow_is_not(evil: str) -> None:
    """Nothing hangs or falls over; ten seconds is far above what honest work takes and far below a hang."""
    start = time.perf_counter()
    assert_harmless(clean_markdown(evil))
    assert time.perf_counter() - start < 10


_PROSE = st.lists(
    st.sampled_from(["Wood", "12", "12.", "a.", "-", "--", ":", "(x)", "“wet”", "http://x", "砂", " ", "\n", "\n\n"]),
    max_size=25,
).map("".join)  # fmt: skip


@given(_PROSE)
def test_plain_words_come_out_as_the_markdown_reader_writes_them(story: str) -> None:
    """Most stories are plain and pass the reader by; here the same is sent through it as well."""
    alone = clean_markdown(story)
    with patch.object(clean_html, "_may_be_markup", lambda text: True):
        assert clean_markdown(story) == alone


STORY = """# Wind

We *lit* it at <nine>.

- one
    - two

> said

| a | b |
|---|---|
| 1 | [x](https://x.example "<em") |
"""


def test_a_story_that_another_archive_made_html_of_is_shown_as_it_is_there() -> None:
    made = clean_story(STORY, made=False)
    assert made == clean_markdown(STORY)
    assert clean_story(made, made=True) == made


@pytest.mark.parametrize(
    "attack", ["<script>ran()</script>", '<em onclick="ran()">x</em>', '<a href="javascript:ran()">x</a>']
)
def test_html_of_another_archive_is_cleaned_all_the_same(attack: str) -> None:
    made = clean_story(f"<p>{attack}</p>", made=True)
    assert "ran()" not in made


@pytest.mark.parametrize("part", ["<ul>", "<blockquote></em>", "<table><tr><td>", "<p>"])
def test_html_nested_beyond_all_measure_is_words(part: str) -> None:
    """A parser takes minutes for some of these: its time grows by the square of the depth."""
    made = clean_story(part * 50_000, made=True)
    assert made.startswith("<p>&lt;")
    assert made.count("<") == 2
