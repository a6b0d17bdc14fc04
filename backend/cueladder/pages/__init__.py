"""Pages for fencers and parents: made on the server, without scripts, opened by a link."""

from __future__ import annotations

from flask import Flask

from ..language import speaker
from .progress import blueprint


def init_app(app: Flask) -> None:
    """Serve the pages."""
    app.register_blueprint(blueprint)
    app.jinja_env.add_extension("jinja2.ext.i18n")
    app.jinja_env.install_gettext_callables(  # type: ignore[attr-defined]
        lambda message: speaker().text(message),
        lambda one, many, n: speaker().counted(one, many, n),
        newstyle=True,
    )
