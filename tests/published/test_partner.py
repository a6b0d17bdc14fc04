"""Children's marks against an expert's: the figure behind what a partner's ticks are worth.

91.8 % alike at best (one study, seen only as an abstract; reference/published-values.md).
"""

from __future__ import annotations

from pathlib import Path

from tests.make_texts import OTHERS, updated

ALIKE = 0.918
GUIDE = Path(__file__).parents[2] / "backend/cueladder/pages/guide/settings-and-bouts.md"


def test_the_screens_and_the_guide_give_the_published_share():
    rounded = f"{round(100 * ALIKE)}"
    for language in OTHERS:
        (told,) = [
            message.string
            for message in updated(language, "phone")
            if str(message.id).startswith("A partner sees less than a coach")
        ]
        assert rounded in told and "100" in told, language
    assert f"{100 * ALIKE:.1f} times in 100" in GUIDE.read_text("utf-8")
