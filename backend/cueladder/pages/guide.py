"""The guide: Markdown pages in the reader's language, which phones also keep for offline use."""

from __future__ import annotations

import hashlib
import re
from functools import lru_cache
from pathlib import Path
from threading import Lock
from typing import Any, NamedTuple

from flask import Blueprint, Response, abort, jsonify, make_response, render_template
from flask import send_from_directory as send
from markdown_it import MarkdownIt

from ..language import LANGUAGES, language, speaker
from ..rules.said import later

# English lies here, each other language in a folder of its own.
FOLDER = Path(__file__).parent / "guide"
# In the order of the index.
PAGES = (
    "first-lesson", "figures", "settings-and-bouts", "claims", "care", "who-gets-in",
    "default-rule", "learning", "going-live",
)  # fmt: skip
# Pages in English only: the index still says in the reader's language what they are about.
ENGLISH_ONLY = {
    "settings-and-bouts": later("Other settings, bouts and stakes"),
    "claims": later("What may be said, and how often it is wrong"),
    "default-rule": later("Which rule should a drill start with?"),
    "learning": later("What your lessons teach"),
    "going-live": later("Going live"),
}

# mdurl, which writes the links, fills a table of its own while another thread may read it already
_one_at_a_time = Lock()

blueprint = Blueprint("guide", __name__, url_prefix="/guide", template_folder="templates")


class Page(NamedTuple):
    """A page as it is shown: ``spoken`` is the language its text is in."""

    spoken: str
    title: str
    body: str


@blueprint.context_processor
def _spoken() -> dict[str, Any]:
    return {"lang": language(), "languages": LANGUAGES}


@blueprint.get("/")
def index() -> Response:
    """The index."""
    return _by_language(make_response(_index()))


@blueprint.get("/<name>")
def page(name: str) -> Response:
    """One page, in English where it has no translation."""
    if name not in PAGES:
        abort(404, "No such page in the guide.")
    return _by_language(make_response(_page(name)))


@blueprint.get("/guide.css")
def style() -> Response:
    """The style sheet."""
    return _revalidated(send(FOLDER.parent / "static", "guide.css"))


@blueprint.get("/pictures/<name>")
def picture(name: str) -> Response:
    """A screenshot."""
    return _revalidated(send(FOLDER / "pictures", name))


@blueprint.get("/files.json")
def files() -> Response:
    """What a phone of this language keeps for offline use, and a digest of its content."""
    asked = f"?lang={language()}"
    addresses = [
        f"/guide/{asked}",
        "/guide/guide.css",
        *(f"/guide/{name}{asked}" for name in PAGES),
        *(f"/guide/pictures/{path.name}" for path in _pictures()),
    ]
    listed = {"language": language(), "version": _version(language()), "files": addresses}
    return _by_language(jsonify(listed))


def _index() -> str:
    pages = [(name, _shown(name, language())) for name in PAGES]
    titles = [
        (name, shown.spoken, shown.title if shown.spoken == language() else _about(name))
        for name, shown in pages
    ]
    return render_template("guide_index.html", spoken=language(), titles=titles)


def _page(name: str) -> str:
    return render_template("guide.html", **_shown(name, language())._asdict())


def _about(name: str) -> str:
    return speaker().text(ENGLISH_ONLY[name])


@lru_cache
def _shown(name: str, wished: str) -> Page:
    """A page for a reader of a language; raw HTML in the source is escaped."""
    translated = FOLDER / wished / f"{name}.md"
    there = translated.is_file()
    source = translated if there else FOLDER / f"{name}.md"
    markdown = MarkdownIt("commonmark", {"html": False}).enable("table")
    with _one_at_a_time:
        body = markdown.render(source.read_text("utf-8"))
    title = re.search("<h1>(.*?)</h1>", body)
    assert title is not None, f"{source} has no title"
    body = re.sub(r'href="([a-z-]+)\.md"', rf'href="\1?lang={wished}"', body)
    body = body.replace("<img ", '<img loading="lazy" width="360" height="740" ')
    # an empty corner cell is no header
    body = body.replace("<th></th>", "<td></td>")
    # wide tables and long commands scroll within their box, by keyboard too
    for tag in ("table", "pre"):
        body = body.replace(f"<{tag}>", f'<div class="wide" tabindex="0"><{tag}>')
        body = body.replace(f"</{tag}>", f"</{tag}></div>")
    return Page(wished if there else "en", title[1], body)


def _pictures() -> list[Path]:
    return sorted((FOLDER / "pictures").glob("*.png"))


@lru_cache
def _version(_: str) -> str:
    """A digest of all a reader of this request's language is shown."""
    digest = hashlib.sha256(_index().encode())
    for name in PAGES:
        digest.update(_page(name).encode())
    for path in (FOLDER.parent / "static" / "guide.css", *_pictures()):
        digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def _revalidated(answer: Response) -> Response:
    answer.headers["Cache-Control"] = "no-cache"
    return answer


def _by_language(answer: Response) -> Response:
    answer.vary.add("Accept-Language")
    return _revalidated(answer)
