"""Importing a table of fencers: looked at, written whole or not at all, taken back."""

import base64
import csv
import io
import uuid
import zipfile

import pytest
from hypothesis import HealthCheck, example, given
from hypothesis import strategies as st
from sqlalchemy import func, select

from cueladder.store.access.links import create_link
from cueladder.store.db.engine import db
from cueladder.store.db.models import Audit, Fencer, RosterImport
from tests.examples import examples
from tests.store.club import Club

GOOD = "nickname;born;weapon;hand\nJona;1961;epee;left\nMúmín;2014;foil;\n"
BAD = "nickname,born,weapon\nJona,1961,epee\nKim,12,axe\n"


def look(club, **body):
    return club.browser.post("/api/imports/preview", body)


def take(club, text=GOOD, browser=None, **body):
    body = {"id": str(uuid.uuid4()), "text": text, **body}
    return (browser or club.browser).post("/api/imports", body), body


def undo(club, import_id):
    return club.browser.send("DELETE", f"/api/imports/{import_id}")


def nicknames():
    db.session.remove()
    return sorted(db.session.scalars(select(Fencer.nickname)))


def test_a_look_shows_what_would_be_added_and_writes_nothing(club):
    told = look(club, text=GOOD).get_json()
    assert (told["delimiter"], told["faults"], told["left_out"]) == ("semicolon", [], [])
    assert [(r["line"], r["nickname"], r["born"], r["hand"]) for r in told["rows"]] == [
        (2, "Jona", 1961, "left"), (3, "Múmín", 2014, "right"),
    ]  # fmt: skip
    assert nicknames() == ["Mila"]


def test_a_file_is_looked_at_with_its_text_and_encoding_given_back(club):
    file = base64.b64encode(GOOD.encode("cp1252")).decode()
    told = look(club, file=file).get_json()
    assert (told["text"], told["encoding"], len(told["rows"])) == (GOOD, "Windows-1252", 2)


def test_a_look_names_each_fault_by_line_and_column(club):
    told = look(club, text=BAD).get_json()
    assert [(f["line"], f["column"], f["value"]) for f in told["faults"]] == [
        (3, "born", "12"), (3, "weapon", "axe"),
    ]  # fmt: skip


def test_a_table_with_a_fault_is_a_problem_that_points_to_it_and_nothing_is_written(club):
    answer, _ = take(club, BAD)
    assert answer.status_code == 422
    assert answer.mimetype == "application/problem+json"
    assert set(answer.get_json()["errors"]) == {"lines[3].born", "lines[3].weapon"}
    assert nicknames() == ["Mila"]
    assert club.browser.get("/api/imports").get_json()["imports"] == []


def test_a_sound_table_is_imported_once_however_often_it_is_sent(club):
    first, body = take(club)
    again = club.browser.post("/api/imports", body)
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.get_json() == again.get_json() == {"id": body["id"], "added": 2}
    assert nicknames() == ["Jona", "Mila", "Múmín"]
    (told,) = club.browser.get("/api/imports").get_json()["imports"]
    assert (told["added"], told["left"], told["undone"]) == (2, 2, None)
    actions = db.session.scalars(select(Audit.action).where(Audit.coach_id == club.coach)).all()
    assert actions == ["imported"] * 2


def test_fencers_who_seem_to_be_there_are_noticed_and_left_out_unless_wanted(club):
    text = "name,born,weapon\nMÍLA,2013,foil\nmila,2009,foil\nJona,,epee\njóna,1999,epee\n"
    same = [row["same"] for row in look(club, text=text).get_json()["rows"]]
    assert same[0] == {
        "id": club.fencer, "line": None, "nickname": "Mila", "born": 2013, "archived": False,
    }  # fmt: skip
    assert same[1:3] == [None, None]
    assert (same[3]["line"], same[3]["id"]) == (4, None)
    answer, _ = take(club, text)
    assert answer.get_json()["added"] == 2
    assert nicknames() == ["Jona", "Mila", "mila"]
    answer, _ = take(club, text)
    assert answer.status_code == 422
    assert answer.get_json()["errors"] == {"text": ["has nobody to add"]}
    answer, _ = take(club, text, also_same=True)
    assert answer.get_json()["added"] == 4


@pytest.mark.parametrize(
    ("body", "named"),
    [
        ({}, "body"),
        ({"text": GOOD, "file": ""}, "body"),
        ({"file": "no base64!"}, "file"),
        ({"file": base64.b64encode(b"PK\x03\x04").decode()}, "file"),
        ({"text": "x" * (256 * 1024 + 1)}, "text"),
        ({"text": "a\0b"}, "text"),
        ({"text": 3}, "text"),
    ],
)
def test_what_is_no_table_is_a_problem_that_names_the_field(club, body, named):
    answer = look(club, **body)
    assert answer.status_code == 422
    assert list(answer.get_json()["errors"]) == [named]


def test_an_import_is_undone_whole_while_nothing_hangs_on_it(club):
    _, body = take(club)
    done = undo(club, body["id"]).get_json()
    assert (done["gone"], done["stay"]) == (2, [])
    assert nicknames() == ["Mila"]
    (told,) = club.browser.get("/api/imports").get_json()["imports"]
    assert told["left"] == 0 and told["undone"]
    assert undo(club, body["id"]).get_json() == {"gone": 0, "stay": []}


def test_who_has_had_a_lesson_a_booking_or_a_link_stays_and_is_named(club):
    text = "name,weapon\nA,foil\nB,foil\nC,foil\nD,foil\n"
    _, body = take(club, text)
    ids = {f.nickname: f.id for f in db.session.scalars(select(Fencer))}
    club.fencer = ids["A"]
    phone = club.phone()
    club.browser.push(phone.open(), phone.cue())
    lesson = {"fencer": ids["B"], "at": "18:20"}
    assert (
        club.browser.send("PUT", "/api/days/2026-03-09", {"lessons": [lesson]}).status_code == 200
    )
    create_link(club.id, ids["C"], club.coach)
    told = undo(club, body["id"]).get_json()
    assert told["gone"] == 1
    assert {one["nickname"]: one["why"] for one in told["stay"]} == {
        "A": "has had a lesson",
        "B": "is booked for a lesson",
        "C": "has a link to a progress page",
    }
    assert nicknames() == ["A", "B", "C", "Mila"]


def test_only_the_coach_who_imported_and_the_head_coach_can_undo(app, club):
    for name in ("Odile", "Bruno"):
        club.add_coach(name, "coach")
    _, body = take(club, browser=club.sign_in("Odile"))
    path = f"/api/imports/{body['id']}"
    refused = club.sign_in("Bruno").send("DELETE", path)
    assert refused.status_code == 403
    assert "Another coach" in refused.get_json()["detail"]
    other = Club(app, "Sabre House")
    assert other.browser.send("DELETE", path).status_code == 404
    assert other.browser.get("/api/imports").get_json()["imports"] == []
    assert undo(club, body["id"]).get_json()["gone"] == 2


def test_the_example_can_be_fetched_and_imported_as_it_is(club):
    answer = club.browser.get("/api/imports/example.csv")
    assert answer.mimetype == "text/csv"
    file = base64.b64encode(answer.data).decode()
    told = look(club, file=file).get_json()
    assert (told["encoding"], told["faults"]) == ("UTF-8", [])
    assert take(club, told["text"])[0].status_code == 201


def test_a_formula_in_a_name_is_text_again_when_it_is_taken_out(club):
    take(club, 'name,weapon,note\n"=HYPERLINK(""x"")",foil,@sum\n')
    fencer = db.session.scalar(select(Fencer.id).where(Fencer.id != club.fencer))
    answer = club.browser.get(f"/api/fencers/{fencer}/export.zip")
    files = zipfile.ZipFile(io.BytesIO(answer.data))
    (row,) = csv.DictReader(io.StringIO(files.read("fencer.csv").decode()))
    assert (row["nickname"], row["note"]) == ('\'=HYPERLINK("x")', "'@sum")
    kept = club.browser.get(f"/api/fencers/{fencer}/export").get_json()["fencer"]
    assert kept["nickname"] == '=HYPERLINK("x")'


CELLS = st.one_of(
    st.sampled_from(
        ["Mila", "Jona", "foil", "Säbel", "2012", "12", "left", "", "2026-03-01", "=1"]
    ),
    st.text(st.characters(exclude_categories=["Cs"]), max_size=12),
)
HEADS = st.sampled_from(["name", "nickname", "weapon", "born", "hand", "joined", "note", "x", ""])


@st.composite
def tables(draw):
    """Tables of every kind: sound, nearly sound, and none at all."""
    if draw(st.integers(0, 9)) == 0:
        return draw(st.text(st.characters(exclude_categories=["Cs"]), max_size=80))
    heads = draw(st.one_of(st.just(["nickname", "weapon"]), st.lists(HEADS, max_size=5)))
    rows = draw(
        st.lists(
            st.one_of(
                st.tuples(st.text("abcdefgh", min_size=1, max_size=5), st.just("foil")).map(list),
                st.lists(CELLS, max_size=6),
            ),
            max_size=6,
        )
    )
    out = io.StringIO()
    csv.writer(out, delimiter=draw(st.sampled_from(",;\t"))).writerows([heads, *rows])
    return out.getvalue()


def test_no_table_at_all_is_written_by_halves_or_ends_in_a_fault_of_ours(club):
    count = lambda: db.session.scalar(select(func.count()).select_from(Fencer))  # noqa: E731
    seen = set()

    @examples(40, suppress_health_check=list(HealthCheck))
    @example(text="nickname,weapon\nRuna,foil\n", also_same=False)
    @example(text="nickname,weapon\nRuna,lance\n", also_same=False)
    @given(text=tables(), also_same=st.booleans())
    def check(text, also_same):
        db.session.remove()
        before = count()
        looked = look(club, text=text)
        assert looked.status_code in (200, 422)
        answer, body = take(club, text, also_same=also_same)
        db.session.remove()
        seen.add(answer.status_code)
        if answer.status_code == 201:
            told = looked.get_json()
            wanted = [r for r in told["rows"] if also_same or r["same"] is None]
            assert told["faults"] == []
            assert answer.get_json()["added"] == len(wanted) == count() - before > 0
        else:
            assert answer.status_code == 422
            errors = answer.get_json()["errors"]
            assert looked.status_code == 422 or looked.get_json()["faults"] or "text" in errors
            assert count() == before
            assert db.session.get(RosterImport, (club.id, body["id"])) is None

    check()
    assert seen == {201, 422}
