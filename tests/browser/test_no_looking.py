"""A lesson without a look at the screen: the coach knows what was felt and what was heard."""

import pytest
from playwright.sync_api import expect

from tests.browser.hands import NO_POINTER, pointed, stored_marks
from tests.browser.phone import frames, page_until
from tests.browser.strip import MIXED_DRILL, READ_DRILL, all_sent, choose, lesson_of, open_lesson

pytestmark = pytest.mark.browser
STAY, CLIMB, BACK = [18], [40, 70, 40, 70, 160], [160, 70, 40, 70, 40]
UNDONE, OVER = [18, 70, 18], [220]
FAILED = [50, 40] * 5 + [50]

# Headless Chromium has no voices and nothing that shakes: both ends are replaced by a notebook.
NOTEBOOK = """
globalThis.noted = [];
navigator.vibrate = (pattern) => noted.push({ felt: [pattern].flat() }) > 0;
globalThis.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
const voices = [
  { name: "Far", lang: "en-GB", localService: false, default: true },
  { name: "Fremd", lang: "de-DE", localService: true, default: false },
  { name: "Near", lang: "en-US", localService: true, default: false },
];
Object.defineProperty(globalThis, "speechSynthesis", {
  value: {
    getVoices: () => globalThis.mute ? voices.slice(0, 2) : voices,
    cancel: () => undefined,
    speak: ({ text, voice, rate }) => noted.push({ heard: text, voice: voice.name, rate }),
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  },
});
"""


class Senses:
    """What a coach with the phone in the pocket knows."""

    def __init__(self, page):
        self.page, self.read = page, 0
        self.voices = set()

    def next(self, felt=True, heard=True):
        """Wait for what comes after a press: the rhythm felt and the words heard."""
        got = {}

        def came():
            for note in self.page.evaluate("(from) => noted.slice(from)", self.read):
                self.read += 1
                if "felt" in note:
                    got["felt"] = note["felt"]
                else:
                    got["heard"] = note["heard"]
                    self.voices.add((note["voice"], note["rate"]))
            return (not felt or "felt" in got) and (not heard or "heard" in got)

        page_until(self.page, came, "what is felt and heard")
        return got.get("felt"), got.get("heard")


@pytest.fixture
def blind(salle):
    """A strip with the voice on, an agreed caution, and a notebook for the senses."""
    page = salle.phone.start_blank()
    page.add_init_script(NO_POINTER)
    page.add_init_script(NOTEBOOK)
    page.goto(salle.phone.url + "/settings")
    page.get_by_label("Say aloud: climb, back, stop, and the next cue").check()
    page.get_by_test_id("rate-1.3").click()
    page.goto(salle.phone.url)
    return salle, page


def test_a_lesson_is_given_from_what_is_felt_and_heard_alone(blind):
    salle, page = blind
    open_lesson(page, MIXED_DRILL, number=1)
    choose(page, READ_DRILL)
    lesson = lesson_of(page)
    frames(page)
    senses = Senses(page)
    senses.read = page.evaluate("noted.length")
    touched = pointed(page)
    press = page.keyboard.press

    press("r")
    _, told = senses.next(felt=False)
    assert "parry" in told
    assert " of " in told
    # the fencer is good until the step on is felt, then late until the step back is felt
    gave = []
    felt = None
    while felt != CLIMB:
        press("1")
        felt, heard = senses.next()
        gave.append("correct")
        assert heard.startswith("Correct.")
        assert felt in (STAY, CLIMB)
        assert len(gave) < 30
    assert "One step on." in heard
    cue = heard.split("One step on. ")[1]
    assert len(cue) > 3, "the changed cue is told too"
    while felt != BACK:
        press("2")
        felt, heard = senses.next()
        gave.append("late")
        assert len(gave) < 40
    assert "One step back." in heard
    press("1")
    senses.next()
    press("u")
    felt, heard = senses.next()
    assert felt == UNDONE
    assert heard.startswith("Taken back: Correct.")
    press("w")
    felt, heard = senses.next()
    assert felt == OVER
    assert heard == "Now."
    # a mark this drill does not have is refused where it can be felt
    press("4")
    felt, heard = senses.next()
    assert felt == FAILED
    assert heard == "Fell for it: not in this drill"

    # the other drill is chosen before the phone goes back into the pocket
    on_screen = pointed(page)
    choose(page, MIXED_DRILL)
    frames(page)
    own = pointed(page) - on_screen
    senses.read = page.evaluate("noted.length")
    press("r")
    _, heard = senses.next(felt=False)
    told = []
    for turn in range(8):
        words = heard.rsplit(". ", 1)[-1].strip()
        given = words
        if turn == 3:
            # the coach gives something else than was proposed, and hears that it was taken
            other = "d" if given == "Answer" else "a"
            press(other)
            felt, words = senses.next()
            assert felt == STAY
            assert words != given
            given = words
        mark = "4" if given == "Leave" and turn % 2 else "1"
        # on the mildest rung loud is no louder than soft, and neither is asked for
        kind = "attack" if given == "Answer" else "decoy"
        told.append((kind, None, "decoy" if mark == "4" else "correct"))
        press(mark)
        felt, heard = senses.next()
        assert felt != FAILED
    assert {one[0] for one in told} == {"attack", "decoy"}
    assert pointed(page) - own == touched, "the screen was touched"

    all_sent(page)
    kept = stored_marks(salle, lesson)
    assert [one["mark"] for one in kept[:-8]] == gave
    assert [(one["given"], one["loud"], one["mark"]) for one in kept[-8:]] == told
    # never a voice that sends the words away, nor one of another language
    assert senses.voices == {("Near", 1.3)}


@pytest.mark.thorough
def test_a_mark_that_could_not_be_written_is_felt_and_heard_as_not_marked(blind):
    _, page = blind
    open_lesson(page, READ_DRILL, number=1)
    frames(page)
    senses = Senses(page)
    senses.read = page.evaluate("noted.length")
    # both of the phone's stores refuse, as a full phone's would (see test_storage)
    page.evaluate(
        """() => {
          IDBObjectStore.prototype.put = IDBObjectStore.prototype.add = () => {
            throw new DOMException("full", "QuotaExceededError");
          };
          Worker.prototype.postMessage = () => { throw new Error("full"); };
        }"""
    )
    page.keyboard.press("1")
    felt, heard = senses.next()
    assert felt == FAILED
    assert heard.startswith("Not marked")


@pytest.mark.thorough
def test_without_a_voice_on_the_phone_nothing_is_spoken_and_settings_say_so(blind):
    salle, page = blind
    page.add_init_script("globalThis.mute = true")
    page.goto(salle.phone.url + "/settings")
    expect(page.get_by_test_id("no-voice")).to_be_visible()
    page.get_by_test_id("try-climb").click()
    assert page.evaluate("noted") == [{"felt": CLIMB}]


@pytest.mark.thorough
def test_each_rhythm_can_be_felt_and_heard_in_settings_and_no_two_are_alike(blind):
    salle, page = blind
    page.goto(salle.phone.url + "/settings")
    for felt in ("stay", "climb", "back", "rest", "undone", "over", "failed"):
        page.get_by_test_id(f"try-{felt}").click()
    noted = page.evaluate("noted")
    rhythms = [tuple(one["felt"]) for one in noted if "felt" in one]
    assert len(rhythms) == 7
    assert len(set(rhythms)) == 7
    assert len({one["heard"] for one in noted if "heard" in one}) == 7
