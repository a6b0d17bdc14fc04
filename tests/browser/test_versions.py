"""A new version of the app: offered between lessons, taken once, and never half of it."""

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import expect

import cueladder
from tests.browser.phone import page_until
from tests.browser.strip import end_lesson, events, mark, open_lesson

pytestmark = pytest.mark.browser
FIRST = Path(cueladder.__file__).parent / "static"
# at each load: whether the page had been left because the browser held on to the old version
NOTE_HELD = """if (sessionStorage.getItem("cue-ladder-version-held") !== null) {
  sessionStorage.setItem("test-held", "1");
}"""
# the one version there is has the page: nothing is left that could load it once more
SETTLED = """async () => {
  const { active, waiting, installing } = await navigator.serviceWorker.getRegistration();
  return !waiting && !installing && active.state === "activated"
    && navigator.serviceWorker.controller === active;
}"""


def deploy(build, folder):
    """Put a build where the server serves from; nothing of the one before is left."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(build, folder)


def names(build, pattern):
    return {path.name for path in (build / "assets").glob(pattern)}


def look_for_update(page):
    """What a phone does when it is taken out of the pocket."""
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    waits = "navigator.serviceWorker.getRegistration().then((r) => !!r.waiting)"
    page_until(page, lambda: page.evaluate(waits), "the new version")


def opened(salle):
    """The app, with its worker at work."""
    page = salle.open()
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    return page


def is_new(page):
    """Wait until this page is of the new version, and offers none."""
    expect(page.get_by_test_id("update")).to_have_count(0)
    page.get_by_role("link", name="Settings").click()
    expect(page.get_by_text("Version of 2031-01-01")).to_be_visible()


@pytest.fixture
def updating(evening, tmp_path):
    """A phone on the first version, at a server whose build can be replaced."""
    static = tmp_path / "static"
    deploy(FIRST, static)
    with evening.copy(tmp_path, static=static) as salle:
        yield salle, static


@pytest.mark.thorough
def test_a_new_version_waits_for_the_end_of_the_lesson_and_costs_one_reload(updating, second_build):
    salle, static = updating
    page = opened(salle)
    open_lesson(page)
    mark(page, "correct")
    deploy(second_build, static)
    look_for_update(page)
    offer = page.get_by_test_id("update")
    expect(page.get_by_test_id("mark-correct")).to_be_visible()
    expect(offer).to_have_count(0)
    mark(page, "correct")
    # the old version goes on whole: a screen it had not loaded yet comes from its own build
    page.goto(page.url.replace("/strip/", "/after/"))
    expect(page.get_by_test_id("after")).to_be_visible()
    expect(offer).to_have_count(0)
    page.get_by_test_id("end-lesson").click()
    page.get_by_test_id("to-today").click()
    expect(offer).to_be_visible()
    loads = []
    page.on("load", lambda: loads.append(page.url))
    page.context.add_init_script(NOTE_HELD)
    offer.get_by_role("button").click()
    is_new(page)
    page_until(page, lambda: page.evaluate(SETTLED), "the new version at work")
    # Chromium, watched by a debugger as here, holds on to the old one in about 1 of 30 runs
    held = page.evaluate("sessionStorage.getItem('test-held') !== null")
    assert len(loads) == (2 if held else 1)


def offered(salle, static, build):
    """A page on which a new version is offered."""
    page = opened(salle)
    deploy(build, static)
    look_for_update(page)
    expect(page.get_by_test_id("update")).to_be_visible()
    return page


@pytest.mark.thorough
def test_a_new_version_that_is_held_up_comes_by_leaving_the_page(updating, second_build):
    salle, static = updating
    page = offered(salle, static, second_build)
    # the page does not hear of the change, as when the browser holds on to the old version
    page.evaluate("navigator.serviceWorker.addEventListener = () => undefined")
    page.get_by_test_id("update").get_by_role("button").click()
    is_new(page)


@pytest.mark.thorough
def test_a_new_version_that_never_heard_it_may_take_over_is_offered_again(updating, second_build):
    salle, static = updating
    page = offered(salle, static, second_build)
    page.evaluate("ServiceWorker.prototype.postMessage = () => undefined")
    with page.expect_event("load"):
        page.get_by_test_id("update").get_by_role("button").click()
    page.get_by_test_id("update").get_by_role("button").click()
    is_new(page)


@pytest.mark.thorough
def test_two_tabs_take_a_new_version_together_and_lose_no_mark(updating, second_build):
    salle, static = updating
    page = opened(salle)
    other = page.context.new_page()
    other.goto(salle.phone.url)
    lesson = open_lesson(other)
    shared = names(FIRST, "After-*.js") & names(second_build, "After-*.js")
    assert not shared, "the builds must differ for this to say anything"
    deploy(second_build, static)
    look_for_update(page)
    page.get_by_test_id("update").get_by_role("button").click()
    is_new(page)
    mark(other, "correct", 2)
    # a screen this tab had not loaded yet is gone with the old version: it comes in the new one
    end_lesson(other)
    assert [e["mark"] for e in events(other, lesson) if e["type"] == "cue_marked"] == [
        "correct"
    ] * 2


@pytest.mark.thorough
def test_a_file_that_is_not_there_is_a_404_and_never_the_page(salle):
    page = salle.open()
    for path in ("/assets/gone-1a2b3c.js", "/assets/gone.css", "/gone.js"):
        status, kind = page.evaluate(
            "(path) => fetch(path).then((r) => [r.status, r.headers.get('Content-Type')])", path
        )
        assert status == 404, path
        assert not kind.startswith("text/html"), path


def test_a_broken_deployment_is_not_taken_and_the_old_version_goes_on(updating, second_build):
    salle, static = updating
    page = opened(salle)
    deploy(second_build, static)
    for script in (static / "assets").glob("After-*.js"):
        script.unlink()
    state = page.evaluate(
        """async () => {
          const registration = await navigator.serviceWorker.getRegistration();
          await registration.update();
          const next = registration.installing;
          if (next === null) return registration.waiting ? "waiting" : "none";
          return new Promise((done) => {
            next.onstatechange = () => {
              if (next.state !== "installing") done(next.state);
            };
          });
        }"""
    )
    assert state == "redundant"
    salle.server.stop()
    page.reload()
    expect(page.get_by_role("heading", name="Today")).to_be_visible()
    open_lesson(page)
