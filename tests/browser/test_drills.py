"""The drill library: copy a drill, write its ladder and its rule, and teach by it."""

import json

import pytest
from playwright.sync_api import expect

from tests.browser.phone import DESK
from tests.browser.strip import HEAT_DRILL, mark, on_drill, open_lesson, screen

pytestmark = pytest.mark.browser
STARTER = "foil-quarte-late"
HEADERS = {"X-Cue-Ladder": "1"}


def api(page, salle, method, path, body=None):
    return page.context.request.fetch(
        salle.phone.url + path, method=method, headers=HEADERS, data=body
    )


def settled(page):
    """Wait until the server has looked through the draft as it is."""
    expect(page.get_by_test_id("draft-state")).to_have_attribute("data-state", "told")


def drill_id(page):
    return page.url.split("/drills/")[1].split("/")[0]


def open_exact(page):
    page.get_by_test_id("rule-exact").locator("summary").first.click()


def open_copy(page, salle):
    page.goto(salle.phone.url + "/drills")
    page.get_by_test_id(f"open-{STARTER}").click()
    expect(page.get_by_test_id("ladder-read").locator("li").first).to_be_visible()
    page.get_by_test_id("copy-drill").click()
    expect(page.get_by_test_id("write")).to_be_visible()
    settled(page)


def test_a_starter_drill_is_copied_given_a_rung_and_a_rule_and_taught(salle):
    page = salle.open()
    page.set_viewport_size(DESK)
    page.goto(salle.phone.url + "/drills")
    page.get_by_test_id("filter-weapon").select_option("foil")
    page.get_by_test_id("filter-kind").select_option("sensitization")
    found = page.locator("[data-testid^=open-]")
    some = found.count()
    assert 0 < some < 39
    expect(page.get_by_test_id("drills-found")).to_have_text(f"{some} drills")
    page.get_by_test_id("filter-whose").select_option("own")
    expect(found).to_have_count(0)
    page.get_by_test_id("filter-whose").select_option("all")

    open_copy(page, salle)
    page.get_by_test_id("text-name").fill("Parry of quarte, Tuesday group")
    rungs = page.locator("[data-testid^=rung-read-]")
    before = rungs.count()
    scale = page.locator("[data-testid^=scale-]").first.get_attribute("data-testid")[6:]
    grades = page.get_by_test_id(f"scale-{scale}").locator("input")
    page.get_by_test_id(f"grade-add-{scale}").click()
    expect(grades.last).to_be_focused()
    page.keyboard.type("thumb only")
    settled(page)
    offer = page.locator("[data-testid^=next-read-]", has_text="thumb only")
    expect(offer).to_have_count(1)
    offer.focus()
    page.keyboard.press("Enter")
    expect(rungs).to_have_count(before + 1)
    settled(page)
    expect(rungs.last).to_contain_text("thumb only")
    expect(page.get_by_test_id("draft-state")).to_have_attribute("data-wrong", "0")

    # the rule: ten in a row is warned about, sixteen is not
    open_exact(page)
    page.get_by_test_id("family-run").click()
    expect(page.get_by_test_id("odds-warning")).to_be_visible()
    page.get_by_test_id("rule-n").fill("16")
    expect(page.get_by_test_id("rule-says")).to_contain_text("16 clean answers in a row")
    expect(page.get_by_test_id("odds-warning")).to_have_count(0)
    settled(page)
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("drill")).to_be_visible()
    expect(page.get_by_test_id("drill-rule")).to_contain_text("16 clean answers in a row")
    expect(page.get_by_test_id("ladder-read").locator("li")).to_have_count(before + 1)
    made = drill_id(page)

    # two grades at once, past the editor: refused by name, and nothing is stored
    drills = api(page, salle, "GET", "/api/drills").json()["drills"]
    document = next(one["document"] for one in drills if one["id"] == made)
    assert document["slug"] == "parry-of-quarte-tuesday-group"
    last = document["read"][-1]
    wrong = {**document, "read": [*document["read"][:-2], last]}
    refused = api(page, salle, "PUT", f"/api/drills/{made}", {"document": wrong})
    assert refused.status == 422
    ((field, (why,)),) = refused.json()["errors"].items()
    assert field == f"read[{before - 1}]"
    assert f"from rung {before - 1} (" in why and f"to rung {before} (" in why
    assert f"{scale.capitalize()} goes" in why and "Put the missing rung between them" in why

    # a lesson with it
    page.goto(salle.phone.url)
    open_lesson(page, document["slug"])
    on_drill(page, "Parry of quarte, Tuesday group")
    mark(page, "correct")
    assert "1 of 16" in screen(page)["progress"]


def test_a_wrong_step_is_named_at_its_rung_and_mended_by_the_offer(salle):
    page = salle.open()
    open_copy(page, salle)
    page.get_by_test_id("rung-drop-read-1").click()
    fault = page.get_by_test_id("fault-read[1]")
    expect(fault).to_contain_text("From rung 1 (")
    expect(fault).to_contain_text("Put the missing rung between them")
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("draft-state")).to_contain_text("Not saved: 1 thing to put right")
    page.get_by_test_id("before-read-1-0").click()
    expect(fault).to_have_count(0)
    settled(page)
    expect(page.get_by_test_id("draft-state")).to_have_attribute("data-wrong", "0")
    # moved, not dropped: both steps around it are wrong, and moving it back mends both
    page.get_by_test_id("rung-down-read-1").click()
    expect(page.locator("[data-testid^='fault-read[']").first).to_be_visible()
    page.get_by_test_id("rung-up-read-2").click()
    expect(page.locator("[data-testid^='fault-read[']")).to_have_count(0)


@pytest.mark.thorough
def test_a_draft_outlives_the_page_and_the_server(salle):
    page = salle.open()
    open_copy(page, salle)
    page.get_by_test_id("text-name").fill("Half done")
    settled(page)
    salle.server.stop()
    page.get_by_test_id("text-how").fill("Slowly.")
    expect(page.get_by_test_id("draft-state")).to_have_attribute("data-state", "away")
    page.reload()
    expect(page.get_by_test_id("draft-found")).to_be_visible()
    expect(page.get_by_test_id("text-name")).to_have_value("Half done")
    expect(page.get_by_test_id("text-how")).to_have_value("Slowly.")
    salle.server.start()
    page.get_by_role("button", name="Try again").click()
    settled(page)
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("drill")).to_be_visible()


@pytest.mark.thorough
def test_a_drill_travels_as_a_file_and_a_foreign_file_is_refused(salle, tmp_path):
    page = salle.open()
    page.goto(salle.phone.url + "/drills")
    page.get_by_test_id(f"open-{STARTER}").click()
    with page.expect_download() as download:
        page.get_by_test_id("save-file").click()
    path = tmp_path / "drill.json"
    download.value.save_as(path)
    document = json.loads(path.read_text())
    # someone leaves a rung out of the file
    document["read"] = [document["read"][0], *document["read"][2:]]
    path.write_text(json.dumps(document))
    other = tmp_path / "other.json"
    other.write_text('{"scales": 4}')
    page.goto(salle.phone.url + "/drills/new")
    settled(page)
    page.get_by_test_id("load-file").set_input_files(other)
    expect(page.get_by_role("alert")).to_contain_text("This file is no drill")
    page.get_by_test_id("load-file").set_input_files(path)
    expect(page.get_by_test_id("text-name")).to_have_value(document["name"])
    expect(page.get_by_test_id("fault-read[1]")).to_contain_text("to rung 2 (")


@pytest.mark.thorough
def test_who_is_in_the_middle_is_shown_before_a_drill_in_use_is_changed(salle):
    page = salle.open()
    page.set_viewport_size(DESK)
    standings = api(page, salle, "GET", "/api/standings?after=0&limit=2000").json()["standings"]
    used = max({s["drill"] for s in standings}, key=[s["drill"] for s in standings].count)
    people = [s["fencer"] for s in standings if s["drill"] == used]
    page.goto(f"{salle.phone.url}/drills/{used}/change")
    settled(page)
    open_exact(page)
    page.get_by_test_id("family-run").click()
    page.get_by_test_id("what-if-fencer").select_option(people[0])
    page.get_by_test_id("what-if-go").click()
    told = page.get_by_test_id("what-if-told")
    expect(told).to_contain_text("is at")
    expect(told).to_contain_text("8 times in 10")
    settled(page)
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("midway").locator("li")).to_have_count(len(people))
    page.get_by_test_id("effect-not-yet").click()
    expect(page.get_by_test_id("midway")).to_have_count(0)
    page.get_by_test_id("save-drill").click()
    page.get_by_test_id("effect-save").click()
    expect(page.get_by_test_id("drill-rule")).to_contain_text("10 clean answers in a row")
    after = api(page, salle, "GET", "/api/standings?after=0&limit=2000").json()["standings"]
    assert after == standings
    page.get_by_text("How it changed").click()
    expect(page.get_by_test_id("versions").locator("li").first).to_contain_text("its rule")


@pytest.mark.thorough
def test_a_drill_is_put_away_and_taken_out_again(salle):
    page = salle.open()
    page.goto(salle.phone.url + "/drills")
    page.get_by_test_id(f"open-{STARTER}").click()
    page.get_by_test_id("archive-drill").click()
    page.get_by_test_id("archive-yes").click()
    expect(page.get_by_text("Put away: not offered for lessons.")).to_be_visible()
    page.get_by_role("link", name="Drills").click()
    expect(page.get_by_test_id("drills-found")).to_be_visible()
    expect(page.get_by_test_id(f"open-{STARTER}")).to_have_count(0)
    page.get_by_test_id("filter-whose").select_option("away")
    page.get_by_test_id(f"open-{STARTER}").click()
    page.get_by_test_id("archive-drill").click()
    expect(page.get_by_text("Put away: not offered for lessons.")).to_have_count(0)


@pytest.mark.thorough
def test_a_rule_is_taken_from_the_rule_page_to_a_drill(salle):
    page = salle.open()
    page.goto(salle.phone.url + "/rules")
    open_exact(page)
    page.get_by_test_id("family-window").click()
    expect(page.get_by_test_id("rule-says")).to_contain_text("9 clean answers among the last 10")
    given = page.get_by_test_id("give-rule")
    drills = api(page, salle, "GET", "/api/drills").json()["drills"]
    drill = next(one["id"] for one in drills if one["slug"] == STARTER)
    given.get_by_test_id("pick-drill").select_option(drill)
    given.get_by_test_id("give-rule-go").click()
    expect(page.get_by_test_id("draft-found")).to_be_visible()
    expect(page.get_by_test_id("setting-own")).to_be_visible()
    open_exact(page)
    expect(page.get_by_test_id("rule-k")).to_have_value("9")
    expect(page.get_by_test_id("family-window")).to_have_attribute("aria-pressed", "true")


@pytest.mark.thorough
def test_three_settings_stand_first_each_with_its_sentence_odds_and_pace(salle):
    page = salle.open()
    page.goto(salle.phone.url + "/rules")
    shown = page.get_by_test_id("rule-settings")
    expect(shown.get_by_role("button")).to_have_count(3)
    for kind in ("sensitization", "desensitization", "discrimination"):
        page.get_by_test_id(f"kind-{kind}").click()
        told = api(page, salle, "GET", f"/api/rules/settings?kind={kind}").json()["settings"]
        expect(shown).to_contain_text(f"lessons with {told[0]['lessons']['cues']} cues")
        for one in told:
            button = page.get_by_test_id(f"setting-{one['name']}")
            expect(button).to_contain_text(one["says"])
            expect(button).to_contain_text("8 times in 10: sent up")
            pace = one["lessons"]["pace"]
            by = "in the first lesson" if pace == 1 else f"by lesson {pace}"
            expect(button).to_contain_text(f"half of the reliable are up {by}")
        expect(page.get_by_test_id("setting-usual")).to_have_attribute("aria-pressed", "true")
    expect(page.get_by_test_id("family-run")).to_have_count(0)
    # the strict one of a mixed drill, to the figure
    page.get_by_test_id("setting-strict").click()
    open_exact(page)
    expect(page.get_by_test_id("rule-goal")).to_have_value("18")
    expect(page.get_by_test_id("rule-floor")).to_have_value("28")
    expect(page.get_by_test_id("rule-says")).to_contain_text("may fall up to 28 behind")


@pytest.mark.thorough
def test_a_drill_is_given_the_strict_setting_with_one_tap_and_its_figures_stay_as_they_are(salle):
    page = salle.open()
    open_copy(page, salle)
    expect(page.get_by_test_id("setting-usual")).to_have_attribute("aria-pressed", "true")
    page.get_by_test_id("setting-strict").click()
    expect(page.get_by_test_id("setting-strict")).to_have_attribute("aria-pressed", "true")
    page.get_by_test_id("text-name").fill("Strictly")
    settled(page)
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("drill-rule")).to_contain_text("Climbs at 25 clean answers")
    page.goto(f"{salle.phone.url}/drills/{drill_id(page)}/change")
    expect(page.get_by_test_id("setting-strict")).to_have_attribute("aria-pressed", "true")
    open_exact(page)
    expect(page.get_by_test_id("rule-goal")).to_have_value("25")
    page.get_by_test_id("rule-goal").fill("30")
    expect(page.get_by_test_id("setting-own")).to_be_visible()
    expect(page.get_by_test_id("rule-says")).to_contain_text("Climbs at 30 clean answers")


@pytest.mark.thorough
def test_a_club_says_how_many_cues_its_lessons_give_a_drill_and_when_startles_lead_back(salle):
    page = salle.open()
    page.goto(salle.phone.url + "/drills")
    page.get_by_test_id(f"open-{HEAT_DRILL}").click()
    page.get_by_test_id("copy-drill").click()
    settled(page)
    expect(page.get_by_test_id("rule-settings")).to_contain_text("lessons with 25 cues")
    page.get_by_test_id("rule-usual").fill("4")
    expect(page.locator("#rule-usual-error")).to_contain_text("between 5 and 80")
    page.get_by_test_id("rule-usual").fill("12")
    expect(page.get_by_test_id("rule-settings")).to_contain_text("lessons with 12 cues")
    page.get_by_test_id("rule-startles").fill("2")
    page.get_by_test_id("text-name").fill("Calm, in short lessons")
    settled(page)
    page.get_by_test_id("save-drill").click()
    expect(page.get_by_test_id("drill-rule")).to_be_visible()
    drills = api(page, salle, "GET", "/api/drills").json()["drills"]
    kept = next(one for one in drills if one["id"] == drill_id(page))["document"]
    assert (kept["usual"], kept["startles"]) == (12, 2)
    page.goto(f"{salle.phone.url}/drills/{drill_id(page)}/change")
    expect(page.get_by_test_id("rule-usual")).to_have_value("12")
    # emptied, the usual ones of its kind hold again
    page.get_by_test_id("rule-usual").fill("")
    expect(page.get_by_test_id("rule-settings")).to_contain_text("lessons with 25 cues")
