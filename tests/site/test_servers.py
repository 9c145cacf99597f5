"""The server configuration as text; the real nginx runs in tests/browser/test_served.py."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from generator.site import policy, servers
from generator.source.library import FOLDERS_OF_THE_SITE

NAMES = {"nginx.conf", "Caddyfile", "apache.conf", "web.config"}


def test_there_is_one_file_for_each_server(sample_site: Path) -> None:
    assert {path.name for path in (sample_site / servers.FOLDER).iterdir()} == NAMES


@pytest.mark.parametrize("name", sorted(NAMES))
def test_each_sends_the_policy_and_knows_the_page_for_wrong_addresses(name: str, sample_site: Path) -> None:
    text = (sample_site / servers.FOLDER / name).read_text("utf-8")
    assert policy.header(policy.theme_scripts(sample_site)) in text
    assert "nosniff" in text
    assert "404.html" in text
    assert "/handbook/" in text
    assert not re.search(r"\{[{%]", text), "something was left unfilled"


@pytest.mark.parametrize("name", sorted(NAMES))
@pytest.mark.parametrize("sub_path", ["/", "/a/b/"])
def test_each_can_be_written_for_any_sub_path(name: str, sub_path: str) -> None:
    text = servers.files(sub_path, ["sha256-x"])[f"{servers.FOLDER}/{name}"].decode()
    assert f"{sub_path}404.html" in text or "rewrite * /404.html" in text
    assert "/handbook/" not in text.replace(servers.PLACE, "")
    assert "//404" not in text


def test_every_kind_of_file_in_a_handbook_has_a_type(sample_site: Path) -> None:
    endings = {path.suffix.lstrip(".") for path in sample_site.rglob("*") if path.is_file()} - {"", "conf", "config"}
    assert {"html", "css", "js", "svg", "json"} <= endings
    for name in ("nginx.conf", "apache.conf", "web.config"):
        text = (sample_site / servers.FOLDER / name).read_text("utf-8")
        for ending in endings:
            assert re.search(rf'[ ."]{ending}[;"\n]', text), (name, ending)


def test_the_file_for_iis_is_well_formed_and_says_each_thing_once(sample_site: Path) -> None:
    root = ElementTree.fromstring((sample_site / servers.FOLDER / "web.config").read_text("utf-8"))
    headers = {entry.get("name"): entry.get("value") for entry in root.iter("add") if entry.get("name")}
    assert headers == servers.headers(policy.theme_scripts(sample_site))
    types = [entry.get("fileExtension") for entry in root.iter("mimeMap")]
    assert len(types) == len(set(types)) > 5
    assert types == [entry.get("fileExtension") for entry in root.iter("remove") if entry.get("fileExtension")]
    (error,) = root.iter("error")
    assert (error.get("statusCode"), error.get("path")) == ("404", "/handbook/404.html")


def test_folders_that_hold_no_pages_are_not_for_sections_of_a_school(sample_site: Path) -> None:
    """Browsers keep what lies in one of them for a year."""
    without_pages = {
        folder.name for folder in sample_site.iterdir() if folder.is_dir() and not list(folder.rglob("*.html"))
    }
    assert without_pages == FOLDERS_OF_THE_SITE


@pytest.mark.parametrize("name", ["nginx.conf", "Caddyfile"])
def test_braces_are_closed(name: str, sample_site: Path) -> None:
    text = (sample_site / servers.FOLDER / name).read_text("utf-8")
    assert text.count("{") == text.count("}") > 1
