"""Odds of a rule, before anyone is taught by it."""

from __future__ import annotations

import json
from typing import Any

from flask import Response
from marshmallow import Schema, ValidationError, fields, validate

from ..language import speaker
from ..rules import Kind, Rule, RuleError, rule_from_json
from ..rules.rule import DEFAULT
from ..rules.said import say
from ..rules.settings import CAP, STARTLES
from ..store.db.engine import now
from ..story.by_two import marking
from ..story.rule_odds import Terms, rule_odds, settings_told, table_of
from .blueprint import Blueprint
from .drawn import open_plot
from .fields import Query, sound
from .guard import EVERYONE, actor, signed_in
from .replies.base import FILE, Reply, Words

blueprint = Blueprint("rules", __name__, url_prefix="/api/rules", description="Rules")

LONGEST = 2000


class RuleSchema(Schema):
    """A rule as it stands in a drill, and what else of the drill bears on its odds."""

    rule = fields.Dict(keys=fields.String(), required=True, validate=sound)
    kind = fields.Enum(Kind, by_value=True, load_default=Kind.SENSITIZATION)
    usual = fields.Integer(
        load_default=None,
        allow_none=True,
        validate=validate.Range(5, 80),
        metadata={"description": "cues a lesson gives the drill; null for the usual ones"},
    )
    cap = fields.Integer(load_default=CAP, validate=validate.Range(5, 200))
    startles = fields.Integer(load_default=STARTLES, validate=validate.Range(2, 5))


class RuleQuery(Query):
    """The rule as JSON; tone ``light`` or ``dark``, shape ``wide`` or ``tall``."""

    rule = fields.String(required=True)
    tone = fields.String(load_default="light")
    shape = fields.String(load_default="wide")


class OddsRowSchema(Reply):
    """The outcome of a count for a fencer with one true rate of right answers."""

    p = fields.Float(metadata={"description": "chance of a right answer"})
    climb = fields.Float(metadata={"description": "chance to be sent up"})
    back = fields.Float(metadata={"description": "chance to be sent back"})
    cues = fields.Float(metadata={"description": "expected cues to the decision"})


class MarkedSchema(Reply):
    """What the rule does to someone right 8 times in 10, as this club marks."""

    seen = fields.Float(metadata={"description": "share of answers that are marked right"})
    climb = fields.Float(metadata={"description": "chance to be sent up"})
    cues = fields.Integer(metadata={"description": "cues marked by two that it rests on"})
    claim = fields.String()
    words = Words()


class OverRowSchema(Reply):
    """What becomes of one rung over some lessons at one true rate."""

    p = fields.Float(metadata={"description": "chance of a right answer"})
    by_lesson = fields.List(
        fields.Float(), metadata={"description": "chance to be sent up by the end of each lesson"}
    )
    climb = fields.Float(metadata={"description": "by the end of the last"})
    back = fields.Float(metadata={"description": "chance that a step back came first"})
    secure = fields.Float(metadata={"description": "chance that the rung has held by then"})


class OverSchema(Reply):
    """The odds over five weekly lessons: cap and kept counts included, both halves together."""

    cues = fields.Integer()
    rows = fields.List(fields.Nested(OverRowSchema))
    pace = fields.Integer(
        allow_none=True, metadata={"description": "lesson by which half of the reliable are up"}
    )
    never = Words(allow_none=True, metadata={"description": "why the rule cannot be met"})
    words = Words()


class RuleSettingSchema(Reply):
    """One of quick, usual and strict."""

    name = fields.String()
    rule = fields.Dict(keys=fields.String())
    says = Words()
    lessons = fields.Nested(OverSchema, allow_none=True)


class RuleSettingsSchema(Reply):
    """The three settings of a kind of drill."""

    settings = fields.List(fields.Nested(RuleSettingSchema))


class RuleSettingsQuery(Query):
    """The kind of drill, and the cues a lesson gives it, or its usual ones."""

    kind = fields.Enum(Kind, by_value=True, required=True)
    usual = fields.Integer(load_default=None, validate=validate.Range(5, 80))


class OddsSchema(Reply):
    """The odds of a rule, and those of the default rule."""

    table = fields.List(fields.Nested(OddsRowSchema))
    default = fields.List(fields.Nested(OddsRowSchema))
    states = fields.Integer()
    says = Words(metadata={"description": "the rule as a coach would say it"})
    words = Words()
    lessons = fields.Nested(OverSchema, allow_none=True)
    warning = Words(allow_none=True)
    marked = fields.Nested(MarkedSchema, allow_none=True)


@blueprint.get("/settings")
@signed_in(*EVERYONE)
@blueprint.arguments(RuleSettingsQuery, location="query")
@blueprint.response(200, RuleSettingsSchema)
def settings(query: dict[str, Any]) -> dict[str, Any]:
    """Quick, usual and strict for a kind of drill, with their odds over five lessons."""
    return {"settings": settings_told(query["kind"], query["usual"])}


@blueprint.post("/odds")
@signed_in(*EVERYONE)
@blueprint.arguments(RuleSchema)
@blueprint.response(200, OddsSchema)
def odds(body: dict[str, Any]) -> dict[str, Any]:
    """Chance to be sent up and expected cues, exactly, for fencers of different skill."""
    terms = Terms(body["kind"], body["usual"], body["cap"], body["startles"])
    marked = marking(actor().club_id, now().astimezone().date())
    return rule_odds(_rule(body["rule"]), DEFAULT, terms, marked)


@blueprint.get("/odds.svg")
@signed_in(*EVERYONE)
@blueprint.arguments(RuleQuery, location="query")
@blueprint.response(200, FILE, content_type="image/svg+xml")
def picture(query: dict[str, str]) -> Response:
    """The odds as two curves, with the default rule's."""
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
    from ..pages import plots  # matplotlib takes a second to import

    return open_plot(
        plots.rule_curves(
            _rule(document), DEFAULT, tone, tall=query["shape"] == "tall", speaker=speaker()
        )
    )


def _rule(document: dict[str, Any]) -> Rule:
    """The rule, or a RuleError whose field starts with ``rule``."""
    try:
        rule = rule_from_json(document)
        table_of(rule)
    except RuleError as error:
        inside = error.field if error.field == "rule" else f"rule.{error.field}"
        raise RuleError(inside, error.message) from None
    return rule
