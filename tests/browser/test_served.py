"""Served under a sub-path by the real nginx, with the configuration that the build wrote."""

import gzip
import http.client
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from generator.site import policy, servers
from tests.browser.conftest import visiting
from tests.browser.nginx import sub_path_of
from tests.sampling import only_in_a_whole_run, sample


def get(address: str, path: str, **headers: str) -> tuple[int, dict[str, str], bytes]:
    host, _, base = address.removeprefix("http://").partition("/")
    connection = http.client.HTTPConnection(host, timeout=10)
    connection.request("GET", f"/{base}{path}", headers=headers)
    answer = connection.getresponse()
    found = answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read()
    connection.close()
    return found


TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
}


def test_every_file_has_its_type_and_the_headers(address: str, site: Path) -> None:
    wanted = servers.headers(policy.theme_scripts(site))
    seen = set()
    for file in sorted(site.rglob("*")):
        if not file.is_file() or file.suffix in seen or file.suffix not in TYPES:
            continue
        seen.add(file.suffix)
        status, headers, body = get(address, file.relative_to(site).as_posix())
        assert status == 200
        assert headers["content-type"] == TYPES[file.suffix]
        assert {name: headers[name.lower()] for name in wanted} == wanted
        assert body == file.read_bytes()
    assert seen == set(TYPES)


def test_pages_are_asked_for_again_and_files_with_a_changing_name_are_kept(address: str, site: Path) -> None:
    _, page, _ = get(address, "index.html")
    assert page["cache-control"] == "no-cache"
    assert get(address, "index.html", **{"If-None-Match": page["etag"]})[0] == 304
    asset = next((site / "assets" / "stylesheets").glob("main.*.css")).relative_to(site).as_posix()
    _, kept, _ = get(address, asset)
    assert kept["cache-control"] == "max-age=31536000"
    assert "content-security-policy" in kept


def test_text_is_sent_compressed(address: str, site: Path) -> None:
    for path in ("index.html", "css/handbook.css", "js/search-worker.js", "search/search_index.json"):
        status, headers, body = get(address, path, **{"Accept-Encoding": "gzip"})
        assert (status, headers["content-encoding"], headers["vary"]) == (200, "gzip", "Accept-Encoding")
        assert gzip.decompress(body) == (site / path).read_bytes()


def test_the_folder_leads_to_the_first_page(address: str, site: Path) -> None:
    status, _, body = get(address, "")
    assert (status, body) == (200, (site / "index.html").read_bytes())
    status, headers, _ = get(address.rstrip("/"), "")
    assert status == 301
    assert headers["location"].endswith(sub_path_of(site))


@pytest.mark.parametrize("path", ["gone.html", "lessons/gone/at/any/depth.html", "assets/gone.js"])
def test_a_wrong_address_gets_the_page_for_it_and_the_policy(path: str, address: str, site: Path) -> None:
    status, headers, body = get(address, path)
    assert status == 404
    assert body == (site / "404.html").read_bytes()
    assert headers["content-security-policy"] == policy.header(policy.theme_scripts(site))


@only_in_a_whole_run
def test_in_the_browser_every_kind_of_page_keeps_to_the_policy(
    address: str, chromium: Browser, site: Path, kinds: list[str]
) -> None:
    with visiting(chromium) as visit:
        for page in sample(kinds, 4):
            visit.page.goto(address + page)
            assert visit.page.locator("h1").first.is_visible()
        visit.page.goto(address)
        found = visit.search("bank")
        assert found
        assert all(result.startswith(address) for result in found)
        assert visit.errors == []
        assert visit.outside == []


@only_in_a_whole_run
def test_in_the_browser_a_wrong_address_leads_back(address: str, chromium: Browser) -> None:
    with visiting(chromium) as visit:
        visit.page.goto(address + "lessons/gone/at/any/depth.html")
        styled = visit.page.locator(".md-header").evaluate("one => getComputedStyle(one).backgroundColor")
        assert styled != "rgba(0, 0, 0, 0)"
        visit.page.locator("article a").first.click()
        expect(visit.page).to_have_url(address + "index.html")
        assert [error for error in visit.errors if "404" not in error] == []
