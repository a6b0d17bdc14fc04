"""The guide: pages in Markdown, shown in the app's look and kept by phones to open offline."""

from __future__ import annotations

import hashlib
import re
from functools import lru_cache
from pathlib import Path

from flask import Blueprint, Response, abort, jsonify, make_response, render_template
from flask import send_from_directory as send
from markdown_it import MarkdownIt

FOLDER = Path(__file__).parent / "guide"
# In the order in which they are listed.
PAGES = ("first-lesson", "figures", "care", "default-rule", "going-live")

blueprint = Blueprint("guide", __name__, url_prefix="/guide", template_folder="templates")


@blueprint.get("/")
def index() -> Response:
    """What there is to read."""
    pages = [(name, _rendered(name)[0]) for name in PAGES]
    return _kept(make_response(render_template("guide_index.html", pages=pages)))


@blueprint.get("/<name>")
def page(name: str) -> Response:
    """One page."""
    if name not in PAGES:
        abort(404, "No such page in the guide.")
    title, body = _rendered(name)
    return _kept(make_response(render_template("guide.html", title=title, body=body)))


@blueprint.get("/guide.css")
def style() -> Response:
    """How the pages look."""
    return _kept(send(FOLDER.parent / "static", "guide.css"))


@blueprint.get("/pictures/<name>")
def picture(name: str) -> Response:
    """A picture of the pages."""
    return _kept(send(FOLDER / "pictures", name))


@blueprint.get("/files.json")
def files() -> Response:
    """Every address of the guide, for a phone to keep, and a digest that changes with them."""
    pictures = sorted(path.name for path in (FOLDER / "pictures").glob("*.png"))
    addresses = [
        "/guide/",
        "/guide/guide.css",
        *(f"/guide/{name}" for name in PAGES),
        *(f"/guide/pictures/{name}" for name in pictures),
    ]
    return _kept(jsonify({"version": _version(), "files": addresses}))


@lru_cache
def _rendered(name: str) -> tuple[str, str]:
    """Title and body of a page; HTML in the source is shown as text, never used."""
    markdown = MarkdownIt("commonmark", {"html": False}).enable("table")
    body = markdown.render((FOLDER / f"{name}.md").read_text("utf-8"))
    title = re.search("<h1>(.*?)</h1>", body)
    assert title is not None, f"{name}.md has no title"
    body = re.sub(r'href="([a-z-]+)\.md"', r'href="\1"', body)
    body = body.replace("<img ", '<img loading="lazy" width="360" height="740" ')
    # the corner of a table heads nothing
    body = body.replace("<th></th>", "<td></td>")
    # a wide table or a long command scrolls by itself, by keyboard too
    for tag in ("table", "pre"):
        body = body.replace(f"<{tag}>", f'<div class="wide" tabindex="0"><{tag}>')
        body = body.replace(f"</{tag}>", f"</{tag}></div>")
    return title[1], body


@lru_cache
def _version() -> str:
    digest = hashlib.sha256()
    folder = FOLDER.parent
    templates = [folder / "templates" / name for name in ("guide.html", "guide_index.html")]
    for path in sorted([*FOLDER.rglob("*.*"), *templates, folder / "static" / "guide.css"]):
        digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def _kept(answer: Response) -> Response:
    answer.headers["Cache-Control"] = "no-cache"
    return answer
