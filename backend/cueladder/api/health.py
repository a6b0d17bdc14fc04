"""Whether the server is well."""

from __future__ import annotations

from flask_smorest import Blueprint
from sqlalchemy import text

from .. import __version__
from ..store.db import db

blueprint = Blueprint("health", __name__, url_prefix="/api", description="Health")


@blueprint.get("/health")
@blueprint.response(200)
def health() -> dict[str, str]:
    """Answers once the database answers."""
    db.session.execute(text("SELECT 1"))
    return {"status": "ok", "version": __version__}
