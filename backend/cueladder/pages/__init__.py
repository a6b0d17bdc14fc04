"""Server-rendered pages without scripts: the progress page and the guide."""

from __future__ import annotations

from flask import Flask

from ..language import speaker
from . import guide, progress


def init_app(app: Flask) -> None:
    """Register the pages and gettext in their templates."""
    app.register_blueprint(progress.blueprint)
    app.register_blueprint(guide.blueprint)
    app.jinja_env.add_extension("jinja2.ext.i18n")
    app.jinja_env.install_gettext_callables(  # type: ignore[attr-defined]
        lambda message: speaker().text(message),
        lambda one, many, n: speaker().counted(one, many, n),
        newstyle=True,
    )
