"""Every route of the API with every role: who gets in."""

import re

import pytest

from cueladder.api.guard import COACHES, EVERYONE, HEADS
from tests.store.club import Browser

ROLES = ("head", "coach", "observer", None)
OPEN = {
    ("GET", "/api/health"),
    ("GET", "/api/openapi.json"),
    ("POST", "/api/session"),
    ("DELETE", "/api/session"),
    ("POST", "/api/session/pair"),
    ("GET", "/api/setup"),
    ("POST", "/api/setup"),
    ("POST", "/api/session/join"),
    ("POST", "/api/session/reset"),
}
# What each signed-in route asks for; a new route must be entered here.
ASKED = {
    ("GET", "/api/session"): EVERYONE,
    ("PUT", "/api/session/passphrase"): EVERYONE,
    ("POST", "/api/pairings"): EVERYONE,
    ("GET", "/api/invitations"): HEADS,
    ("POST", "/api/invitations"): HEADS,
    ("DELETE", "/api/invitations/<code_id>"): HEADS,
    ("GET", "/api/coaches"): HEADS,
    ("PATCH", "/api/coaches/<coach_id>"): HEADS,
    ("POST", "/api/coaches/<coach_id>/reset"): HEADS,
    ("GET", "/api/club"): EVERYONE,
    ("PUT", "/api/days/<day>"): COACHES,
    ("POST", "/api/days/<day>/same"): COACHES,
    ("GET", "/api/bookings"): EVERYONE,
    ("POST", "/api/bookings"): COACHES,
    ("PATCH", "/api/bookings/<booking_id>"): COACHES,
    ("DELETE", "/api/bookings/<booking_id>"): COACHES,
    ("GET", "/api/fencers"): EVERYONE,
    ("POST", "/api/fencers"): COACHES,
    ("PATCH", "/api/fencers/<fencer_id>"): COACHES,
    ("GET", "/api/fencers/<fencer_id>/changes"): COACHES,
    ("GET", "/api/imports"): COACHES,
    ("POST", "/api/imports"): COACHES,
    ("POST", "/api/imports/preview"): COACHES,
    ("GET", "/api/imports/example.csv"): COACHES,
    ("DELETE", "/api/imports/<import_id>"): COACHES,
    ("DELETE", "/api/fencers/<fencer_id>"): HEADS,
    ("GET", "/api/fencers/<fencer_id>/record"): HEADS,
    ("GET", "/api/fencers/<fencer_id>/export"): HEADS,
    ("GET", "/api/fencers/<fencer_id>/export.zip"): HEADS,
    ("GET", "/api/fencers/<fencer_id>/audit"): HEADS,
    ("GET", "/api/audit"): HEADS,
    ("GET", "/api/club/settings"): HEADS,
    ("GET", "/api/club/remnants"): HEADS,
    ("GET", "/api/club/learning"): HEADS,
    ("POST", "/api/club/learning"): HEADS,
    ("GET", "/api/club/learning/numbers"): HEADS,
    ("POST", "/api/club/learning/<kind>/<what>"): HEADS,
    ("DELETE", "/api/club/learning/<kind>/<what>"): HEADS,
    ("GET", "/api/club/learning/<kind>/<name>.svg"): HEADS,
    ("PATCH", "/api/club/settings"): HEADS,
    ("GET", "/api/club/retention"): HEADS,
    ("GET", "/api/club/draws"): COACHES,
    ("GET", "/api/fencers/<fencer_id>/draws"): COACHES,
    ("GET", "/api/fencers/<fencer_id>/draws/outlook"): COACHES,
    ("POST", "/api/fencers/<fencer_id>/draws"): COACHES,
    ("DELETE", "/api/fencers/<fencer_id>/draws/<draw_id>"): COACHES,
    ("GET", "/api/fencers/<fencer_id>/goals"): EVERYONE,
    ("PUT", "/api/fencers/<fencer_id>/goals/<drill_id>"): COACHES,
    ("DELETE", "/api/fencers/<fencer_id>/goals/<drill_id>"): COACHES,
    ("GET", "/api/fencers/<fencer_id>/season"): COACHES,
    ("GET", "/api/competitions"): EVERYONE,
    ("POST", "/api/competitions"): COACHES,
    ("PATCH", "/api/competitions/<competition_id>"): COACHES,
    ("DELETE", "/api/competitions/<competition_id>"): COACHES,
    ("GET", "/api/fencers/<fencer_id>/links"): COACHES,
    ("POST", "/api/fencers/<fencer_id>/links"): COACHES,
    ("DELETE", "/api/fencers/<fencer_id>/links"): COACHES,
    ("DELETE", "/api/fencers/<fencer_id>/links/<link_id>"): COACHES,
    ("GET", "/api/drills"): EVERYONE,
    ("POST", "/api/drills"): COACHES,
    ("PUT", "/api/drills/<drill_id>"): COACHES,
    ("POST", "/api/drills/check"): COACHES,
    ("POST", "/api/drills/<drill_id>/effect"): COACHES,
    ("GET", "/api/drills/<drill_id>/versions"): EVERYONE,
    ("POST", "/api/drills/<drill_id>/fencers/<fencer_id>/odds"): EVERYONE,
    ("GET", "/api/charts"): EVERYONE,
    ("GET", "/api/charts/<chart_id>"): EVERYONE,
    ("GET", "/api/events"): EVERYONE,
    ("POST", "/api/events"): EVERYONE,
    ("POST", "/api/events/others"): HEADS,
    ("GET", "/api/lessons/waiting"): HEADS,
    ("PATCH", "/api/lessons/<lesson_id>"): HEADS,
    ("DELETE", "/api/lessons/<lesson_id>"): HEADS,
    ("GET", "/api/standings"): EVERYONE,
    ("GET", "/api/devices"): EVERYONE,
    ("PATCH", "/api/devices/<device_id>"): EVERYONE,
    ("DELETE", "/api/devices/<device_id>"): EVERYONE,
    ("GET", "/api/rules/settings"): EVERYONE,
    ("POST", "/api/rules/odds"): EVERYONE,
    ("GET", "/api/rules/odds.svg"): EVERYONE,
    ("GET", "/api/fencers/<fencer_id>/story"): EVERYONE,
    ("GET", "/api/fencers/<fencer_id>/plan"): EVERYONE,
    ("GET", "/api/lessons/<lesson_id>/after"): EVERYONE,
    ("GET", "/api/lessons/<lesson_id>/cues"): EVERYONE,
    ("GET", "/api/club/overview"): EVERYONE,
    ("GET", "/api/fencers/<fencer_id>/comfort.svg"): EVERYONE,
    ("GET", "/api/fencers/<fencer_id>/drills/<drill_id>/<name>.svg"): EVERYONE,
    ("GET", "/api/club/sheets/<name>.csv"): COACHES,
}


def routes(app):
    for rule in app.url_map.iter_rules():
        for method in rule.methods - {"HEAD", "OPTIONS"}:
            if rule.rule.startswith("/api") and not (
                rule.rule in OPEN and (method, rule.rule) not in ASKED
            ):
                yield method, rule.rule


def test_every_route_is_entered_with_the_roles_it_asks_for(app):
    assert set(routes(app)) - OPEN == set(ASKED)


@pytest.mark.parametrize("role", ROLES)
def test_a_role_gets_into_its_routes_and_no_others(app, club, role):
    if role is None:
        browser = Browser(app)
    else:
        club.add_coach(f"A {role}", role)
        browser = club.sign_in(f"A {role}")
    for (method, rule), allowed in ASKED.items():
        path = re.sub("<[a-z_]+>", "x", rule)
        code = browser.send(method, path, {} if method in ("POST", "PUT", "PATCH") else None)
        if role is None:
            assert code.status_code == 401, (method, rule)
            assert code.get_json()["title"] == "Sign in"
        elif role in allowed:
            assert code.status_code in (200, 201, 202, 404, 422), (method, rule)
        else:
            assert code.status_code == 403, (method, rule)
            assert role in code.get_json()["detail"]
