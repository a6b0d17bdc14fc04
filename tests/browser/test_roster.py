"""The roster on a real phone: fencers added, found, changed without a network, imported."""

import shutil

import pytest
from playwright.sync_api import expect

from tests.browser.evening import offline, online
from tests.browser.strip import all_sent, lesson_of, mark, open_lesson

pytestmark = pytest.mark.browser
HEADERS = {"X-Cue-Ladder": "1"}


def fencers(page, salle):
    """The club's fencers as the server has them, by nickname."""
    answer = page.context.request.get(f"{salle.server.url}/api/fencers")
    assert answer.ok, answer.text()
    return {one["nickname"]: one for one in answer.json()["fencers"]}


def to_fencers(page):
    page.get_by_role("link", name="Fencers", exact=True).click()
    expect(page.get_by_test_id("search")).to_be_visible()


def edit(page, nickname):
    page.get_by_role("link", name=f"Edit: {nickname}", exact=True).click()
    expect(page.get_by_role("heading", name=f"Edit {nickname}")).to_be_visible()


def save(page):
    page.get_by_test_id("save-fencer").click()
    expect(page.get_by_test_id("search")).to_be_visible()


def row(page, nickname):
    return page.locator("[data-testid^=row-]").filter(has_text=nickname)


@pytest.mark.thorough
def test_a_fencer_is_added_by_the_form_found_without_accents_and_archived(salle):
    page = salle.open()
    to_fencers(page)
    page.get_by_test_id("add-fencer").click()
    page.get_by_label("Year of birth").fill("15")
    page.get_by_test_id("save-fencer").click()
    expect(page.get_by_test_id("about-nickname")).to_contain_text("what the fencer is called")
    expect(page.get_by_test_id("about-born")).to_contain_text("from 1900 to")
    expect(page.get_by_test_id("about-weapon")).to_contain_text("Choose a weapon")
    expect(page.get_by_label("Nickname")).to_be_focused()
    page.get_by_label("Nickname").fill("Zoë-Änne")
    page.get_by_label("Year of birth").fill("2015")
    page.get_by_label("Épée").check()
    page.get_by_label("Left").check()
    page.get_by_label("Consent").fill("2026-09-01")
    save(page)
    all_sent(page)
    kept = fencers(page, salle)["Zoë-Änne"]
    assert (kept["born"], kept["weapon"], kept["hand"]) == (2015, "epee", "left")
    assert kept["consent"] == "2026-09-01"

    page.get_by_test_id("search").fill("zoe-anne EPEE")
    expect(page.get_by_test_id("found")).to_have_text("1 fencer")
    expect(row(page, "Zoë-Änne")).to_contain_text("no lesson yet")
    page.get_by_test_id("search").fill("sabre")
    expect(row(page, "Zoë-Änne")).to_have_count(0)
    assert page.locator("[data-testid^=row-]").count() == 8
    page.get_by_test_id("search").fill("zoe-")
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    expect(row(page, "Zoë-Änne")).to_contain_text("No drill worked yet")
    page.keyboard.press("ArrowUp")
    expect(page.get_by_test_id("search")).to_be_focused()

    edit(page, "Zoë-Änne")
    page.get_by_test_id("archive").click()
    expect(page.get_by_test_id("search")).to_be_visible()
    expect(row(page, "Zoë-Änne")).to_have_count(0)
    all_sent(page)
    assert fencers(page, salle)["Zoë-Änne"]["archived"] is True
    page.get_by_test_id("archived").locator("summary").click()
    page.get_by_role("button", name="Restore: Zoë-Änne").click()
    expect(row(page, "Zoë-Änne")).to_have_count(1)


def test_what_is_edited_without_a_network_is_sent_later_and_the_older_value_is_kept(salle):
    page = salle.open()
    to_fencers(page)
    offline(page, salle)
    edit(page, "Anouk")
    page.get_by_label("Nickname").fill("Anouk B.")
    save(page)
    page.get_by_test_id("add-fencer").click()
    page.get_by_label("Nickname").fill("Newcomer")
    page.get_by_label("Foil").check()
    save(page)
    expect(row(page, "Newcomer")).to_contain_text("not sent yet")

    # the phone is put away and taken out again, and a lesson begins with the new fencer
    salle.phone.close()
    page = salle.open()
    page.context.set_offline(True)
    expect(page.get_by_test_id("sync")).to_contain_text("2 not sent")
    page.get_by_test_id("find-fencer").fill("newc")
    expect(page.get_by_role("button", name="Start: Newcomer")).to_be_visible()
    open_lesson(page, None, page.get_by_role("button", name="Start:").count() - 1)
    lesson = lesson_of(page)
    mark(page, "correct", 2)

    page.goto(salle.phone.url + "/fencers")
    online(page, salle)
    expect(page.get_by_test_id("sync")).to_have_attribute("data-state", "clear")
    there = fencers(page, salle)
    assert "Anouk" not in there and there["Anouk B."]["weapon"] == "foil"
    after = page.context.request.get(f"{salle.server.url}/api/lessons/{lesson}/after")
    assert after.json()["lesson"] == lesson
    told = page.context.request.get(
        f"{salle.server.url}/api/fencers/{there['Newcomer']['id']}/export"
    ).json()
    assert [one["id"] for one in told["lessons"]] == [lesson]

    to_fencers(page)
    edit(page, "Anouk B.")
    page.get_by_test_id("history").locator("summary").click()
    expect(page.get_by_test_id("history")).to_contain_text("Nickname: Anouk → Anouk B.")
    expect(page.get_by_test_id("history")).to_contain_text(salle.coach)


@pytest.mark.thorough
def test_edits_outlive_a_browser_that_empties_its_database(salle):
    page = salle.open()
    to_fencers(page)
    offline(page, salle)
    edit(page, "Bela")
    page.get_by_label("Year of birth").fill("2001")
    save(page)
    expect(row(page, "Bela")).to_contain_text("born 2001")
    salle.phone.close()
    for folder in salle.phone.profile.glob("*/IndexedDB"):
        shutil.rmtree(folder)
    page = salle.open("/fencers")
    page.context.set_offline(True)
    expect(row(page, "Bela")).to_contain_text("born 2001")
    expect(row(page, "Bela")).to_contain_text("not sent yet")
    online(page, salle)
    assert fencers(page, salle)["Bela"]["born"] == 2001


@pytest.mark.thorough
def test_a_refused_edit_stays_and_says_why_until_it_is_given_up(salle):
    page = salle.open()
    to_fencers(page)
    cosmo = fencers(page, salle)["Cosmo"]["id"]
    page.context.set_offline(True)
    edit(page, "Cosmo")
    page.get_by_label("Year of birth").fill("2001")
    save(page)
    # meanwhile the head coach erases the fencer at the desk
    gone = page.context.request.delete(f"{salle.server.url}/api/fencers/{cosmo}", headers=HEADERS)
    assert gone.ok
    page.context.set_offline(False)
    page.get_by_test_id("sync").click()
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_test_id("sync")).to_contain_text("1 refused")
    page.get_by_role("link", name="Changes the server refused").click()
    refused = page.get_by_test_id("edits-refused")
    expect(refused).to_contain_text("Cosmo")
    expect(refused).to_contain_text("No such fencer in this club.")
    page.reload()
    expect(refused).to_contain_text("Cosmo")
    # who is gone cannot be corrected
    expect(page.get_by_role("link", name="Correct: Cosmo")).to_have_count(0)
    expect(row(page, "Cosmo")).to_have_count(0)
    page.get_by_role("button", name="Give up: Cosmo").click()
    page.get_by_role("button", name="Yes, give it up").click()
    expect(refused).to_have_count(0)
    expect(page.get_by_test_id("sync")).to_have_attribute("data-state", "clear")


def test_a_table_with_faults_is_mended_imported_and_taken_back(salle, tmp_path):
    page = salle.open()
    to_fencers(page)
    before = set(fencers(page, salle))
    page.get_by_test_id("import").click()
    with page.expect_download() as example:
        page.get_by_test_id("example").click()
    assert "nickname" in example.value.path().read_text("utf-8-sig")

    file = tmp_path / "roster.csv"
    lines = ["Weapon;Name;Year of birth;Surname", "Degen;Müge;12;X", "foil;Jörn;2011;Y"]
    file.write_bytes("\r\n".join([*lines, "foil;ANOUK;;Z"]).encode("cp1252"))
    page.get_by_test_id("file").set_input_files(file)
    told = page.get_by_test_id("look-told")
    expect(told.get_by_role("heading")).to_have_text("1 place to put right")
    expect(told.get_by_role("heading")).to_be_focused()
    expect(told).to_contain_text("Year of birth")
    expect(told).to_contain_text("“12” is no year of birth: write a year from 1900 to")
    expect(told).to_contain_text("Windows-1252")
    expect(told).to_contain_text("Not read and not kept: Surname")
    expect(page.get_by_test_id("import-go")).to_have_count(0)
    assert set(fencers(page, salle)) == before

    table = page.get_by_test_id("table")
    table.fill(table.input_value().replace(";12;", ";2012;"))
    expect(told).to_have_count(0)
    page.get_by_test_id("look").click()
    expect(told).to_contain_text("2 fencers to add")
    expect(told).to_contain_text("1 seems to be here already and is left out")
    assert set(fencers(page, salle)) == before
    page.get_by_test_id("import-go").click()
    expect(page.get_by_test_id("done")).to_have_text("2 fencers were added.")
    assert set(fencers(page, salle)) - before == {"Müge", "Jörn"}
    assert fencers(page, salle)["Müge"]["weapon"] == "epee"

    # a lesson with one of them begins: that one stays, the other goes
    page.get_by_role("link", name="To the fencers").click()
    page.get_by_test_id("search").fill("jorn")
    open_lesson(page)
    mark(page, "correct")
    all_sent(page)
    page.goto(salle.phone.url + "/fencers/import")
    page.get_by_test_id("undo-import").click()
    page.get_by_test_id("undo-yes").click()
    expect(page.get_by_test_id("undo-told")).to_contain_text("1 fencer was erased.")
    expect(page.get_by_test_id("undo-told")).to_contain_text("Jörn stays: has had a lesson.")
    assert set(fencers(page, salle)) - before == {"Jörn"}
    expect(page.get_by_test_id("undo-import")).to_have_count(0)


@pytest.mark.thorough
def test_a_reply_lost_after_an_import_does_not_import_twice(salle):
    page = salle.open("/fencers/import")
    page.get_by_test_id("table").fill("name,weapon\nOnce,foil\n")
    page.get_by_test_id("look").click()
    go = page.get_by_test_id("import-go")

    def lose(route):
        route.fetch()
        route.abort()

    page.route("**/api/imports", lose, times=1)
    go.click()
    expect(page.get_by_test_id("trouble")).to_contain_text("does not answer")
    go.click()
    expect(page.get_by_test_id("done")).to_have_text("1 fencer was added.")
    listed = page.context.request.get(f"{salle.server.url}/api/fencers").json()["fencers"]
    assert [one["nickname"] for one in listed].count("Once") == 1
