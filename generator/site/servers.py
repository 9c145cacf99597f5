"""Ready configuration for the web servers that schools use: content policy, types, caching, compression, 404 page."""

from collections.abc import Collection
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from generator.site import policy

FOLDER = "server-config"

# The folder of the handbook on the server: the only line that a technician may have to change.
PLACE = "/srv/handbook"

_YEAR = 365 * 24 * 60 * 60  # seconds

# Everything a handbook is made of. Standard names of the types: IANA media types registry.
TYPES = {
    "css": "text/css",
    "html": "text/html",
    "js": "text/javascript",
    "json": "application/json",
    "map": "application/json",
    "png": "image/png",
    "svg": "image/svg+xml",
}
_COMPRESSED = tuple(sorted({TYPES[ending] for ending in ("css", "html", "js", "json", "svg")}))

_TEMPLATES = Environment(
    loader=FileSystemLoader(Path(__file__).with_name(FOLDER)),
    undefined=StrictUndefined,
    trim_blocks=True,
    keep_trailing_newline=True,
)


def files(sub_path: str, scripts: Collection[str]) -> dict[str, bytes]:
    """The files of `server-config/`, by path, for a handbook under `sub_path` (a slash at both ends).

    `scripts` are the hashes that the policy allows.
    """
    said = {
        "place": PLACE,
        "sub_path": sub_path,
        "bare_path": sub_path.rstrip("/"),
        "types": TYPES,
        "compressed": _COMPRESSED,
        "headers": headers(scripts),
        "year": _YEAR,
    }
    names = _TEMPLATES.list_templates()
    return {f"{FOLDER}/{name}": _TEMPLATES.get_template(name).render(said).encode() for name in names}


def headers(scripts: Collection[str]) -> dict[str, str]:
    """Return the headers that go with every answer; `scripts` are the hashes that the policy allows."""
    return {
        "Content-Security-Policy": policy.header(scripts),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "no-referrer",
    }
