"""What the rules for a school's Markdown let pass is harmless as a browser reads it, however tags were put together."""

import random

from playwright.sync_api import Browser

from generator.pages.authored.allowed_html import reader, refusals
from tests.browser.conftest import visiting
from tests.sampling import times

SOUPS = times(whole=15_000, sampled=2_000)
FIGURE = "../figures/known.svg"
PIECES = [
    *(
        "<",
        "</",
        ">",
        "/>",
        "<<",
        '"',
        "'",
        " = ",
        "\\",
        "&",
        "&lt;",
        "&#60;",
        "`",
        "```\n",
        "\n",
        "\n\n",
        "    ",
        "\r",
    ),
    *(
        "script",
        "<script>",
        "</script>",
        "    <script>h()</script>\n",
        "img",
        " src=x",
        " onerror=h()",
        ' onerror="h()"',
    ),
    *("<b>", "</b>", "<p>", "</p>", "<P ", "<div>", '<div markdown="1">', "</div>", "<details>", "</details>", "<br"),
    *('<a href="', "<A\tHREF=", "javascript:h()", '">', '<span class="say" ', 'title="', "x", "<x:y>", "<http://x>"),
    *("<!--", "-->", "<![CDATA[", "]]>", "<?", "?>", "<textarea>", "<title>", "<svg>", "<math>", "<a@b.example>"),
    *(
        "{: ",
        "onclick=h()",
        " }",
        "[a](",
        ")",
        "![i](",
        FIGURE,
        "!!! note\n",
        "| a |\n|--|\n",
        "*",
        "**",
        "_",
        "#",
        " {#",
    ),
]
WHAT_A_BROWSER_MAKES = """pages => pages.map(html => {
  const text = `<!doctype html><body><article>${html}</article><footer></footer>`
  const page = new DOMParser().parseFromString(text, "text/html")
  const found = [...page.body.querySelectorAll("*")].flatMap(element => [
    ...(element.matches("script, style, iframe, object, embed, svg, math, textarea, form, title, link, meta, base")
      ? [element.tagName] : []),
    ...[...element.attributes].filter(({name}) => /^on/i.test(name)).map(({name}) => name),
    ...(/^\\s*javascript:/i.test(element.getAttribute("href") ?? "") ? ["href"] : []),
  ])
  const whole = page.body.children.length === 2 && page.body.lastElementChild.tagName === "FOOTER"
  return whole ? found : [...found, "breaks out"]
})"""


def test_whatever_passes_is_harmless(chromium: Browser) -> None:
    mixed = random.Random(5)
    soups = ("".join(mixed.choices(PIECES, k=mixed.randint(1, 14))) for _ in range(SOUPS))
    passed = [soup for soup in soups if not any(refusals(soup, {FIGURE}))]
    assert len(passed) > SOUPS // 10
    pages = [reader().reset().convert(soup) for soup in passed]
    with visiting(chromium) as visit:
        made = visit.page.evaluate(WHAT_A_BROWSER_MAKES, pages)
    assert [(soup, found) for soup, found in zip(passed, made, strict=True) if found] == []


def test_a_browser_would_see_what_is_refused(chromium: Browser) -> None:
    refused = ["<p onclick='x'>", "<script></script>", "</article><p>x</p>", '<a href=" javascript:x">', "<svg></svg>"]
    with visiting(chromium) as visit:
        made = visit.page.evaluate(WHAT_A_BROWSER_MAKES, refused)
    assert made == [["onclick"], ["SCRIPT"], ["breaks out"], ["href"], ["svg"]]
