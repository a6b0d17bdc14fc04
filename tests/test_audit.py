"""The audit of what we depend on fails where a fault is known, and never calls silence a pass."""

import pytest

from tests.audit import read_npm, read_pip, verdict

FAULT = {"id": "PYSEC-2000-1", "fix_versions": ["1.2"], "aliases": [], "description": ""}
CLEAN = {"name": "flask", "version": "3.1", "vulns": []}
FAULTY = {"name": "oldlib", "version": "1.1", "vulns": [FAULT]}
SKIPPED = {"name": "offline", "skip_reason": "Dependency not found and could not be audited"}
NPM_FAULT = {"severity": "high", "range": "<2.0.0"}


def test_a_known_fault_fails_and_names_the_mend():
    audit = read_pip({"dependencies": [CLEAN, FAULTY]}, 2)
    assert audit.faults == ("oldlib 1.1: PYSEC-2000-1, mended in 1.2",)
    assert verdict([audit], must=False) == 1


def test_a_package_that_was_skipped_is_said_to_be_unchecked():
    audit = read_pip({"dependencies": [CLEAN, SKIPPED]}, 2)
    assert (audit.asked, audit.answered) == (2, 1)
    assert "NOT CHECKED" in audit.told


@pytest.mark.parametrize(("must", "code"), [(False, 0), (True, 2)])
@pytest.mark.parametrize(
    "audit", [read_npm({"message": "405 Method Not Allowed"}, 300), read_pip({}, 100)]
)
def test_no_answer_is_no_pass_where_an_answer_is_a_must(audit, must, code):
    assert audit.answered == 0
    assert verdict([audit], must) == code


def test_npm_names_the_package_and_its_versions_at_fault():
    audit = read_npm({"vulnerabilities": {"leftover": NPM_FAULT}}, 300)
    assert audit.faults == ("leftover <2.0.0: high",)
    assert verdict([audit], must=False) == 1


def test_clean_everywhere_is_a_pass():
    audits = [read_pip({"dependencies": [CLEAN]}, 1), read_npm({"vulnerabilities": {}}, 300)]
    assert verdict(audits, must=True) == 0
