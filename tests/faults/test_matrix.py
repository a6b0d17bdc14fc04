"""Role × route × thing: who gets in, and that nothing of another club is told or changed."""

import pytest
from flask import jsonify

from tests.faults.matrix import Matrix, routes
from tests.faults.matrix_tries import TRIES
from tests.faults.world import ROLES
from tests.store import club


def test_every_route_there_is_has_a_try(app):
    """A new route fails here until it is entered in `TRIES`."""
    assert routes(app) == TRIES.keys()


@pytest.mark.thorough
@pytest.mark.parametrize("role", ROLES)
def test_no_role_gets_further_than_it_may_and_no_club_hears_of_another(app, role):
    found = Matrix(app).run(roles=(role,))
    assert found.wrong == []
    assert found.untried == set()
    assert len(found.pairs) == len(TRIES)
    let_in = {"own", "foreign", "deleted", "bad"}
    whats = {what for what, _ in found.statuses}
    assert whats - {"not let in"} == let_in
    assert "not let in" in whats or role == "head"


def test_a_route_that_lets_too_many_in_and_one_that_tells_too_much_are_noticed(app, monkeypatch):
    """The matrix itself, tried on a server that is at fault."""
    leak = lambda fencer_id: jsonify(told="Vexillina")  # noqa: E731
    monkeypatch.setitem(app.view_functions, "records.record", leak)
    monkeypatch.setattr(club, "check_reply", lambda *_: None)  # it replies as no route declares
    path = "/api/fencers/<fencer_id>/record"
    found = Matrix(app).run(lambda route: route == ("GET", path))
    assert any("observer not let in: 200" in wrong for wrong in found.wrong)
    assert any("nobody not let in: 200" in wrong for wrong in found.wrong)
    assert any("head foreign fencer: tells ['Vexillina']" in wrong for wrong in found.wrong)
    assert any("head deleted fencer: 200" in wrong for wrong in found.wrong)
