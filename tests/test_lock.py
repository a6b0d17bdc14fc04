"""What servers install: pinned, with hashes, no older than what the tests ran with."""

import re
import tomllib
from importlib.metadata import version
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.version import Version

TOP = Path(__file__).parents[1]
LOCK = TOP / "backend" / "requirements.lock"
PROJECT = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
WANTED = [
    Requirement(line)
    for line in [*PROJECT["dependencies"], *PROJECT["optional-dependencies"]["server"]]
]


def locked():
    """name → (version, hashes) of every entry of the lock file."""
    text = re.sub(r"\s*#.*", "", LOCK.read_text("utf-8")).replace("\\\n", " ")
    entries = {}
    for line in filter(None, map(str.strip, text.splitlines())):
        name, pinned = re.match(r"([a-z0-9._-]+)==(\S+)", line).groups()
        entries[name] = (Version(pinned), re.findall(r"--hash=sha256:([0-9a-f]{64})", line))
    return entries


@pytest.mark.parametrize("wanted", WANTED, ids=lambda wanted: wanted.name)
def test_the_floor_is_what_the_tests_run_with_or_less_and_the_lock_is_not_below_it(wanted):
    (floor,) = [Version(each.version) for each in wanted.specifier if each.operator == ">="]
    assert floor <= Version(version(wanted.name))
    assert wanted.specifier.contains(locked()[wanted.name.lower()][0])
    # said to the last digit: "3.0" would admit a 3.0.0 that nobody tried
    assert len(floor.release) == 3


def test_waitress_is_not_admitted_where_it_mixes_up_two_requests():
    (wanted,) = [each for each in WANTED if each.name == "waitress"]
    assert not wanted.specifier.contains("3.0.0")


def test_every_entry_of_the_lock_has_its_hashes_and_none_says_where_it_came_from():
    entries = locked()
    assert len(entries) > len(WANTED)
    assert all(hashes for _, hashes in entries.values())
    text = LOCK.read_text("utf-8")
    for address in ("://", "--index", "--find-links", "--trusted-host", "@ file"):
        assert address not in text


def test_the_recipe_for_going_live_installs_from_the_lock():
    guide = (TOP / "backend/cueladder/pages/guide/going-live.md").read_text("utf-8")
    assert "pip install --require-hashes -r requirements.lock" in guide
    assert "--no-deps" in guide
