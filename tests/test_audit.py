"""The audit of what we depend on fails where a fault is known, and never calls silence a pass."""

import pytest

from tests.audit import AT_FAULT, UNCHECKED, read_npm, read_pip, verdict

FAULT = {"id": "PYSEC-2000-1", "fix_versions": ["1.2"], "aliases": [], "description": ""}
CLEAN = {"name": "flask", "version": "3.1", "vulns": []}
FAULTY = {"name": "oldlib", "version": "1.1", "vulns": [FAULT]}
SKIPPED = {"name": "offline", "skip_reason": "Dependency not found and could not be audited"}
NPM_FAULT = {"severity": "high", "range": "<2.0.0"}


def test_a_known_fault_fails_and_names_the_mend():
    audit = read_pip({"dependencies": [CLEAN, FAULTY]}, 2)
    assert audit.faults == ("oldlib 1.1: PYSEC-2000-1, mended in 1.2",)
    assert verdict([audit])[0] == AT_FAULT


def test_a_package_that_was_skipped_is_said_to_be_unchecked():
    audit = read_pip({"dependencies": [CLEAN, SKIPPED]}, 2)
    assert (audit.asked, audit.answered) == (2, 1)
    assert "NOT CHECKED" in audit.told
    assert verdict([audit]) == (UNCHECKED, "Not everything was checked. This run is no pass.")


SILENT = [read_npm({"message": "405 Method Not Allowed"}, 300), read_pip({}, 100)]


@pytest.mark.parametrize("audit", SILENT, ids=lambda audit: audit.of)
def test_no_answer_is_no_check(audit):
    status, meaning = verdict([audit])
    assert (audit.answered, status) == (0, UNCHECKED)
    assert meaning.startswith("Nothing was checked.")
    assert "NOTHING CHECKED" in audit.told


def test_one_service_that_is_silent_is_no_pass_and_a_fault_of_the_other_is_still_one():
    clean, faulty = read_pip({"dependencies": [CLEAN]}, 1), read_pip({"dependencies": [FAULTY]}, 1)
    assert verdict([clean, SILENT[0]])[0] == UNCHECKED
    assert verdict([faulty, SILENT[0]])[0] == AT_FAULT


def test_npm_names_the_package_and_its_versions_at_fault():
    audit = read_npm({"vulnerabilities": {"leftover": NPM_FAULT}}, 300)
    assert audit.faults == ("leftover <2.0.0: high",)
    assert verdict([audit])[0] == AT_FAULT


def test_clean_everywhere_is_a_pass():
    audits = [read_pip({"dependencies": [CLEAN]}, 1), read_npm({"vulnerabilities": {}}, 300)]
    assert verdict(audits) == (0, "No known faults.")
