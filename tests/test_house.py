"""How the house is built: which way imports point, what is kept pure, how big things may get."""

import ast
import os
import re
from collections import Counter
from pathlib import Path

import pytest

from tests.bench.size import strip_script

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


# The store's rooms, each using only those before it.
ROOMS = ["db", "log", "replay", "drills", "fencers", "access", "records", "whole"]
SCREENS = ROOT / "frontend" / "src"
# The front end's floors, bottom up; above them the screens side by side, at the root the shell.
FLOORS = ["language", "rules", "device", "app", "ui", "keys", "lesson", "choose"]
# The offline worker shares nothing with the pages; only the shell registers it.
APART = "sw"
NEIGHBOURS = {
    # a sign-in that has ended is renewed where it is noticed, without leaving the page
    ("settings/Settings.tsx", "access/SignIn.tsx"),
}
IMPORT = re.compile(r"""(?:from|import|new URL)\s*\(?\s*["'](\.[^"']+)["']""")
MOST_FILES, MOST_LINES = 30, 300


def test_the_rooms_of_the_store_stand_in_order():
    assert {p.name for p in (PACKAGE / "store").iterdir() if p.is_dir()} - {"__pycache__"} == {
        *ROOMS
    }
    for path in modules("store"):
        room = path.relative_to(PACKAGE / "store").parts[0]
        for name in imports(path):
            parts = name.split(".")
            if parts[:2] == ["cueladder", "store"] and room in ROOMS and {*parts[2:3]} & {*ROOMS}:
                assert ROOMS.index(parts[2]) <= ROOMS.index(room), f"{path.name} imports {name}"


def screen_imports():
    """Every file of the front end with the files it imports, as paths under `src`."""
    found = {}
    for path in [p for p in SCREENS.rglob("*") if p.suffix in (".ts", ".tsx", ".css")]:
        found[path.relative_to(SCREENS).as_posix()] = targets = set()
        for given in IMPORT.findall(path.read_text()) if path.suffix != ".css" else ():
            base = os.path.normpath(path.parent / given)
            for end in ("", ".ts", ".tsx"):
                if os.path.isfile(base + end):
                    targets.add(Path(base + end).relative_to(SCREENS).as_posix())
                    break
            else:
                assert given.endswith(".po"), f"{path.name} imports {given}, which is not there"
    return found


def floor(name):
    folder = name.split("/")[0] if "/" in name else "shell"
    if folder == "shell":
        return folder, len(FLOORS) + 1
    return folder, FLOORS.index(folder) if folder in FLOORS else len(FLOORS)


def test_imports_of_the_front_end_point_down_and_screens_keep_apart():
    graph = screen_imports()
    assert len(graph) > 150
    beside = set()
    for name, targets in graph.items():
        (here, height), of_shell = floor(name), "/" not in name
        for target in targets:
            there, depth = floor(target)
            assert APART not in (here, there) or here == there or of_shell, f"{name} → {target}"
            assert depth <= height, f"{name} imports {target}, which stands above it"
            if depth == height and here != there:
                beside.add((name, target))
    assert beside == NEIGHBOURS


def test_nothing_imports_in_a_circle():
    python = {}
    for path in modules("."):
        name = ".".join(path.relative_to(PACKAGE.parent).with_suffix("").parts)
        python[name.removesuffix(".__init__")] = path
    graph = {
        name: {target for target in _modules_named(path, python) if target != name}
        for name, path in python.items()
    }
    assert _circles(graph) == []
    assert _circles(screen_imports()) == []


def _modules_named(path, python):
    """Modules a file imports when it is loaded: what it imports within a function comes later."""
    inside = path.relative_to(PACKAGE.parent).with_suffix("").parts
    for node in _at_load(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names if alias.name in python)
        elif isinstance(node, ast.ImportFrom):
            base = list(inside[: -node.level]) if node.level else []
            module = ".".join([*base, *([node.module] if node.module else [])])
            for alias in node.names:
                name = f"{module}.{alias.name}"
                if name in python or module in python:
                    yield name if name in python else module


def _at_load(node):
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.dump(child.test):
            continue
        yield child
        if not isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            yield from _at_load(child)


def _circles(graph):
    """The strongly connected parts of more than one node (Tarjan 1972)."""
    number, low, stack, found = {}, {}, [], []

    def visit(node):
        number[node] = low[node] = len(number)
        stack.append(node)
        for target in graph.get(node, ()):
            if target not in number:
                visit(target)
                low[node] = min(low[node], low[target])
            elif target in stack:
                low[node] = min(low[node], number[target])
        if low[node] == number[node]:
            part = stack[stack.index(node) :]
            del stack[stack.index(node) :]
            if len(part) > 1:
                found.append(sorted(part))

    for node in graph:
        if node not in number:
            visit(node)
    return found


def test_only_the_command_that_shows_it_knows_of_the_demo():
    """The demo stands on the whole program; the command is looked at only when it is called."""
    knowing = {p for p in modules(".") for name in imports(p) if name.startswith("seed_demo")}
    assert knowing == {PACKAGE / "commands" / "demo.py"}
    assert "seed_demo" not in {name.split(".")[0] for name in at_load(PACKAGE / "commands/demo.py")}


def at_load(path):
    for node in _at_load(ast.parse(path.read_text())):
        if isinstance(node, ast.ImportFrom):
            yield node.module or ""
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


def test_a_circle_is_found():
    assert _circles({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": {"a"}}) == [["b", "c"]]


def written():
    """Every file of both halves that is written by hand."""
    python = [p for top in (PACKAGE, ROOT / "seed_demo") for p in top.rglob("*.py")]
    screens = [p for p in SCREENS.rglob("*") if p.suffix in (".ts", ".tsx", ".css")]
    generated = SCREENS / "device" / "api-types.ts"
    return [p for p in [*python, *screens] if "migrations" not in p.parts and p != generated]


def test_no_file_grows_past_three_hundred_lines():
    long = {
        str(p.relative_to(ROOT)): n
        for p in written()
        if (n := len(p.read_text().splitlines())) > MOST_LINES
    }
    assert long == {}


def test_no_folder_holds_more_than_thirty_files_of_its_own():
    full = {
        str(folder.relative_to(ROOT)): n
        for folder, n in Counter(p.parent for p in written()).items()
        if n > MOST_FILES
    }
    assert full == {}


def test_the_strips_script_fits_forty_kilobytes():
    """A size, not a time: `make test` builds what it looks at first."""
    assert strip_script(PACKAGE / "static") <= 40 * 1024
