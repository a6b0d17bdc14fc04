"""The front end's files, the headers, and the one shape of errors."""

import json
import re

import pytest

from tests.store.club import Browser


@pytest.fixture
def visitor(app):
    return Browser(app)


@pytest.mark.parametrize("path", ["/", "/today", "/fencers/7", "/index.html"])
def test_every_route_of_the_app_is_its_one_page_and_never_kept(visitor, path):
    answer = visitor.get(path)
    assert (answer.status_code, answer.mimetype) == (200, "text/html")
    assert answer.headers["Cache-Control"] == "no-cache"


def test_hashed_files_are_kept_for_ever_and_the_worker_never(visitor):
    kept = visitor.get("/assets/app-1a2b3c.js")
    assert "immutable" in kept.headers["Cache-Control"]
    assert "javascript" in kept.mimetype
    assert visitor.get("/sw.js").headers["Cache-Control"] == "no-cache"


@pytest.mark.parametrize(
    "path",
    [
        "/assets/old-9f9f9f.js",
        "/style.css",
        "/assets/",
        "/assets/x",
        "/api/none",
        "/api",
        "/..%2fcueladder.sqlite",
        "/assets/../../cueladder.sqlite",
        "/%00.js",
    ],
)
def test_a_file_that_is_not_there_is_a_real_404(visitor, path):
    answer = visitor.get(path)
    assert (answer.status_code, answer.mimetype) == (404, "application/problem+json")


@pytest.mark.parametrize("path", ["/", "/api/health", "/api/none", "/assets/app-1a2b3c.js"])
def test_every_answer_forbids_inline_code_and_framing(visitor, path):
    headers = visitor.get(path).headers
    policy = headers["Content-Security-Policy"]
    assert "script-src 'self'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "no-referrer"


def test_over_https_the_browser_is_told_to_stay_there(visitor):
    assert "Strict-Transport-Security" not in visitor.get("/").headers
    answer = visitor.open("/", method="GET", base_url="https://club.example")
    assert "max-age" in answer.headers["Strict-Transport-Security"]


def test_answers_of_the_api_are_not_kept(visitor):
    assert visitor.get("/api/health").headers["Cache-Control"] == "no-store"


@pytest.mark.parametrize(
    ("method", "path", "status", "title"),
    [
        ("GET", "/api/none", 404, "Not found"),
        ("POST", "/api/health", 405, "Not possible here"),
        ("GET", "/api/club", 401, "Sign in"),
        ("PUT", "/today", 405, "Not possible here"),
    ],
)
def test_errors_have_one_shape(visitor, method, path, status, title):
    answer = visitor.send(method, path)
    assert answer.mimetype == "application/problem+json"
    body = answer.get_json()
    assert (body["type"], body["status"], body["title"]) == ("about:blank", status, title)
    assert body["detail"]


def test_an_unforeseen_error_has_the_shape_too_and_tells_nothing(app, client, caplog, monkeypatch):
    monkeypatch.setitem(app.view_functions, "health.health", lambda: 1 / 0)
    answer = client.get("/api/health")
    assert answer.status_code == 500
    assert answer.get_json()["title"] == "Our fault"
    assert "division" not in answer.get_data(as_text=True)
    assert "division" in caplog.text


def test_the_api_describes_itself(client):
    told = client.get("/api/openapi.json").get_json()
    assert told["openapi"].startswith("3.")
    assert {"/api/events", "/api/fencers/{fencer_id}", "/api/drills"} <= told["paths"].keys()
    for name in re.findall(r'"\$ref": "#/components/(\w+/\w+)"', json.dumps(told)):
        kind, key = name.split("/")
        assert key in told["components"][kind], name
    problem = told["components"]["responses"]["Problem"]["content"]
    assert list(problem) == ["application/problem+json"]


def test_a_front_end_that_is_not_built_is_said_so(app, tmp_path, monkeypatch):
    monkeypatch.setitem(app.config, "STATIC", tmp_path / "nothing")
    assert "not built" in Browser(app).get("/").get_json()["detail"]
