"""People, devices and records as they are looked after in the app: real browsers, a real server."""

import re
import sqlite3
import zipfile
from contextlib import contextmanager
from urllib.parse import urljoin

import pytest
from playwright.sync_api import expect

from seed_demo.club import PASSPHRASE
from tests.browser.database import read
from tests.browser.phone import Guest
from tests.browser.strip import all_sent, mark, open_lesson, sign_in

pytestmark = pytest.mark.browser
NEW = "another way to say it"


@contextmanager
def another(chrome, url):
    """A second phone, which knows nothing yet."""
    one = Guest(chrome, url)
    try:
        yield one
    finally:
        one.close()


def at_home(page):
    expect(page.get_by_role("heading", name="Today")).to_be_visible()


def signed_in_as(page):
    """Whom the server takes this browser for."""
    answer = page.context.request.get(urljoin(page.url, "/api/session"))
    return answer.json()["coach"] if answer.ok else None


def link_shown(page):
    """The one-time link that is on the screen."""
    shown = page.get_by_test_id("shown")
    expect(shown.get_by_role("img", name="QR code of the link")).to_be_visible()
    link = shown.get_by_test_id("shown-address").input_value()
    assert link.endswith("#" + shown.get_by_test_id("shown-code").inner_text())
    return link


def open_person(page, name):
    card = page.get_by_test_id(f"person-{name}")
    card.locator("summary").first.click()
    return card


def join(page, link, name):
    page.goto(link)
    page.get_by_label("Your name").fill(name)
    page.get_by_label("Passphrase").fill(PASSPHRASE)
    page.get_by_role("button", name="Join").click()
    at_home(page)


def test_an_empty_server_is_set_up_by_the_printed_code(empty):
    phone, link = empty
    page = phone.start()
    page.get_by_role("link", name="Set up a new club").click()
    fill_in_setup(page, code="AAAAA-BBBBB-CCCCC")
    page.get_by_role("button", name="Set up").click()
    expect(page.get_by_role("alert")).to_contain_text("This code does not work")
    assert page.get_by_label("Name of the club").input_value() == "Halle Nord Fencing Circle"
    page.goto("about:blank")
    page.goto(link)
    fill_in_setup(page)
    page.get_by_role("button", name="Set up").click()
    at_home(page)
    assert "#" not in page.url
    assert signed_in_as(page)["role"] == "head"
    page.goto(f"{phone.url}/drills")
    expect(page.get_by_role("link", name="Parry of sixte").first).to_be_visible()
    page.goto(f"{phone.url}/setup")
    expect(page.get_by_test_id("set-up-already")).to_contain_text("There is a club")


def fill_in_setup(page, code=None):
    if code:
        page.get_by_label("One-time code").fill(code)
    page.get_by_label("Name of the club").fill("Halle Nord Fencing Circle")
    page.get_by_label("Your name").fill("Ansgar Vell")
    page.get_by_label("Passphrase").fill(PASSPHRASE)


def test_a_new_coach_joins_by_the_link_of_an_invitation_and_only_once(salle, chrome):
    page = salle.open("/settings")
    page.get_by_role("link", name="People").click()
    page.get_by_test_id("invite-observer").click()
    page.get_by_test_id("invite-make").click()
    link = link_shown(page)
    expect(page.get_by_test_id("shown")).to_contain_text("Works once, until")
    with another(chrome, salle.phone.url) as second:
        theirs = second.start()
        theirs.goto(link)
        theirs.get_by_label("Your name").fill(salle.coach)
        theirs.get_by_label("Passphrase").fill(PASSPHRASE)
        theirs.get_by_role("button", name="Join").click()
        expect(theirs.get_by_text("is taken: choose another")).to_be_visible()
        join(theirs, link, "Odile Brandt-Suhr")
        assert signed_in_as(theirs)["role"] == "observer"
        theirs.goto(f"{salle.phone.url}/settings")
        expect(theirs.get_by_role("link", name="Change my passphrase")).to_be_visible()
        expect(theirs.get_by_role("link", name="People")).to_have_count(0)
        theirs.goto(f"{salle.phone.url}/people")
        expect(theirs.get_by_test_id("no-answer")).to_contain_text("for the head coach")
        theirs.goto("about:blank")
        theirs.goto(link)
        theirs.get_by_label("Your name").fill("Someone else")
        theirs.get_by_label("Passphrase").fill(PASSPHRASE)
        theirs.get_by_role("button", name="Join").click()
        expect(theirs.get_by_role("alert")).to_contain_text("ask your head coach")
    page.reload()
    card = open_person(page, "Odile Brandt-Suhr")
    card.get_by_test_id("role-coach").click()
    expect(card.locator("header")).to_contain_text("Coach")
    expect(card.get_by_test_id("person-told")).to_contain_text("Saved")


@pytest.mark.thorough
def test_a_withdrawn_invitation_opens_nothing(salle, chrome):
    page = salle.open("/people")
    page.get_by_test_id("invite-make").click()
    link = link_shown(page)
    page.get_by_test_id("invitations").locator("summary").click()
    page.get_by_role("button", name="Withdraw").click()
    expect(page.get_by_test_id("invite-told")).to_contain_text("withdrawn")
    with another(chrome, salle.phone.url) as second:
        theirs = second.start()
        theirs.goto(link)
        theirs.get_by_label("Your name").fill("Odile Brandt-Suhr")
        theirs.get_by_label("Passphrase").fill(PASSPHRASE)
        theirs.get_by_role("button", name="Join").click()
        expect(theirs.get_by_role("alert")).to_contain_text("This code does not work")


@pytest.mark.thorough
def test_a_forgotten_passphrase_is_set_anew_by_a_code_of_the_head_coach(salle, chrome):
    page = salle.open("/people")
    card = open_person(page, salle.other)
    card.get_by_test_id("reset-code").click()
    link_shown(page)
    code = page.get_by_test_id("shown-code").inner_text()
    with another(chrome, salle.phone.url) as second:
        theirs = second.start()
        theirs.get_by_role("link", name="I forgot my passphrase").click()
        theirs.get_by_label("One-time code").fill(code.lower().replace("-", " "))
        theirs.get_by_label("New passphrase").fill(NEW)
        theirs.get_by_role("button", name="Set it").click()
        at_home(theirs)
        assert signed_in_as(theirs)["name"] == salle.other
        theirs.goto(f"{salle.phone.url}/settings")
        theirs.get_by_test_id("sign-out").click()
        expect(theirs.get_by_test_id("sign-out")).to_have_count(0)
        theirs.goto(salle.phone.url)
        sign_in(theirs, salle.other, NEW)


@pytest.mark.thorough
def test_a_coach_who_has_left_is_signed_out_and_can_be_let_in_again(salle, chrome):
    with another(chrome, salle.phone.url) as second:
        theirs = second.start()
        sign_in(theirs, salle.other, PASSPHRASE)
        page = salle.open("/people")
        card = open_person(page, salle.other)
        card.get_by_test_id("leave").click()
        card.get_by_test_id("leave-yes").click()
        expect(card).to_have_count(0)
        assert signed_in_as(theirs) is None
        page.get_by_test_id("left").locator("summary").click()
        page.get_by_role("button", name="Let in again").click()
        expect(page.get_by_test_id(f"person-{salle.other}")).to_be_visible()
        theirs.goto(f"{salle.phone.url}/devices")
        expect(theirs.get_by_test_id("no-answer")).to_contain_text("Your sign-in on this device")
        theirs.get_by_role("link", name="Sign in again").click()
        theirs.get_by_label("Name").fill(salle.other)
        theirs.get_by_label("Passphrase").fill(PASSPHRASE)
        theirs.get_by_role("button", name="Sign in", exact=True).click()
        expect(theirs.get_by_label("Passphrase")).to_have_count(0)
        assert signed_in_as(theirs)["name"] == salle.other


@pytest.mark.thorough
def test_the_last_head_coach_cannot_become_anything_else(salle):
    page = salle.open("/people")
    card = open_person(page, salle.coach)
    card.get_by_test_id("role-coach").click()
    expect(card.get_by_role("alert")).to_contain_text("without a head coach")
    expect(card.locator("header")).to_contain_text("Head coach")


@pytest.mark.thorough
def test_a_coach_changes_the_own_passphrase(salle, chrome):
    page = salle.open("/settings")
    page.get_by_role("link", name="Change my passphrase").click()
    page.get_by_label("The passphrase you have now").fill("not this one")
    page.get_by_label("New passphrase").fill(NEW)
    page.get_by_role("button", name="Change it").click()
    expect(page.get_by_text("is not the passphrase you sign in with now")).to_be_visible()
    page.get_by_label("The passphrase you have now").fill(PASSPHRASE)
    page.get_by_role("button", name="Change it").click()
    expect(page.get_by_test_id("passphrase-told")).to_contain_text("is changed")
    with another(chrome, salle.phone.url) as second:
        sign_in(second.start(), salle.coach, NEW)


@pytest.mark.thorough
def test_a_second_phone_is_paired_renamed_and_signed_out_and_keeps_its_marks(salle, chrome):
    page = salle.open("/settings")
    page.get_by_role("link", name="Devices").click()
    page.get_by_test_id("pair-make").click()
    expect(page.get_by_test_id("pairing")).to_contain_text(re.compile(r"for another [45]:\d\d"))
    first = link_shown(page)
    page.get_by_test_id("pair-anew").click()
    expect(page.get_by_test_id("shown-address")).not_to_have_value(first)
    link = link_shown(page)
    with another(chrome, salle.phone.url) as second:
        theirs = second.start()
        theirs.goto(first)
        expect(theirs.get_by_role("alert")).to_contain_text("This code does not work")
        theirs.goto("about:blank")
        theirs.goto(link)
        at_home(theirs)
        assert signed_in_as(theirs)["name"] == salle.coach
        expect(page.get_by_test_id("pairing-told")).to_contain_text("is signed in now")

        device = page.get_by_test_id("device")
        device.locator("summary").click()
        device.get_by_label("What you call it").fill("Phone on the tripod")
        device.get_by_role("button", name="Save the name").click()
        expect(device.locator("summary")).to_contain_text("Phone on the tripod")

        expect(theirs.get_by_role("button", name="Start:").first).to_be_visible()
        open_lesson(theirs)
        mark(theirs, "correct")
        all_sent(theirs)
        device.get_by_test_id("revoke").click()
        device.get_by_test_id("revoke-yes").click()
        expect(page.get_by_test_id("my-devices-told")).to_contain_text("Phone on the tripod")
        expect(page.get_by_test_id("device")).to_have_count(0)
        mark(theirs, "correct", 2)
        expect(theirs.get_by_test_id("sync")).to_have_accessible_name("Sign in to send")
        expect(theirs.get_by_test_id("sync")).to_have_attribute("data-unsent", "2")

        # pairing it again is a sign-in too: what waited is sent
        page.get_by_test_id("pair-make").click()
        again = link_shown(page)
        theirs.goto(again)
        theirs.get_by_role("button", name="Sign in here").click()
        at_home(theirs)
        all_sent(theirs)


@pytest.mark.thorough
def test_without_a_network_the_pages_say_so_and_try_again(salle):
    page = salle.open("/settings")
    all_sent(page)
    page.context.set_offline(True)
    page.get_by_role("link", name="Devices").click()
    expect(page.get_by_test_id("no-answer")).to_contain_text("needs a connection")
    page.context.set_offline(False)
    page.get_by_role("button", name="Try again").click()
    expect(page.get_by_test_id("this-device")).to_be_visible()


def to_record(page, salle):
    """Open the records of a fencer with lessons; their nickname and id."""
    page.goto(f"{salle.phone.url}/fencers")
    page.locator("a[data-testid^=story-]").first.click()
    page.get_by_test_id("to-record").click()
    expect(page.get_by_test_id("consent")).to_be_visible()
    heading = page.get_by_role("heading", name="Records of")
    return heading.inner_text().removeprefix("Records of "), page.url.split("/")[-2]


@pytest.mark.thorough
def test_consent_is_noted_and_all_that_is_kept_is_saved_as_a_file(salle, tmp_path):
    page = salle.open()
    nickname, fencer = to_record(page, salle)
    page.get_by_label("Day it was given").fill("2026-03-01")
    page.get_by_role("button", name="Save the day").click()
    expect(page.get_by_test_id("consent-day")).to_contain_text("1 March")
    with page.expect_download() as saved:
        page.get_by_test_id("export").click()
    assert saved.value.suggested_filename == f"fencer-{fencer[:8]}.zip"
    saved.value.save_as(tmp_path / "all.zip")
    with zipfile.ZipFile(tmp_path / "all.zip") as package:
        assert package.testzip() is None
        told = package.read("fencer.csv").decode()
    assert nickname in told and "2026-03-01" in told
    page.reload()
    expect(page.get_by_test_id("audit")).to_contain_text("exported")
    expect(page.get_by_test_id("audit")).to_contain_text("changed (consent)")


def test_erasing_says_what_goes_and_asks_for_the_typed_name(salle):
    page = salle.open()
    nickname, fencer = to_record(page, salle)
    page.get_by_test_id("erase-open").click()
    expect(page.get_by_test_id("erase-goes")).to_contain_text(re.compile(r"\d+ marks and notes"))
    go = page.get_by_test_id("erase-go")
    expect(go).to_be_disabled()
    field = page.get_by_label(f"Type {nickname} to confirm")
    field.fill(nickname + "x")
    expect(go).to_be_disabled()
    field.press("Enter")
    assert rows_about(salle, fencer) > 0
    assert min(on_phone(page, fencer).values()) > 0
    field.fill(nickname)
    go.click()
    expect(page.get_by_text(f"{nickname} is erased")).to_be_visible()
    expect(page.get_by_test_id(f"stands-{fencer}")).to_have_count(0)
    assert rows_about(salle, fencer) == 0
    assert on_phone(page, fencer) == {"lessons": 0, "standings": 0, "events": 0}
    page.goto(f"{salle.phone.url}/records")
    expect(page.get_by_test_id("audit")).to_contain_text("erased: an erased fencer")


def on_phone(page, fencer):
    """How much the phone holds of a fencer."""
    stores = ("lessons", "standings", "events")
    lessons, standings, events = read(page.evaluate, *((store, "getAll") for store in stores))
    theirs = {row["id"] for row in lessons if row["fencer"] == fencer}
    about = [
        row for row in events if row["lesson"] in theirs or row["event"].get("fencer") == fencer
    ]
    return {
        "lessons": len(theirs),
        "standings": len([row for row in standings if row["fencer"] == fencer]),
        "events": len(about),
    }


def rows_about(salle, fencer):
    """Events the server holds of a fencer."""
    with sqlite3.connect(salle.server.folder / "cueladder.sqlite") as database:
        return database.execute(
            "SELECT count(*) FROM event WHERE fencer_id = ?", (fencer,)
        ).fetchone()[0]


@pytest.mark.thorough
def test_practice_ticked_off_at_home_is_shown_to_the_coach(salle, season):
    page = salle.open()
    page.goto(f"{salle.phone.url}/p/{season[1].token}")
    tick = page.locator("form button").first
    expect(tick).to_be_visible()
    tick.click()
    with sqlite3.connect(salle.server.folder / "cueladder.sqlite") as database:
        (fencer,) = database.execute(
            "SELECT fencer_id FROM practice ORDER BY ticked_at DESC"
        ).fetchone()
    page.goto(f"{salle.phone.url}/fencers/{fencer}/record")
    expect(page.get_by_test_id("practice")).to_contain_text(re.compile(r"on \d+ days?"))
    expect(page.get_by_test_id("audit")).to_contain_text("ticked off practice at home")
    page.get_by_role("link", name="Back to the fencer").click()
    expect(page.get_by_test_id("at-home").first).to_contain_text("Practised at home on")


@pytest.mark.thorough
def test_progress_links_are_closed_one_by_one(salle):
    page = salle.open()
    to_record(page, salle)
    card = page.get_by_test_id("progress-link")
    card.get_by_test_id("link-days").select_option("30")
    card.get_by_test_id("link-make").click()
    link = card.get_by_test_id("link-address").input_value()
    assert page.context.request.get(link).ok
    card.locator("summary").click()
    expect(card.locator("li").first).to_contain_text("not opened yet")
    page.reload()
    card.locator("summary").click()
    expect(card.locator("li").first).to_contain_text("last opened")
    card.get_by_role("button", name="Close the link").first.click()
    expect(card.get_by_test_id("link-told")).to_contain_text("The link is closed")
    assert page.context.request.get(link).status == 404


@pytest.mark.thorough
def test_a_retention_is_looked_at_before_it_is_saved(salle):
    page = salle.open("/settings")
    page.get_by_role("link", name="Records of the club").click()
    page.get_by_label("Erase after a time without a lesson").click()
    days = page.get_by_test_id("retention-days")
    days.fill("7")
    expect(page.get_by_text("from 30 to 36525")).to_be_visible()
    expect(page.get_by_role("button", name="Save", exact=True)).to_be_disabled()
    days.fill("730")
    expect(page.get_by_text("About 2 years")).to_be_visible()
    page.get_by_test_id("retention-look").click()
    expect(page.get_by_test_id("retention-due")).to_contain_text("Nobody today")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_test_id("retention-told")).to_contain_text("after 730 days")
    page.reload()
    expect(days).to_have_value("730")


@pytest.mark.thorough
def test_the_audit_is_read_on_page_by_page(salle):
    page = salle.open("/settings")
    fencers = page.context.request.get(f"{salle.server.url}/api/fencers").json()["fencers"]
    for fencer in fencers[:3]:
        page.context.request.get(f"{salle.server.url}/api/fencers/{fencer['id']}/story")
    page.get_by_role("link", name="Records of the club").click()
    lines = page.get_by_test_id("audit").locator("li")
    expect(lines).to_have_count(25)
    expect(lines.first).to_contain_text(f"{salle.coach} looked: {fencers[2]['nickname']}")
    everything = page.context.request.get(f"{salle.server.url}/api/audit").json()["audit"]
    while page.get_by_test_id("audit-more").count() > 0:
        before = lines.count()
        page.get_by_test_id("audit-more").click()
        expect(lines.nth(before)).to_be_visible()
    expect(lines).to_have_count(len(everything))
    assert len(everything) > 25
