"""The register is the only place where something is concluded, and each claim is whole."""

import ast
import re
from pathlib import Path

import pytest

from cueladder.evidence import claims
from cueladder.evidence.claims import REGISTER, Told, first
from cueladder.rules.said import say
from tests.claims.__main__ import TRIES
from tests.make_texts import ROOT, texts

PACKAGE = ROOT / "backend" / "cueladder"
CLAIMS = PACKAGE / "evidence" / "claims"

# What a sentence says that concludes something of a fencer, a drill, a club or a coach.
CONCLUDES = re.compile(
    r"guess(able|ing|ed)|told apart|[Tt]ells .* apart|as (good|well) (to|as) |than chance"
    r"|bad luck|by luck|\blikely\b|[Rr]eads? cues|[Mm]et cues calmly|[Ss]ecure up to"
    r"|whole ladder is|getting better|slipped|settle|still waiting|[Mm]ore readily|easily fooled"
    r"|[Ll]oud cues? (still|cost|are)|would be sent up|cannot yet be told|no pace"
    r"|Over many such cues"
)
# Headings, questions and how a figure is worked out: they name it and conclude nothing.
NAMES = {
    "Could the order be guessed?",
    "Was your order guessable?",
    "Whether your order was guessable comes once the server has this lesson.",
    "From soft to loud d′ changes by %(d)s (± %(d_error)s), c by %(c)s (± %(c_error)s); c below 0: "
    "reacts more readily.",
    "So many clean answers in a row. Easy to say, easily fooled by a lucky streak.",
    "The range of the chance is there because the marks are few; the true chance is likely within "
    "it 8 times in 10.",
    # the plan's own chances, with their figures beside them
    "Very likely to hold",
    "Very likely to climb",
    "Less likely to hold",
    "Less likely to climb",
}


def outside(domain: str) -> dict[str, list[str]]:
    """Texts of the product that are not said by a claim, with the files they stand in."""
    found = {}
    for message in texts(domain):
        if not message.id:
            continue
        files = [f for f, _ in message.locations if "/evidence/claims/" not in f]
        for one in message.id if message.pluralizable else (message.id,):
            if files:
                found[one] = files
    return found


def test_no_sentence_that_concludes_something_is_made_outside_the_register():
    said = {
        text: files for text, files in outside("server").items()
        if CONCLUDES.search(text) and text not in NAMES
    }  # fmt: skip
    assert said == {}, "say it by a claim in evidence/claims, with its error in the table"


def test_the_phone_concludes_nothing_by_itself():
    said = {
        text: files for text, files in outside("phone").items()
        if CONCLUDES.search(text) and text not in NAMES
    }  # fmt: skip
    assert said == {}, "let the server say it by a claim"


def test_the_search_finds_such_sentences_where_they_are_made():
    inside = [
        one
        for message in texts("server")
        if message.id and any("/evidence/claims/" in f for f, _ in message.locations)
        for one in (message.id if message.pluralizable else (message.id,))
    ]
    assert sum(bool(CONCLUDES.search(one)) for one in inside) > 25


@pytest.mark.parametrize(
    "path",
    sorted(
        p for p in (PACKAGE / "evidence").glob("*.py") if p.stem not in ("guards", "words")
    ),
    ids=lambda p: p.stem,
)  # fmt: skip
def test_the_evidence_gives_figures_and_says_nothing(path: Path):
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.ImportFrom):
            assert node.module != "cueladder.rules.said", f"{path.name} makes sentences"


def test_every_claim_is_in_the_register_once_and_by_its_own_name():
    made = re.findall(
        r'= Claim\(\s*"([\w.]+)"', "".join(p.read_text() for p in CLAIMS.glob("*.py"))
    )
    assert sorted(made) == sorted(REGISTER)
    assert all(claim.name == name for name, claim in REGISTER.items())


def test_every_finding_says_what_makes_it_false_and_true_and_is_tried_on_both():
    for claim in REGISTER.values():
        sides = {each.side for each in TRIES if each.claim == claim.name}
        if claim.kind == "finding":
            assert claim.promise and claim.false and claim.true and claim.power, claim.name
            assert {"false", "true"} <= sides, claim.name
        elif claim.kind == "range":
            assert claim.promise and claim.true, claim.name
            assert "holds" in sides, claim.name
        else:
            assert claim.power is None, claim.name


def test_no_try_names_a_claim_that_is_not_there():
    assert {each.claim for each in TRIES} <= set(REGISTER)


def test_what_asks_most_for_doing_something_is_said_first():
    stands = Told("standing.working", say("Works."))
    costs, lean = Told("heat.costs", say("Costs."), 7), Told("apart.lean", say("Leans."), 5)
    assert first([lean, None, costs], stands) == costs
    assert first([None, Told("heat.open", say("Open."))], stands) == stands
    assert claims.said(costs) == {"claim": "heat.costs", "words": "Costs."}
