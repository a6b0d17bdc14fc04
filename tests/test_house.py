"""How the house is built: which way imports point, and what the pure folder may not touch."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "backend" / "cueladder"
ALLOWED = {
    "rules": {"rules"},
    "evidence": {"rules", "evidence"},
    "planning": {"rules", "evidence", "planning"},
    "store": {"rules", "evidence", "planning", "store"},
    "story": {"rules", "evidence", "planning", "store", "story"},
}
PURE = {
    "__future__", "collections", "dataclasses", "datetime", "enum", "functools", "hashlib",
    "itertools", "json", "math", "random", "re", "typing",
}  # fmt: skip
FORBIDDEN_NAMES = {"open", "print", "input", "exec", "eval"}
CLOCKS = {("date", "today"), ("datetime", "now"), ("datetime", "utcnow"), ("datetime", "today")}


def modules(folder):
    return sorted(p for p in (PACKAGE / folder).rglob("*.py") if "migrations" not in p.parts)


def imports(path):
    tree = ast.parse(path.read_text())
    inside = path.relative_to(PACKAGE.parent).with_suffix("").parts
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = list(inside[: -node.level]) if node.level else []
            yield ".".join([*base, *([node.module] if node.module else [])])


@pytest.mark.parametrize("folder", ALLOWED)
def test_dependencies_point_one_way(folder):
    assert modules(folder), f"{folder} has no modules"
    for path in modules(folder):
        for name in imports(path):
            parts = name.split(".")
            if parts[0] == "cueladder" and len(parts) > 1:
                assert parts[1] in ALLOWED[folder], f"{path.name} imports {name}"


@pytest.mark.parametrize("path", modules("rules"), ids=lambda p: p.stem)
def test_the_rules_touch_no_file_clock_or_global_chance(path):
    for name in imports(path):
        top = name.split(".")[0]
        assert top in PURE | {"cueladder"}, f"{path.name} imports {name}"
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Name):
            assert node.id not in FORBIDDEN_NAMES, f"{path.name} uses {node.id}"
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            assert (node.value.id, node.attr) not in CLOCKS, f"{path.name} reads the clock"
            if node.value.id == "random":
                assert node.attr == "Random", f"{path.name} uses the global generator"


def test_no_module_grows_past_three_hundred_lines():
    long = {
        str(p.relative_to(ROOT)): n
        for p in [*PACKAGE.rglob("*.py"), *(ROOT / "seed_demo").rglob("*.py")]
        if "migrations" not in p.parts and (n := len(p.read_text().splitlines())) > 300
    }
    assert long == {}
