"""A table of fencers as people write it: encodings, marks, heads in any order, faults by place."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cueladder.store.fencers.cells import harmless, original
from cueladder.store.fencers.roster_cells import EXAMPLE, READERS
from cueladder.store.fencers.roster_table import MOST_ROWS, decoded, read_table
from cueladder.store.problems import Refused

HEAD = "nickname,born,weapon\n"


def faults(text):
    return [(f.line, f.column, f.message) for f in read_table(text, 2026).faults]


def names(text):
    table = read_table(text, 2026)
    assert table.faults == ()
    return [row.fields["nickname"] for row in table.rows]


def test_the_example_is_a_sound_table_that_uses_every_column():
    table = read_table(EXAMPLE, 2026)
    assert (table.faults, table.left_out, len(table.rows)) == ((), (), 2)
    for column in READERS:
        assert any(row.fields[column] for row in table.rows), column


@pytest.mark.parametrize(
    ("head", "line"),
    [
        ("Rufname;Jahrgang;Waffe;Hand;Einwilligung", "Mila;2013;Säbel;links;14.3.2026"),
        ("Surnom;Année de naissance;Arme;Main;Consentement", "Mila;2013;sabre;gauchère;14.3.2026"),
        ("Soprannome;Anno di nascita;Arma;Mano;Consenso", "Mila;2013;sciabola;mancina;2026-03-14"),
        ("Apodo;Año de nacimiento;Arma;Mano;Consentimiento", "Mila;2013;sable;zurda;2026-03-14"),
    ],
)
def test_a_table_is_read_in_the_words_of_each_language(head, line):
    table = read_table(f"{head}\n{line}\n", 2026)
    assert table.faults == ()
    (row,) = table.rows
    found = {name: row.fields[name] for name in ("nickname", "born", "weapon", "hand", "consent")}
    told = {"nickname": "Mila", "born": 2013, "weapon": "sabre", "hand": "left"}
    assert found == {**told, "consent": date(2026, 3, 14)}


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_columns_may_stand_in_any_order_behind_any_usual_mark(delimiter):
    lines = [
        ["Weapon", "Consent date", "NAME", "Year of birth", "Hand"],
        ["épée", "14.3.2026", "Änne", "2012", "L"],
        ["Säbel", "", "Jon\u00e1s", "", ""],
    ]
    table = read_table("\n".join(delimiter.join(line) for line in lines), 2026)
    assert table.faults == ()
    anne, jonas = (row.fields for row in table.rows)
    assert anne == {
        "nickname": "Änne", "born": 2012, "weapon": "epee", "hand": "left",
        "joined": None, "consent": date(2026, 3, 14), "note": None,
    }  # fmt: skip
    assert (jonas["weapon"], jonas["hand"], jonas["born"]) == ("sabre", "right", None)
    assert [row.line for row in table.rows] == [2, 3]


@pytest.mark.parametrize(
    "heads",
    [
        ("Vorname", "Jahrgang", "Waffe", "Händigkeit"),
        ("First name", "Birth year", "Weapon", "Handedness"),
        ("Prénom", "Année de naissance", "Arme", "Latéralité"),
        ("Nome", "Anno di nascita", "Arma", "Lateralità"),
        ("Nombre", "Año de nacimiento", "Arma", "Lateralidad"),
    ],
)
@pytest.mark.parametrize("title", ["", "Fechtgruppe Dienstag 2026;;;\n", "Fencers\n"])
def test_headings_of_a_club_s_own_list_are_known_and_a_title_line_is_passed_over(heads, title):
    table = read_table(title + ";".join(heads) + "\nAnouk;2013;foil;left\n", 2026)
    assert (table.faults, table.left_out) == ((), ())
    (row,) = table.rows
    told = {name: row.fields[name] for name in ("nickname", "born", "weapon", "hand")}
    assert told == {"nickname": "Anouk", "born": 2013, "weapon": "foil", "hand": "left"}


@pytest.mark.parametrize(
    ("codec", "said"),
    [
        ("utf-8", "UTF-8"), ("utf-8-sig", "UTF-8"), ("utf-16", "UTF-16"),
        ("cp1252", "Windows-1252"),
    ],
)  # fmt: skip
def test_a_file_is_read_by_the_encoding_it_is_in_and_says_which(codec, said):
    text, encoding = decoded((HEAD + "Müge Ö.,2012,foil\r\n").encode(codec))
    assert (encoding, names(text)) == (said, ["Müge Ö."])


@pytest.mark.parametrize(
    ("file", "said"),
    [
        (b"PK\x03\x04rest", "save it there as CSV"),
        (b"a,\x00b", "not text"),
        (b"\x81\x8d,\xff", "not text"),
        (b"a" * (256 * 1024 + 1), "over 256 kB"),
    ],
)
def test_a_file_that_is_no_text_says_what_to_do(file, said):
    with pytest.raises(Refused, match=said) as refused:
        decoded(file)
    assert refused.value.field == "file"


@pytest.mark.parametrize(
    ("line", "column", "part"),
    [
        (",2012,foil", "nickname", "is empty: write"),
        ("x" * 61 + ",2012,foil", "nickname", "at most 60 characters"),
        ('"Mi\nla",2012,foil', "nickname", "on one line"),
        ("Mila,12,foil", "born", "no year of birth: write a year from 1900 to 2026"),
        ("Mila,2027,foil", "born", "no year of birth"),
        ("Mila,14.03.2012,foil", "born", "write the year only"),
        ("Mila,2012,axe", "weapon", "is not known: write foil, epee or sabre"),
        ("Mila,2012,", "weapon", "is empty: write foil, epee or sabre"),
        ("Mila,2012,foil,more", "line", "more cells than the first line"),
        ('"Mila,2012,foil', "line", "every quotation mark is closed"),
        ('"Mi"la,2012,foil', "line", "every quotation mark is closed"),
    ],
)
def test_a_fault_names_line_column_and_what_to_do(line, column, part):
    text = f'{HEAD}Jona,1961,epee\n\n"Kim\u00a0B.",,sabre\n{line}\n'
    ((found, where, message),) = faults(text)
    assert (found, where) == (5, column)
    assert part in message


def test_every_fault_of_a_table_is_named_at_once():
    text = "nickname,weapon,hand,joined\nA,axe,both,yesterday\n,foil,,2026-02-30\n"
    assert [(line, column) for line, column, _ in faults(text)] == [
        (2, "weapon"), (2, "hand"), (2, "joined"), (3, "nickname"), (3, "joined"),
    ]  # fmt: skip


def test_heads_that_are_missing_or_doubled_are_named_and_others_left_out():
    assert [(line, column) for line, column, _ in faults("born,hand\n2012,left\n")] == [
        (1, "nickname"), (1, "weapon"),
    ]  # fmt: skip
    assert [f[1] for f in faults("name,fencer,weapon\nA,B,foil\n")] == ["nickname"]
    table = read_table("nickname,weapon,health,phone\nA,foil,asthma,123\n", 2026)
    assert (table.left_out, table.faults) == (("health", "phone"), ())
    assert "asthma" not in str(table.rows)
    assert [f[:2] for f in faults("")] == [(1, "line")]


def test_a_line_break_inside_quotation_marks_does_not_shift_the_lines_after_it():
    text = 'nickname,weapon,note\nA,foil,"one\ntwo\nthree"\nB,axe,\n'
    assert [f[:2] for f in faults(text)] == [(5, "weapon")]


def test_more_fencers_than_go_at_once_are_a_fault_of_the_first_line_too_many():
    text = HEAD + "".join(f"F{n},,foil\n" for n in range(MOST_ROWS + 2))
    assert [f[:2] for f in faults(text)] == [(MOST_ROWS + 2, "line")]


@pytest.mark.parametrize("text", ["=1+1", "+49", "-x", "@sum", "\t=1", "'=1", "''@", "'t Hart", ""])
def test_no_cell_begins_a_formula_and_every_text_comes_back(text):
    assert harmless(text)[:1] not in set("=+-@\t\r")
    assert original(harmless(text)) == text


@given(st.text())
def test_any_text_comes_back_from_a_harmless_cell(text):
    assert harmless(text)[:1] not in set("=+-@\t\r") or harmless(text) == ""
    assert original(harmless(text)) == text


@given(st.text(alphabet="abcAZ012 ,;\t\n\r\"'=éßñ\u0000\ufeff-.", max_size=300))
def test_any_text_at_all_is_read_or_its_faults_are_named(text):
    for start in ("", HEAD):
        table = read_table(start + text, 2026)
        lines = (start + text).replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
        for place in (*table.rows, *table.faults):
            assert 1 <= place.line <= lines
        assert all(fault.message for fault in table.faults)
