"""Sending from a real phone to a real server, with what goes wrong between them."""

from datetime import datetime, timedelta

import pytest
from playwright.sync_api import expect

from seed_demo.club import PASSPHRASE
from tests.browser.phone import page_until
from tests.browser.strip import all_sent, choose, events, lesson_of, mark, open_lesson, sign_in
from tests.faults.proxy import Proxy
from tests.ports import free_port

pytestmark = pytest.mark.browser

# A slow phone: what a lesson is read again for after a fetch comes when the test lets it.
SLOW_REREAD = """() => {
  const real = IDBIndex.prototype.getAll;
  globalThis.rereads = { begun: 0, done: 0, let: false };
  IDBIndex.prototype.getAll = function (...asked) {
    const request = real.apply(this, asked);
    if (this.objectStore.name !== "befores") return request;
    rereads.begun += 1;
    const listen = request.addEventListener.bind(request);
    const hold = async (hear) => {
      while (!rereads.let) await new Promise((go) => setTimeout(go, 20));
      hear();
      rereads.done += 1;
    };
    request.addEventListener = (type, hear) =>
      listen(type, type === "success" ? () => hold(hear) : hear);
    return request;
  };
  dispatchEvent(new Event("online"));
}"""


def stored(page, server, after=0):
    """Every event the server has stored behind a sequence number, as this browser may see it."""
    found, more = [], True
    while more:
        answer = page.context.request.get(f"{server.url}/api/events?after={after}&limit=500")
        assert answer.ok, answer.text()
        page_of = answer.json()
        found += page_of["events"]
        after, more = page_of["next"], page_of["more"]
    return found


def of_lesson(page, server, lesson):
    return [event for event in stored(page, server) if event["lesson"] == lesson]


def fill_in(page, name):
    """Sign in where the form already stands."""
    page.get_by_label("Name").fill(name)
    page.get_by_label("Passphrase").fill(PASSPHRASE)
    page.get_by_role("button", name="Sign in").click()


def test_a_reply_lost_after_the_commit_is_sent_again_and_stored_once(evening, tmp_path):
    behind = free_port()
    with evening.copy(tmp_path, behind) as salle, Proxy(evening.port, behind) as proxy:
        page = salle.open()
        lesson = open_lesson(page)
        all_sent(page)
        lost = iter((True, True))
        proxy.lose = lambda method, path: (
            method == "POST" and path == "/api/events" and next(lost, False)
        )
        mark(page, "correct", 3)
        all_sent(page)
        assert proxy.lost == ["POST /api/events"] * 2
        sent = of_lesson(page, salle.server, lesson)
        assert len(sent) == len({event["id"] for event in sent}) == 4
        assert {event["id"] for event in sent} == {event["id"] for event in events(page)}


def test_a_sign_in_that_ends_in_mid_lesson_keeps_the_queue_and_says_sign_in_to_send(salle):
    page = salle.open()
    lesson = open_lesson(page)
    mark(page, "correct")
    all_sent(page)
    ended = page.context.request.delete(
        f"{salle.server.url}/api/session", headers={"X-Cue-Ladder": "1"}
    )
    assert ended.ok
    mark(page, "correct", 2)
    expect(page.get_by_test_id("sync")).to_have_accessible_name("Sign in to send")
    expect(page.get_by_test_id("sync")).to_have_attribute("data-unsent", "2")
    mark(page, "late")
    page.get_by_test_id("sync").click()
    fill_in(page, salle.coach)
    expect(page.get_by_test_id("sync")).to_have_attribute("data-unsent", "0")
    assert len(of_lesson(page, salle.server, lesson)) == 5


def test_another_coach_signing_in_never_sends_the_first_coachs_marks(salle):
    page = salle.open()
    lesson = open_lesson(page)
    all_sent(page)
    page.context.set_offline(True)
    mark(page, "correct", 2)
    page.goto(salle.phone.url + "/settings")
    page.get_by_test_id("sign-out").click()
    expect(page.get_by_test_id("sign-out")).to_have_count(0)
    page.context.set_offline(False)
    page.goto(salle.phone.url)
    sign_in(page, salle.other, PASSPHRASE)
    with page.expect_response(lambda answer: "/api/events" in answer.url):
        open_lesson(page)
    theirs = lesson_of(page)
    mark(page, "correct")
    expect(page.get_by_test_id("sync")).to_have_attribute("data-unsent", "2")
    assert len(of_lesson(page, salle.server, theirs)) == 2
    assert len(of_lesson(page, salle.server, lesson)) == 1
    page.goto(salle.phone.url + "/settings")
    expect(page.get_by_test_id("sending")).to_contain_text("2 entries of another coach")
    page.get_by_test_id("sign-out").click()
    expect(page.get_by_test_id("sign-out")).to_have_count(0)
    page.goto(salle.phone.url)
    sign_in(page, salle.coach, PASSPHRASE)
    all_sent(page)
    mine = of_lesson(page, salle.server, lesson)
    assert len(mine) == 3
    assert {event["coach"] for event in mine} == {mine[0]["coach"]}


@pytest.mark.thorough
def test_a_drill_chosen_while_what_was_fetched_is_read_stays_on_the_strip(salle):
    page = salle.open()
    open_lesson(page, "preparation-or-attack")
    all_sent(page)
    page.evaluate(SLOW_REREAD)
    page_until(page, lambda: page.evaluate("rereads.begun"), "reading again")
    choose(page, "distance-parry-late")
    assert page.evaluate("rereads.done") == 0
    page.evaluate("rereads.let = true")
    page_until(page, lambda: page.evaluate("rereads.done"), "what was read again")
    mark(page, "correct", 2)
    expect(page.get_by_test_id("cue")).to_be_visible()


@pytest.mark.thorough
@pytest.mark.parametrize("days", [-1, 1])
def test_a_clock_a_day_off_is_no_reason_to_refuse_a_mark(salle, days):
    # a browser cannot be given another clock: its Date is set, all else is real
    page = salle.phone.start_blank()
    page.clock.set_system_time(datetime.now() + timedelta(days=days))
    page.goto(salle.phone.url)
    lesson = open_lesson(page)
    mark(page, "correct", 2)
    all_sent(page)
    expect(page.get_by_test_id("sync")).to_have_attribute("data-state", "clear")
    found = of_lesson(page, salle.server, lesson)
    assert len(found) == 3
    assert found[0]["day"] == (datetime.now() + timedelta(days=days)).date().isoformat()
