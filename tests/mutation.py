"""Change one thing at a time in a module and see whether its tests notice.

    python tests/mutation.py                            every module named below, 60 changes each
    python tests/mutation.py airspeed typed --count 20
    python tests/mutation.py typed --only 17            one change, with what the tests print

Each change (a sign, a comparison, a number, a bound that is left out …) is made in a temporary copy of the library, and
the module's tests run on it with the same examples each time. What no test notices is printed: write the test that
does, or see why none can. The changes are drawn at random from a seed, so a run can be repeated; and so can a number,
as long as the module stays as it is. Needs a system where a process can be copied: Linux or macOS.
"""

import argparse
import ast
import compileall
import doctest
import importlib
import multiprocessing
import os
import random
import shutil
import sys
import tempfile
import time
from importlib.metadata import entry_points
from pathlib import Path

TOP = Path(__file__).resolve().parents[1]
_PREHEAT = [
    "tests/physics/preheat/test_network.py",
    "tests/physics/preheat/test_history.py",
    "tests/physics/preheat/test_engine.py",
    "tests/physics/preheat/test_plans.py",
    "tests/published/test_heat.py",
]
# Which files of the library, and which tests must notice, those first that are fastest.
MODULES = {
    "loading": (
        ["physics/loading/moments.py", "physics/loading/loadsheet.py"],
        [
            "tests/physics/loading/test_moments.py",
            "tests/physics/loading/test_loadsheet.py",
            "tests/physics/loading/test_edges.py",
            "tests/published/test_loading.py",
        ],
    ),
    "envelope": (
        ["physics/loading/envelope.py"],
        ["tests/physics/loading/test_envelope.py", "tests/physics/loading/test_envelope_edges.py"],
    ),
    "fuel": (
        ["physics/fuel/tank.py", "physics/fuel/water.py", "physics/fuel/density.py", "physics/fuel/order.py"],
        ["tests/physics/fuel", "tests/published/test_fuel.py"],
    ),
    "cooling": (
        [f"physics/cooling/{name}.py" for name in ("heat", "airflow", "engine", "over_time")],
        ["tests/physics/cooling", "tests/published/test_cooling.py"],
    ),
    "securing": (
        [f"physics/securing/{name}.py" for name in ("chocks", "parked", "ropes", "supports", "wind")],
        ["tests/physics/securing", "tests/published/test_securing.py"],
    ),
    "airspeed": (
        ["physics/air/airspeed.py"],
        ["tests/physics/air/test_airspeed.py", "tests/physics/air/test_edges.py", "tests/published/test_airspeed.py"],
    ),
    "pitot_static": (
        ["physics/pitot_static/instruments.py"],
        ["tests/physics/pitot_static", "tests/published/test_pitot_static.py"],
    ),
    "electrical": (
        ["physics/electrical/battery.py", "physics/electrical/cable.py", "physics/electrical/starter.py"],
        ["tests/physics/electrical", "tests/published/test_electrical.py", "tests/published/test_battery.py"],
    ),
    "network": (["physics/preheat/network.py"], _PREHEAT),
    "history": (["physics/preheat/history.py"], _PREHEAT),
    "typed": (["assessment/typed.py"], ["tests/assessment/test_typed.py", "tests/assessment/test_judging.py"]),
    "judging": (["assessment/judging.py"], ["tests/assessment/test_judging.py", "tests/assessment/test_typed.py"]),
    "marking": (
        ["classroom/sheet_marks.py", "classroom/mark_collected.py"],
        [
            "tests/classroom/test_sheet_marks.py",
            "tests/classroom/test_mark_collected.py",
            "tests/classroom/test_collected_before.py",
            "tests/classroom/test_signed_sheets.py",
            "tests/classroom/test_kept_papers.py",
        ],
    ),
}

COMPARISONS = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
}
OPERATORS = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
    ast.FloorDiv: ast.Div,
    ast.Mod: ast.Mult,
    ast.BitAnd: ast.BitOr,
    ast.BitOr: ast.BitAnd,
    ast.And: ast.Or,
    ast.Or: ast.And,
}
PAIRS = (
    "min max",
    "minimum maximum",
    "argmin argmax",
    "any all",
    "floor ceil",
    "at_least at_most",
    "low high",
    "left right",
)
NAMES = {a: b for pair in PAIRS for a, b in (pair.split(), pair.split()[::-1])}


def changes(node):
    """The ways to change one node: functions that change it in place, or return what takes its place."""
    if isinstance(node, ast.Compare):
        for place, op in enumerate(node.ops):
            yield lambda n, place=place, op=op: n.ops.__setitem__(place, COMPARISONS[type(op)]())
    elif isinstance(node, (ast.BinOp, ast.BoolOp, ast.AugAssign)) and type(node.op) in OPERATORS:
        yield lambda n: setattr(n, "op", OPERATORS[type(n.op)]())
    elif isinstance(node, ast.UnaryOp):
        yield lambda n: n.operand
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield lambda n: setattr(n, "value", not n.value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, (int, float)):
        yield lambda n: setattr(n, "value", n.value + 1)
        if isinstance(node.value, float) and node.value not in (0.0, 1.0):
            yield lambda n: setattr(n, "value", n.value * 1.02)
    elif isinstance(node, ast.Name) and node.id in NAMES and isinstance(node.ctx, ast.Load):
        yield lambda n: setattr(n, "id", NAMES[n.id])
    elif isinstance(node, ast.Attribute) and node.attr in NAMES:
        yield lambda n: setattr(n, "attr", NAMES[n.attr])
    elif isinstance(node, ast.If | ast.IfExp | ast.While):
        yield lambda n: setattr(n, "test", ast.UnaryOp(ast.Not(), n.test))
    elif isinstance(node, ast.Return) and ast.unparse(node) not in ("return", "return None"):
        yield lambda n: setattr(n, "value", ast.Constant(None))
    elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Call):
        yield lambda _: ast.Pass()
    elif isinstance(node, (ast.Break, ast.Continue)):
        yield lambda n: ast.Continue() if isinstance(n, ast.Break) else ast.Break()
    if isinstance(node, ast.Call):
        for place in [i for i, keyword in enumerate(node.keywords) if keyword.arg != "strict"]:
            yield lambda n, place=place: n.keywords.pop(place) and None


def parts(node):
    """The nodes of a tree that make it compute: types, decorators, words and `zip(strict=True)` are left out."""
    if isinstance(node, ast.keyword) and node.arg == "strict":
        return
    yield node
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list") or isinstance(node, ast.JoinedStr | ast.Raise):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST):
                yield from parts(child)


def places(source):
    """Where a source can be changed: pairs of a node's number and one of the ways to change it."""
    nodes = enumerate(parts(ast.parse(source)))
    return [(index, way) for index, node in nodes for way in range(len(list(changes(node))))]


def mutant(source, index, way):
    """A source with one thing changed: (line, what stood there, what stands there now, the new source)."""
    tree = ast.parse(source)
    target = list(parts(tree))[index]
    line, before = getattr(target, "lineno", 0), ast.unparse(target)
    other = list(changes(target))[way](target)
    if other is not None:
        replace(tree, target, other)
    after = ast.unparse(target if other is None else other)
    return line, before, after, ast.unparse(ast.fix_missing_locations(tree))


def replace(tree, old, new):
    """Put one node in the place of another."""
    for node in ast.walk(tree):
        for name, value in ast.iter_fields(node):
            if value is old:
                setattr(node, name, new)
            elif isinstance(value, list) and any(item is old for item in value):
                value[:] = [new if item is old else item for item in value]


def short(text, width=110):
    line = " ".join(text.split())
    return line if len(line) <= width else line[: width - 2] + " …"


def run_tests(library, tests, modules, quiet):
    """In a process of its own: run examples, then tests, on a copy of the library; ends with 0 if all passed."""
    os.environ.update(PYTHONPATH=str(library), CI="true")
    sys.path.insert(0, str(library))
    sys.dont_write_bytecode = True
    if quiet:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
    import pytest
    from hypothesis import Phase, settings

    # The first example that fails is enough: no search for the simplest one.
    settings.register_profile("mutation", phases=[Phase.explicit, Phase.generate], database=None)
    settings.load_profile("mutation")
    options = ["-o", "addopts=--import-mode=importlib", "-x", "-q", "-p", "no:cacheprovider", "-W", "ignore:Module"]
    if quiet:  # nobody reads why a test failed, and rewriting its assertions takes time
        options.append("--assert=plain")
    wrong = any(doctest.testmod(importlib.import_module(m), raise_on_error=quiet).failed for m in modules)
    os._exit(int(wrong or pytest.main([*options, *tests])))


def preload(tests):
    """Import pytest's plugins and what tests import from outside once, so that each copied process has it."""
    for plugin in entry_points(group="pytest11"):  # pytest would load them anew for each change
        plugin.load()
    for test in tests:
        for file in [TOP / test] if test.endswith(".py") else (TOP / test).rglob("*.py"):
            for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
                names = (
                    [node.module] if isinstance(node, ast.ImportFrom) else [a.name for a in getattr(node, "names", [])]
                )
                for name in names:
                    if isinstance(node, ast.Import | ast.ImportFrom) and not name.startswith("walkaround"):
                        importlib.import_module(name)


def examine(name, options, folder):
    """Try a module's changes, and print those that no test noticed."""
    files, tests = MODULES[name]
    preload(tests)
    modules = ["walkaround." + file.removesuffix(".py").replace("/", ".") for file in files]
    tests = [str(TOP / test) for test in tests]
    sources = {f: (TOP / "lib/walkaround" / f).read_text(encoding="utf-8") for f in files}
    found = [(f, *place) for f in files for place in places(sources[f])]
    drawn = list(enumerate(random.Random(options.seed).sample(found, len(found))))
    drawn = drawn[: options.count] if options.only is None else [drawn[options.only]]
    drawn = [(number, (f, *mutant(sources[f], *place))) for number, (f, *place) in drawn]
    free = [folder / f"{name}-{slot}" for slot in range(options.processes)]
    for library in free:
        shutil.copytree(TOP / "lib/walkaround", library / "walkaround", ignore=shutil.ignore_patterns("__pycache__"))
        compileall.compile_dir(library, quiet=2)

    def start(library):
        process = multiprocessing.get_context("fork").Process(
            target=run_tests, args=(library, tests, modules, options.only is None)
        )
        process.start()
        return process

    began = time.monotonic()
    unchanged = start(free[0])
    unchanged.join()
    patience = 20 + 6 * (time.monotonic() - began)
    if unchanged.exitcode != 0:
        print(f"{name}: the tests fail on the library as it is; run: pytest {' '.join(MODULES[name][1])}", flush=True)
        return
    running, missed, waiting = {}, 0, list(drawn)
    while waiting or running:
        while waiting and free:
            number, change = waiting.pop(0)
            library = free.pop()
            (library / "walkaround" / change[0]).write_text(change[-1], encoding="utf-8")
            running[start(library)] = time.monotonic(), library, number, change
        time.sleep(0.05)
        for process, (started, library, number, (file, line, before, after, _)) in list(running.items()):
            if process.is_alive() and time.monotonic() - started < patience:
                continue
            process.kill()
            process.join()
            if process.exitcode == 0:
                missed += 1
                print(f"  {number:3} {file}:{line}\n      - {short(before)}\n      + {short(after)}", flush=True)
            shutil.copy2(TOP / "lib/walkaround" / file, library / "walkaround" / file)
            free.append(library)
            del running[process]
    noticed = len(drawn) - missed
    print(f"{name}: {noticed} of {len(drawn)} noticed ({noticed / len(drawn):.0%}), {len(found)} possible", flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("modules", nargs="*", metavar="module", help=f"one of {', '.join(MODULES)} (all)")
    parser.add_argument("--count", type=int, default=60, help="how many changes in each module (60)")
    parser.add_argument("--seed", type=int, default=1, help="which changes are drawn (1)")
    parser.add_argument("--only", type=int, help="the number of one change, to look at it")
    parser.add_argument("--processes", type=int, default=os.cpu_count(), help="how many run at once")
    options = parser.parse_args()
    unknown = set(options.modules) - set(MODULES)
    if unknown:
        parser.error(f"no module {', '.join(sorted(unknown))}; there are {', '.join(MODULES)}")
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    with tempfile.TemporaryDirectory() as folder:
        for name in options.modules or MODULES:
            examine(name, options, Path(folder))


if __name__ == "__main__":
    main()
