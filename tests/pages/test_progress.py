"""The progress page: what it tells, what it keeps to itself, and to whom it opens."""

from __future__ import annotations

import re
from datetime import date, timedelta
from html.parser import HTMLParser

import pytest

from cueladder.pages.content import page
from cueladder.store.access.links import create_link, revoke_links
from cueladder.store.db.engine import db
from cueladder.store.drills.versions import drills_of
from cueladder.store.fencers.bookings import plan_day
from cueladder.store.fencers.edit import change_fencer, fencer_in
from cueladder.store.fencers.erase import erase_fencer
from tests.pages import season
from tests.pages.conftest import TODAY


class Tags(HTMLParser):
    """Collects every tag with its attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.found.append((tag, dict(attrs)))

    def of(self, name):
        return [attrs for tag, attrs in self.found if tag == name]


def test_the_page_tells_where_each_drill_stands_and_what_to_do_alone(opened):
    fencer = opened(lessons=6, drills=3, right=1.0)
    text = fencer.text()
    assert "<h1>Mila</h1>" in text
    documents = {drill.id: version.document for drill, version in drills_of(fencer.club.id)}
    for drill, _ in fencer.drills:
        assert documents[drill]["name"] in text
        assert documents[drill]["alone"] in text
    # 22 clean cues meet the first rung of both one-ladder drills; later lessons secure it
    assert text.count("Secure up to rung") == 2
    assert "it held again on a later day" in text


def test_a_rung_met_for_the_first_time_is_called_done_once(opened):
    fencer = opened(lessons=1, drills=1, each=1, right=1.0)
    text = fencer.text()
    assert "Done once up to rung 1 of 9; another day will show" in text
    assert "Secure up to" not in text


def test_the_page_needs_no_script_and_carries_no_inline_style(opened):
    tags = Tags(opened(lessons=4).text())
    names = {tag for tag, _ in tags.found}
    assert not names & {"script", "style", "iframe", "object"}
    for tag, attrs in tags.found:
        assert not [name for name in attrs if name == "style" or name.startswith("on")], tag
    assert [a["href"] for a in tags.of("link") if a["rel"] == "stylesheet"] == [
        "/p/static/progress.css"
    ]


def test_the_page_asks_not_to_be_indexed_kept_or_passed_on_by_the_browser(opened):
    fencer = opened(lessons=2)
    for path in ("", "/drill/1.svg"):
        headers = fencer.get(path).headers
        assert headers["Cache-Control"] == "no-store"
        assert headers["Referrer-Policy"] == "no-referrer"
        assert "noindex" in headers["X-Robots-Tag"]
        assert "default-src 'none'" in headers["Content-Security-Policy"]
        assert "script-src" not in headers["Content-Security-Policy"]
        assert "Set-Cookie" not in headers


def test_every_link_that_does_not_open_gets_one_and_the_same_answer(opened, clock):
    fencer = opened(lessons=2)
    unknown = fencer.get(token="A" * 22)
    assert unknown.status_code == 404
    assert "Mila" not in unknown.text and "Halle Nord" not in unknown.text
    same = [fencer.get(token="x"), fencer.get("/drill/1.svg", token="A" * 22)]
    same += [fencer.get("/drill/99.svg"), fencer.get(token="%00%F0")]
    gone = create_link(fencer.club.id, fencer.club.fencer, fencer.club.coach).token
    revoke_links(fencer.club.id, fencer.club.fencer)
    same += [fencer.get(token=gone), fencer.get("/drill/1.svg", token=gone)]
    short = create_link(fencer.club.id, fencer.club.fencer, fencer.club.coach, days=2).token
    assert fencer.get(token=short).status_code == 200
    clock.tick(timedelta(days=2, seconds=1))
    same.append(fencer.get(token=short))
    for answer in same:
        assert answer.status_code == 404
        assert answer.data == unknown.data
        assert dict(answer.headers) == dict(unknown.headers)


def test_a_link_opens_until_the_day_it_names(opened, clock):
    fencer = opened(lessons=2)
    assert "The link works until 23 February 2027" in fencer.text()
    clock.tick(timedelta(days=90) - timedelta(seconds=1))
    assert fencer.get().status_code == 200
    clock.tick(timedelta(seconds=1))
    assert fencer.get().status_code == 404


def test_an_erased_fencer_has_no_page(opened):
    fencer = opened(lessons=2)
    erase_fencer(fencer.club.id, fencer.club.fencer)
    assert fencer.get().status_code == 404


def test_nothing_of_the_record_but_the_nickname_is_shown(opened):
    fencer = opened(lessons=2)
    club = fencer.club
    change_fencer(club.id, club.fencer, {"note": "shy with strangers", "born": 1987}, club.coach)
    phone = club.phone()
    said = phone.event("note_written", text="cried after the lesson", drill=None)
    club.browser.push(phone.open(TODAY.isoformat()), {**said, "lesson": phone.lesson})
    text = fencer.text()
    for secret in ("shy", "1987", "2013", "cried", "Ansgar", club.fencer, club.coach):
        assert secret not in text, secret


def test_no_other_fencer_is_named_or_counted(opened):
    fencer = opened(lessons=3)
    before = fencer.text()
    mila, fencer.club.fencer = fencer.club.fencer, fencer.club.add_fencer("Joris")
    season.lessons(fencer.club, fencer.drills, season.weekly(5, TODAY), seed=3)
    fencer.club.fencer = mila
    assert fencer.text() == before


def test_a_nickname_is_text_and_never_markup(opened):
    fencer = opened(lessons=1)
    change_fencer(
        fencer.club.id, fencer.club.fencer, {"nickname": "<img src=x>&Co"}, fencer.club.coach
    )
    assert "<h1>&lt;img src=x&gt;&amp;Co</h1>" in fencer.get().text


def test_the_lesson_of_today_is_shown_as_such_and_tomorrow_with_its_day(opened, clock):
    fencer = opened(lessons=2, drills=1, each=1, right=1.0)
    assert "Today's lesson" in fencer.text()
    assert re.search(
        r"Parry of quarte, late and small\.</b> 22 cues: rungs 1 and 2 went well\.", fencer.text()
    )
    clock.tick(timedelta(days=1))
    text = fencer.text()
    assert "Last lesson, 25 November 2026" in text
    assert "Today's lesson" not in text


def test_a_lesson_planned_for_today_is_announced_with_its_time(opened):
    fencer = opened(lessons=1, last=TODAY - timedelta(days=7))
    club = fencer.club
    lesson = {"fencer": club.fencer, "at": "18:20", "minutes": 20, "plan": []}
    plan_day(club.id, TODAY.isoformat(), club.coach, [lesson])
    assert "Planned today: 18:20, 20 min." in fencer.text()


def test_a_step_back_is_told_kindly(opened):
    fencer = opened(lessons=1, drills=1, each=1, right=0.2)
    text = fencer.text()
    assert "good practice, to be continued" in text or "a smaller step comes first" in text
    assert not re.search(r"fail|wrong|bad|poor|worse", text, re.I)


@pytest.mark.parametrize(("lessons", "said"), [(3, True), (4, False)])
def test_no_trend_is_told_from_fewer_than_four_lessons(opened, lessons, said):
    fencer = opened(lessons=lessons, drills=1, each=1)
    text = fencer.text()
    assert ("Too early to say: only 3 lessons so far" in text) is said
    assert ("In 4 lessons since" in text) is not said


def test_of_soft_and_loud_cues_nothing_is_told_to_parents_that_is_not_found(opened):
    assert (
        "Soft and loud cues" not in opened(lessons=1, drills=2, each=2, cues=60, right=1.0).text()
    )


def test_few_cues_never_become_a_percentage(opened):
    assert "%" not in opened(lessons=1, cues=6).text()


def test_every_plot_says_in_one_sentence_what_it_shows(opened):
    tags = Tags(opened(lessons=6, drills=3).text())
    pictures = tags.of("img")
    assert len(pictures) == 6  # screen and paper
    for picture in pictures:
        assert re.match(
            r"Rungs done at the end of 6 lessons between 21 October 2026 and 25 November 2026\. "
            r".+\. As it stands: (secure|done once|just begun)\.$",
            picture["alt"],
        )


def test_paper_gets_the_light_plot_even_from_a_dark_screen(opened):
    tags = Tags(opened(lessons=2, drills=1, each=1).text())
    (paper,) = [a for a in tags.of("img") if a.get("class") == "paper-only"]
    assert "tone" not in paper["src"]
    (dark,) = tags.of("source")
    assert dark["srcset"].endswith("?tone=dark&lang=en")


def test_the_table_tells_the_same_lessons_as_the_plot(opened):
    fencer = opened(lessons=5, drills=1, each=1, right=1.0)
    rows = re.findall(r'<th scope="row">(.*?)</th><td>(.*?)</td><td>(.*?)</td>', fencer.text())
    assert [row[0] for row in rows] == [
        "25 Nov 2026", "18 Nov 2026", "11 Nov 2026", "4 Nov 2026", "28 Oct 2026",
    ]  # fmt: skip
    told = page(fencer_in(db.session(), fencer.club.id, fencer.club.fencer), fencer.token)
    assert [(r["day"], r["rung"], r["status"]) for r in told["drills"][0]["rows"]] == rows
    assert rows[-1][1:] == ("1", "done once")


def test_a_voided_cue_is_not_counted(opened):
    fencer = opened(lessons=1, drills=1, each=1)
    club = fencer.club
    drill, chart = fencer.drills[0]
    phone = club.phone()
    opening = phone.open(TODAY.isoformat(), at=f"{TODAY}T19:30:00.000+01:00")
    cues = phone.cues(3, drill=drill, chart=chart)
    club.browser.push(opening, *cues, phone.void(cues[0]))
    assert re.search(r"</b> 2 cues: ", fencer.text())


def test_a_drill_put_away_is_not_shown(opened):
    fencer = opened(lessons=3, drills=2)
    drill = fencer.drills[0][0]
    document = next(v.document for d, v in drills_of(fencer.club.id) if d.id == drill)
    assert document["name"] in fencer.text()
    body = {"document": document, "archived": True}
    assert fencer.club.browser.send("PUT", f"/api/drills/{drill}", body).status_code == 200
    assert document["name"] not in fencer.text()


def test_a_changed_ladder_keeps_the_rungs_that_are_still_there(opened):
    fencer = opened(lessons=4, drills=1, each=1, right=1.0)
    drill = fencer.drills[0][0]
    document = next(v.document for d, v in drills_of(fencer.club.id) if d.id == drill)
    shorter = {**document, "read": document["read"][:3]}
    answer = fencer.club.browser.send("PUT", f"/api/drills/{drill}", {"document": shorter})
    assert answer.status_code == 200
    text = fencer.text()
    assert "of 3" in text or "whole ladder" in text
    assert fencer.get("/drill/1.svg").status_code == 200


def test_a_fencer_without_lessons_gets_a_friendly_page(club):
    token = create_link(club.id, club.fencer, club.coach).token
    answer = club.app.test_client().get(f"/p/{token}")
    assert answer.status_code == 200
    assert "No drill has been worked yet" in answer.text


def test_the_cautions_are_on_the_page(opened):
    text = " ".join(opened(lessons=1).text().split())
    for caution in ("mask, jacket, under-plastron, breeches, glove", "stop word", "consent",
                    "Stop at once on pain", "not treatment for anxiety or trauma",
                    "safeguarding"):  # fmt: skip
        assert caution in text, caution


def test_plots_keep_their_number_whatever_was_worked_last(opened):
    fencer = opened(lessons=2, drills=2, each=2)
    first = {n: fencer.get(f"/drill/{n}.svg").data for n in (1, 2)}
    names = dict(re.findall(r'id="drill-(\d)">(.*?)</h2>', fencer.text()))
    season.lessons(fencer.club, fencer.drills[:1], [TODAY + timedelta(days=1)], each=1)
    assert dict(re.findall(r'id="drill-(\d)">(.*?)</h2>', fencer.text())) == names
    again = {n: fencer.get(f"/drill/{n}.svg").data for n in (1, 2)}
    assert sorted(first[n] == again[n] for n in (1, 2)) == [False, True]


def test_more_drills_than_fit_on_paper_are_said_to_be_left_out(opened):
    text = opened(lessons=7, drills=7, last=date(2026, 11, 25)).text()
    assert text.count('class="drill screen-only"') == 1
    assert "On paper: the 6 drills worked most recently." in text
    assert "One more is on the page itself." in text
