"""The table of a standard's demands names tests that are there."""

import ast
import re
from pathlib import Path

TABLE = Path(__file__).with_name("ASVS.md")
TESTS = Path(__file__).parents[1]


def named():
    return re.findall(r"(test_\w+\.py)::(\*|test_\w+)", TABLE.read_text("utf-8"))


def test_every_test_the_table_names_is_there():
    there = {}
    for file in TESTS.rglob("test_*.py"):
        tree = ast.parse(file.read_text("utf-8"))
        names = {each.name for each in ast.walk(tree) if isinstance(each, ast.FunctionDef)}
        there.setdefault(file.name, set()).update(names)
    assert len(named()) > 50
    lost = [f"{file}::{name}" for file, name in named()
            if file not in there or (name != "*" and name not in there[file])]  # fmt: skip
    assert lost == []


def test_every_line_says_where_it_stands_and_why():
    rows = [line.split("|")[1:-1] for line in TABLE.read_text("utf-8").splitlines()
            if re.match(r"\| \d", line)]  # fmt: skip
    assert len(rows) > 90
    for number, asked, stands, by in rows:
        words = ("held", "not held", "by design", "does not apply", "left to")
        assert stands.strip().startswith(words), number
        assert asked.strip() and by.strip(), number
        if stands.strip().startswith("held"):
            assert "::" in by or "`" in by, number
