"""The guide: served to anyone, in the app's colours, complete enough to be kept offline."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from cueladder.pages import guide
from tests.store.club import Browser

ROOT = Path(__file__).parents[2]
PAGES = guide.PAGES


class Seen(HTMLParser):
    """What a page holds: its headings, its links, its pictures."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.links, self.pictures, self.spoken = [], [], [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        self.tags.append(tag)
        if "lang" in found and tag != "a":
            self.spoken.append((tag, found["lang"]))
        if tag == "a":
            self.links.append(found["href"])
        if tag == "img":
            self.pictures.append(found)


def read(app, path):
    return Browser(app).get(path)


@pytest.mark.parametrize("name", PAGES)
def test_a_page_opens_without_signing_in(app, name):
    answer = read(app, f"/guide/{name}")
    assert answer.status_code == 200
    seen = Seen(answer.text)
    assert seen.tags.count("h1") == 1 and "script" not in seen.tags and "style" not in seen.tags
    assert "style-src 'self'" in answer.headers["Content-Security-Policy"]
    for picture in seen.pictures:
        assert len(picture["alt"]) > 20


@pytest.mark.parametrize("name", PAGES)
def test_every_link_and_picture_leads_somewhere(app, name):
    seen = Seen(read(app, f"/guide/{name}").text)
    for link in seen.links:
        if not link.startswith(("http:", "https:", "/")):
            assert read(app, f"/guide/{link}").status_code == 200, link
    for picture in seen.pictures:
        answer = read(app, f"/guide/{picture['src']}")
        assert answer.mimetype == "image/png" and len(answer.data) < 60_000


def test_the_list_for_phones_names_every_file_a_page_needs(app):
    listed = read(app, "/guide/files.json").get_json()
    needed = {"/guide/?lang=en", "/guide/guide.css"} | {f"/guide/{name}?lang=en" for name in PAGES}
    for name in PAGES:
        pictures = Seen(read(app, f"/guide/{name}").text).pictures
        needed |= {f"/guide/{picture['src']}" for picture in pictures}
    assert set(listed["files"]) == needed
    for path in listed["files"]:
        assert read(app, path).status_code == 200, path
    assert re.fullmatch("[0-9a-f]{16}", listed["version"])


def test_every_page_stands_in_the_list_of_pages(app):
    links = Seen(read(app, "/guide/").text).links
    written = {path.stem for path in guide.FOLDER.glob("*.md")}
    assert set(PAGES) == written
    assert {f"/guide/{name}?lang=en" for name in written} < set(links)


def test_html_in_a_page_is_shown_and_not_used(monkeypatch, tmp_path):
    (tmp_path / "first-lesson.md").write_text("# A\n\n<script>alert(1)</script>\n")
    monkeypatch.setattr(guide, "FOLDER", tmp_path)
    guide._shown.cache_clear()
    try:
        assert "<script>" not in guide._shown("first-lesson", "en").body
    finally:
        guide._shown.cache_clear()


@pytest.mark.parametrize("path", ["/guide/secrets", "/guide/pictures/..%2fcare.md", "/guide/x.md"])
def test_nothing_else_can_be_read(app, path):
    assert read(app, path).status_code == 404


def colours(path, scheme):
    """The colours a style sheet sets for a scheme."""
    text = path.read_text()
    start = text.index("@media (prefers-color-scheme: dark)") if scheme == "dark" else 0
    block = text[text.index("{", text.index(":root", start)) :].split("}")[0]
    return dict(re.findall(r"--(\w+):\s*(#\w+)", block))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_guide_has_the_apps_colours(scheme):
    app = colours(ROOT / "frontend" / "src" / "ui" / "colours.css", scheme)
    ours = colours(ROOT / "backend" / "cueladder" / "pages" / "static" / "guide.css", scheme)
    assert len(ours) == 6 and {name: app[name] for name in ours} == ours


def test_the_progress_page_leads_to_the_page_on_care(opened):
    assert 'href="/guide/care?lang=en"' in opened().text()


def test_the_figures_page_names_each_source_the_club_page_uses():
    text = (guide.FOLDER / "figures.md").read_text()
    for source in ("Benjamini and Hochberg 1995", "Cohen\n1960", "Wald and Wolfowitz 1940"):
        assert source in text or source.replace("\n", " ") in text
