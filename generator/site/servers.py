"""Ready configuration for the web servers that schools use: content policy, types, caching, compression, 404 page."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from string import Template
from xml.sax.saxutils import quoteattr

from generator.site import policy

FOLDER = "server-config"

# Where the configuration expects the handbook on the server: the one line that a technician may have to change.
PLACE = "/srv/handbook"

_YEAR = 365 * 24 * 60 * 60  # seconds

# Everything a handbook is made of. Standard names of the types: IANA media types registry.
_TYPES = {
    "css": "text/css",
    "html": "text/html",
    "ico": "image/x-icon",
    "js": "text/javascript",
    "json": "application/json",
    "map": "application/json",
    "pdf": "application/pdf",
    "png": "image/png",
    "svg": "image/svg+xml",
}
_COMPRESSED = tuple(sorted({_TYPES[ending] for ending in ("css", "html", "js", "json", "svg")}))

_NGINX = Template("""\
# nginx: put this line into the server block of the site that shall carry the handbook:
#     include $place/server-config/nginx.conf;
# If the handbook is not in $place, change every $place below.
$redirect
location ^~ $sub_path {
    alias $place/;
    index index.html;
    default_type application/octet-stream;
    types {
$types
    }
    charset utf-8;
    charset_types text/css text/javascript application/json;
    error_page 404 ${sub_path}404.html;
    gzip on;
    gzip_vary on;
    gzip_types $compressed;
$headers
    # The browser asks each time whether a page has changed, and is answered in a few bytes if it has not.
    expires -1;

    # These files get a new name whenever they change.
    location ^~ ${sub_path}assets/ {
        alias $place/assets/;
        expires ${year}s;
    }
}
""")

_CADDY = Template("""\
# Caddy: put this line into the block of the site that shall carry the handbook:
#     import $place/server-config/Caddyfile
# If the handbook is not in $place, change every $place below.
$redirect
handle_path $sub_path* {
	root * $place
$headers
	# These files get a new name whenever they change; whether anything else has changed is asked each time.
	@lasting path /assets/*
	@checked not path /assets/*
	header @lasting Cache-Control "public, max-age=$year"
	header @checked Cache-Control no-cache
	encode zstd gzip
	file_server
}
handle_errors {
	@handbook {
		path $sub_path*
		expression `{err.status_code} == 404`
	}
	handle @handbook {
		root * $place
$headers
		header Cache-Control no-cache
		rewrite * /404.html
		file_server
	}
}
""")

_APACHE = Template("""\
# Apache 2.4: put this line into the configuration of the site that shall carry the handbook:
#     Include $place/server-config/apache.conf
# If the handbook is not in $place, change every $place below. Needs the modules headers, deflate, mime, dir and alias.
Alias "$sub_path" "$place/"
$redirect
<Directory "$place/">
    Require all granted
    Options None
    AllowOverride None
    DirectoryIndex index.html
    AddDefaultCharset utf-8
$types
    ErrorDocument 404 ${sub_path}404.html
    AddOutputFilterByType DEFLATE $compressed
$headers
    # The browser asks each time whether a page has changed.
    Header always set Cache-Control "no-cache"
</Directory>
<Directory "$place/assets/">
    # These files get a new name whenever they change.
    Header always set Cache-Control "public, max-age=$year"
</Directory>
""")

_IIS = Template("""\
<?xml version="1.0" encoding="utf-8"?>
<!-- IIS: copy this file into the folder of the handbook, next to index.html, and add that folder to the site as an
     application with the alias $alias. -->
<configuration>
  <system.webServer>
    <defaultDocument enabled="true">
      <files>
        <clear />
        <add value="index.html" />
      </files>
    </defaultDocument>
    <directoryBrowse enabled="false" />
    <httpErrors errorMode="Custom" existingResponse="Replace">
      <remove statusCode="404" />
      <error statusCode="404" path="${sub_path}404.html" responseMode="ExecuteURL" />
    </httpErrors>
    <httpProtocol>
      <customHeaders>
$headers
      </customHeaders>
    </httpProtocol>
    <staticContent>
$types
      <clientCache cacheControlMode="DisableCache" />
    </staticContent>
    <urlCompression doStaticCompression="true" />
  </system.webServer>
  <location path="assets">
    <system.webServer>
      <staticContent>
        <clientCache cacheControlMode="UseMaxAge" cacheControlMaxAge="365.00:00:00" />
      </staticContent>
    </system.webServer>
  </location>
</configuration>
""")


def files(sub_path: str, scripts: Collection[str]) -> dict[str, bytes]:
    """The files of `server-config/`, by path, for a handbook under `sub_path` (a slash at both ends).

    `scripts` are the hashes that the policy allows.
    """
    made = {"nginx.conf": nginx, "Caddyfile": caddy, "apache.conf": apache, "web.config": iis}
    return {f"{FOLDER}/{name}": text(sub_path, scripts).encode() for name, text in made.items()}


def headers(scripts: Collection[str]) -> dict[str, str]:
    """Return the headers that go with every answer; `scripts` are the hashes that the policy allows."""
    return {
        "Content-Security-Policy": policy.header(scripts),
        "X-Content-Type-Options": "nosniff",
        "Referrer-Policy": "no-referrer",
    }


def nginx(sub_path: str, scripts: Collection[str]) -> str:
    """Return lines for a server block of nginx."""
    bare = sub_path.rstrip("/")
    return _NGINX.substitute(
        _common(sub_path),
        redirect=f"location = {bare} {{ return 301 {sub_path}; }}" if bare else "",
        types=_lines(f"        {kind} {ending};" for ending, kind in _TYPES.items()),
        compressed=" ".join(kind for kind in _COMPRESSED if kind != "text/html"),
        headers=_lines(f'    add_header {name} "{value}" always;' for name, value in headers(scripts).items()),
    )


def caddy(sub_path: str, scripts: Collection[str]) -> str:
    """Return lines for a site block of Caddy."""
    bare = sub_path.rstrip("/")
    return _CADDY.substitute(
        _common(sub_path),
        redirect=f"redir {bare} {sub_path} permanent" if bare else "",
        headers=_lines(f'\theader {name} "{value}"' for name, value in headers(scripts).items()),
    )


def apache(sub_path: str, scripts: Collection[str]) -> str:
    """Return lines for a virtual host of Apache."""
    bare = sub_path.rstrip("/")
    return _APACHE.substitute(
        _common(sub_path),
        redirect=f'RedirectMatch permanent "^{bare}$" "{sub_path}"' if bare else "",
        types=_lines(f"    AddType {kind} .{ending}" for ending, kind in _TYPES.items()),
        compressed=" ".join(_COMPRESSED),
        headers=_lines(f'    Header always set {name} "{value}"' for name, value in headers(scripts).items()),
    )


def iis(sub_path: str, scripts: Collection[str]) -> str:
    """Return the web.config of the folder that holds the handbook."""
    return _IIS.substitute(
        _common(sub_path),
        alias=sub_path.strip("/") or "of your choice",
        types=_lines(
            f'      <remove fileExtension=".{ending}" />\n      <mimeMap fileExtension=".{ending}" mimeType="{kind}" />'
            for ending, kind in _TYPES.items()
        ),
        headers=_lines(
            f"        <add name={quoteattr(n)} value={quoteattr(v)} />" for n, v in headers(scripts).items()
        ),
    )


def _common(sub_path: str) -> dict[str, str]:
    return {"place": PLACE, "sub_path": sub_path, "year": str(_YEAR)}


def _lines(lines: Iterable[str]) -> str:
    return "\n".join(lines)
