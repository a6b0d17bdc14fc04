"""A stop that a fencer calls: told to the head coach, with no reason; and consent to noise."""

from datetime import date

DAY = date(2026, 3, 16)


def stops(browser):
    return browser.get(f"/api/club/overview?day={DAY}").get_json()["stops"]


def test_a_stop_is_told_to_the_head_coach_until_it_is_taken_back(club):
    drill, chart = club.add_drill("desensitization")
    phone = club.phone()
    club.browser.push(phone.open(DAY.isoformat()))
    stop = phone.stop(drill=drill, chart=chart)
    club.browser.push(stop)
    (row,) = stops(club.browser)
    assert (row["day"], row["fencer"]) == (DAY.isoformat(), club.fencer)
    assert set(row) == {"day", "fencer", "drill", "coach"}
    club.browser.push(phone.void(stop))
    assert stops(club.browser) == []


def test_a_coach_is_told_of_stops_in_the_coach_s_own_lessons_only(club):
    drill, chart = club.add_drill("desensitization")
    phone = club.phone()
    club.browser.push(phone.open(DAY.isoformat()), phone.stop(drill=drill, chart=chart))
    club.add_coach("Runa", "coach")
    assert stops(club.sign_in("Runa")) == []


def test_consent_to_noise_is_dated_for_fencer_and_guardian_and_stays_in_the_history(club):
    path = f"/api/fencers/{club.fencer}"
    given = {"noise_self": "2026-03-01", "noise_guardian": "2026-03-02"}
    told = club.browser.send("PATCH", path, given).get_json()
    assert {name: told[name] for name in given} == given
    assert club.browser.send("PATCH", path, {"noise_self": None}).get_json()["noise_self"] is None
    changes = club.browser.get(f"{path}/changes").get_json()["changes"]
    assert ("noise_self", "2026-03-01", None) in [
        (each["field"], each["old"], each["new"]) for each in changes
    ]
