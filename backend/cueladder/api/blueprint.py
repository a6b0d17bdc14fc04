"""Blueprint of every group of routes."""

from __future__ import annotations

from typing import Any

import flask_smorest
from flask import Request, abort
from webargs.flaskparser import FlaskParser

from ..rules.said import say


class BodyParser(FlaskParser):
    """Parser of requests that answers 400 to a number of more digits than Python reads."""

    def load_json(self, req: Request, schema: Any) -> Any:
        """Parse a body."""
        try:
            return super().load_json(req, schema)
        except ValueError:
            abort(400, say("The body is not JSON."))


class Blueprint(flask_smorest.Blueprint):
    """A flask-smorest blueprint with that parser."""

    ARGUMENTS_PARSER = BodyParser()
