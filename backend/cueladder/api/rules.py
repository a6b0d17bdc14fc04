"""Rules: what a rule does, before anyone is taught by it."""

from __future__ import annotations

import json
from typing import Any

from flask import Response
from flask_smorest import Blueprint
from marshmallow import Schema, ValidationError, fields

from ..language import speaker
from ..rules import Rule, RuleError, rule_from_json
from ..rules.rule import DEFAULT
from ..rules.said import say
from ..story.rule_odds import table_of, told
from .fields import Query, Words, sound
from .guard import EVERYONE, signed_in

blueprint = Blueprint("rules", __name__, url_prefix="/api/rules", description="Rules")

LONGEST = 2000


class RuleSchema(Schema):
    """A rule as it stands in a drill."""

    rule = fields.Dict(keys=fields.String(), required=True, validate=sound)


class RuleQuery(Query):
    """The rule as JSON; ``tone`` ``dark`` on a dark page, ``shape`` ``tall`` on a narrow one."""

    rule = fields.String(required=True)
    tone = fields.String(load_default="light")
    shape = fields.String(load_default="wide")


class OddsRowSchema(Schema):
    """What becomes of a count at one true rate, on average over endless tries."""

    p = fields.Float(metadata={"description": "chance of a right answer"})
    climb = fields.Float(metadata={"description": "chance to be sent up"})
    back = fields.Float(metadata={"description": "chance to be sent back"})
    cues = fields.Float(metadata={"description": "expected cues to the decision"})


class OddsSchema(Schema):
    """The odds of a rule beside the default's."""

    table = fields.List(fields.Nested(OddsRowSchema))
    default = fields.List(fields.Nested(OddsRowSchema))
    states = fields.Integer()
    words = Words()
    warning = Words(allow_none=True)


@blueprint.post("/odds")
@signed_in(*EVERYONE)
@blueprint.arguments(RuleSchema)
@blueprint.response(200, OddsSchema)
def odds(body: dict[str, Any]) -> dict[str, Any]:
    """Chance to be sent up and expected cues, exactly, for fencers of different skill."""
    return told(_rule(body["rule"]), DEFAULT)


@blueprint.get("/odds.svg")
@signed_in(*EVERYONE)
@blueprint.arguments(RuleQuery, location="query")
def picture(query: dict[str, str]) -> Response:
    """The same as two curves, beside the default's."""
    if len(query["rule"]) > LONGEST:
        raise ValidationError(
            {"rule": [say("should be at most %(most)s characters", most=LONGEST)]}
        )
    try:
        document = json.loads(query["rule"])
    except (ValueError, RecursionError):
        raise ValidationError({"rule": [say("should be a rule as JSON")]}) from None
    if not isinstance(document, dict):
        raise ValidationError({"rule": [say("should be an object")]})
    sound(document)
    tone = "dark" if query["tone"] == "dark" else "light"
    from ..pages import plots  # drawing takes a second to load

    drawn = plots.rule_curves(
        _rule(document), DEFAULT, tone, tall=query["shape"] == "tall", speaker=speaker()
    )
    answer = Response(drawn, mimetype="image/svg+xml")
    answer.headers["Content-Security-Policy"] = "default-src 'none'; style-src 'unsafe-inline'"
    return answer


def _rule(document: dict[str, Any]) -> Rule:
    """The rule, or a RuleError whose field starts with ``rule``."""
    try:
        rule = rule_from_json(document)
        table_of(rule)
    except RuleError as error:
        inside = error.field if error.field == "rule" else f"rule.{error.field}"
        raise RuleError(inside, error.message) from None
    return rule
