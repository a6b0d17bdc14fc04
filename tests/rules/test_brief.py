import pytest

from cueladder.rules import Drill, RuleError
from tests.drills import document

COUNTS = {"correct": "In time.", "late": "Too late.", "early": "Before it.", "big": "Too wide."}


def test_a_drill_without_a_brief_is_a_drill():
    brief = Drill.from_json(document()).brief
    assert (brief.level, brief.cues, brief.counts, brief.feet) == (None, {}, {}, "")
    assert brief.blades
    assert brief.loud_from == 1


def test_a_brief_says_what_to_give_and_what_counts():
    said = {"level": "club", "cues": {"answer": "thrust"}, "counts": COUNTS, "feet": "One step."}
    brief = Drill.from_json(document(**said, loud_from=2, blades=False)).brief
    assert (brief.level, brief.cues, brief.counts) == ("club", {"answer": "thrust"}, COUNTS)
    assert (brief.feet, brief.loud_from, brief.blades) == ("One step.", 2, False)


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"level": "olympic"}, "level"),
        ({"cues": {"leave": "nothing is left here"}}, "cues.leave"),
        ({"cues": {"answer": "x" * 61}}, "cues.answer"),
        ({"cues": "thrust"}, "cues"),
        ({"counts": {"decoy": "there is none here"}}, "counts.decoy"),
        ({"counts": {"late": " "}}, "counts.late"),
        ({"feet": 3}, "feet"),
        ({"blades": "no"}, "blades"),
        ({"loud_from": 0}, "loud_from"),
        ({"language": 5}, "language"),
    ],
)
def test_a_wrong_brief_is_refused_and_the_field_named(changes, field):
    with pytest.raises(RuleError) as caught:
        Drill.from_json(document(**changes))
    assert caught.value.field == field


def test_a_drill_with_decoys_only_has_no_late_or_early():
    doc = document("desensitization", gives="decoys", counts={"late": "no such mark"})
    with pytest.raises(RuleError) as caught:
        Drill.from_json(doc)
    assert caught.value.field == "counts.late"
