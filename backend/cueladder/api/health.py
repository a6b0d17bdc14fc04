"""Health check."""

from __future__ import annotations

from flask import abort
from sqlalchemy.exc import OperationalError

from .. import __version__
from ..rules.said import say
from ..store.db.health import takes_writes
from .blueprint import Blueprint
from .replies.access import HealthSchema

blueprint = Blueprint("health", __name__, url_prefix="/api", description="Health")


@blueprint.get("/health")
@blueprint.response(200, HealthSchema)
def health() -> dict[str, str]:
    """Answers once the database answers and takes writes."""
    try:
        well = takes_writes()
    except OperationalError:
        well = False
    if not well:
        abort(503, say("The database takes no writes: is its disk full or read-only?"))
    return {"status": "ok", "version": __version__}
