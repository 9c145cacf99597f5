"""The content policy of the finished pages: what a page may load and run, on a server and opened from disk.

Only scripts from files of the handbook run, and the few that the theme writes into every page. Nothing is loaded
from another host, whatever a page says.
"""

from base64 import b64encode
from collections.abc import Collection
from hashlib import sha256
from pathlib import Path

from generator.errors import HandbookError
from generator.site.html import Element, inline_scripts, parse

# What a server shows for every address that it does not know, at any depth. It holds nothing but the theme, so every
# inline script on it is the theme's own.
PAGE_FOR_WRONG_ADDRESSES = "404.html"

_PLACE = '<meta charset="utf-8">'


def theme_scripts(folder: Path) -> frozenset[str]:
    """Return the hashes of the inline scripts that the theme writes into every page, such as `sha256-...`.

    A script that came in with the text of a page is not among them, so the policy keeps it from running.
    """
    page = (folder / PAGE_FOR_WRONG_ADDRESSES).read_text(encoding="utf-8")
    return frozenset(map(script_hash, inline_scripts(parse(page))))


def script_hash(script: Element) -> str:
    """How a content policy names an inline script, without the quotes around it."""
    return "sha256-" + b64encode(sha256((script.text or "").encode()).digest()).decode()


def header(scripts: Collection[str]) -> str:
    """Return the policy that a server sends with every page; `scripts` are hashes as `theme_scripts` gives them."""
    return _policy("", "", scripts) + "; frame-ancestors 'self'"


def with_policy(page: str, text: str, scripts: Collection[str]) -> str:
    """A page with the policy in its head; `scripts` are hashes as `theme_scripts` gives them.

    Unlike the server's policy it allows files, and the search worker that is started from memory.
    """
    before, place, after = text.partition(_PLACE)
    if not place:
        raise HandbookError(f"{page}: there is no place for the content policy; begin its head with {_PLACE}")
    policy = _policy(" file:", " blob:", scripts)
    return f'{before}{place}\n  <meta http-equiv="Content-Security-Policy" content="{policy}">{after}'


def _policy(files: str, memory: str, scripts: Collection[str]) -> str:
    """What each kind of content may come from; `files` and `memory` are added where pages are opened from disk."""
    hashes = "".join(f" '{script}'" for script in sorted(scripts))
    return "; ".join(
        (
            "default-src 'none'",
            f"script-src 'self'{files}{memory}{hashes}",
            f"worker-src 'self'{files}{memory}",
            f"style-src 'self'{files}",
            f"img-src 'self'{files} data:",
            f"connect-src 'self'{files}",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )
