"""A rule with a large chart: worked out while nobody waits, and refused before it costs much."""

from types import SimpleNamespace

import pytest

from cueladder.rules import RuleError, rule_from_json
from cueladder.rules.mark import OUTCOMES
from cueladder.rules.merge import MOST_LOOKS
from cueladder.rules.table import MOST_EXPLORED, compile_rule
from cueladder.store.db.engine import db
from cueladder.store.drills import versions
from tests.drills import document
from tests.store.club import Club, statuses

HUGE = (
    {"family": "sequential", "p0": 0.5, "p1": 0.52, "alpha": 0.001, "beta": 0.001, "longest": 200},
    {"family": "sequential", "p0": 0.5, "p1": 0.52, "alpha": 0.001, "beta": 0.001, "longest": 120},
)


@pytest.mark.thorough
def test_another_clubs_sending_does_not_wait_while_a_rule_is_worked_out(app, club, monkeypatch):
    other = Club(app, "Salle Birkenhain")
    phone, real, sent = other.phone(), versions.compile_chart, []

    def compile_while_others_send(drill):
        assert not db.session().info.get("writing")
        sent.append(other.browser.push(*([phone.cue()] if sent else [phone.open()])))
        return real(drill)

    monkeypatch.setattr(versions, "compile_chart", compile_while_others_send)
    body = document(rule={"family": "run", "n": 20})
    added = club.browser.post("/api/drills", {"document": {**body, "slug": "another"}})
    assert added.status_code == 201, added.get_data(as_text=True)
    path = f"/api/drills/{added.get_json()['id']}"
    changed = {**body, "slug": "another", "rule": {"family": "run", "n": 21}}
    told = club.browser.send("PUT", path, {"document": changed, "archived": False})
    assert told.status_code == 200
    assert [statuses(reply) for reply in sent] == [["stored"], ["stored"]]


@pytest.mark.thorough
@pytest.mark.parametrize("rule", HUGE, ids=lambda rule: f"{rule['family']} {rule.get('longest')}")
def test_a_rule_that_is_too_large_is_refused_before_it_costs_much(club, rule):
    """Counted in looks at a state, not in seconds."""
    found = rule_from_json(rule)
    asked = []
    counted = SimpleNamespace(
        start=found.start,
        after=lambda *a: asked.append(1) or found.after(*a),
        progress=found.progress,
    )
    with pytest.raises(RuleError):
        compile_rule(counted, holds=False, startles=3)
    assert len(asked) <= len(OUTCOMES) * MOST_EXPLORED
    assert MOST_EXPLORED <= 40_000 and MOST_LOOKS <= 300_000
    path, body = f"/api/drills/{club.drill}", {"document": document("desensitization", rule=rule)}
    for answer in (
        club.browser.send("PUT", path, {**body, "archived": False}),
        club.browser.post(f"{path}/effect", body),
    ):
        assert answer.status_code == 422, answer.get_json()
        assert list(answer.get_json()["errors"]) == ["rule"]
