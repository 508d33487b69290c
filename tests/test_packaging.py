"""What pyproject.toml declares is what the code imports, and the source archive holds every file of the project."""

import ast
import hashlib
import os
import re
import shutil
import subprocess
import sys
import tarfile
import tomllib
import zipfile
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[1]
SETTINGS = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))
PROJECT = SETTINGS["project"]
(PAGES_SCRIPT,) = (TOP / "lib/jupyter/walkaround-pages/static").iterdir()
# Declared and imported by no file: programs of their own, nbval as a plugin of pytest.
STARTED = {"jupyterlab", "jupyterhub", "nbval", "hatchling"}


def canonical(name):
    """A distribution's name as the packaging standards compare it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def declared(*extras):
    """Names of what is required, with the extras named."""
    lists = [PROJECT["dependencies"], *(PROJECT["optional-dependencies"][extra] for extra in extras)]
    return {canonical(re.match(r"[\w.-]+", line)[0]) for lines in lists for line in lines}


def imported(source):
    """Top-level names that a module imports, inside functions and by `importorskip` too."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and not node.level:
            yield node.module.partition(".")[0]
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith("importorskip"):
            yield node.args[0].value.partition(".")[0]


def needed(*folders):
    """Distributions that the modules in these folders import, each with a module that does."""
    from_name, found = packages_distributions(), {}
    paths = [path for folder in folders for path in sorted((TOP / folder).rglob("*.py"))]
    own = {path.stem for path in paths} | {"walkaround"}
    for path in paths:
        for name in imported(path.read_text(encoding="utf-8")):
            if name not in sys.stdlib_module_names and name not in own:
                for distribution in from_name.get(name, [name]):
                    found[canonical(distribution)] = str(path.relative_to(TOP))
    return found


def undeclared(found, names):
    return {name: path for name, path in found.items() if name not in names}


def test_what_the_library_imports_is_declared():
    assert undeclared(needed("lib"), declared()) == {}


def test_what_tests_benchmarks_and_scripts_import_is_declared():
    assert undeclared(needed("tests", ".ci"), declared("test")) == {}


def test_what_is_declared_is_imported():
    used = {*needed("lib", "tests", ".ci"), *STARTED}
    assert declared("test") - used == set()


def test_an_import_that_is_not_declared_is_seen():
    source = (
        "def late():\n    import PIL.Image\n    from scipy import stats\npytest.importorskip('playwright.sync_api')"
    )
    assert set(imported(source)) == {"PIL", "scipy", "playwright"}
    assert undeclared({"pillow": "a.py", "numpy": "b.py"}, declared() - {"pillow"}) == {"pillow": "a.py"}


def test_every_requirement_names_its_lowest_version():
    lists = [PROJECT["dependencies"], *PROJECT["optional-dependencies"].values()]
    for line in (line for lines in lists for line in lines):
        assert re.fullmatch(r"[\w.-]+>=\d[\d.]*(;.*)?", line), line


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """The wheel's files, unpacked, from a checkout in which somebody has worked."""
    folder = tmp_path_factory.mktemp("wheel")
    for name in ("lib", "notebooks", "exercises", "solutions", ".ci"):
        shutil.copytree(TOP / name, folder / "copy" / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(TOP / name, folder / "copy" / name)
    for name in ("01-loading.ann.answers.json", "draft.ipynb", ".ipynb_checkpoints/01-loading.ipynb"):
        (folder / "copy/exercises" / name).parent.mkdir(exist_ok=True)
        (folder / "copy/exercises" / name).write_text("{}")
    built("wheel", folder / "copy", folder)
    (archive,) = folder.glob("*.whl")
    with zipfile.ZipFile(archive) as packed:
        packed.extractall(folder / "unpacked")
    return folder / "unpacked"


def test_the_built_package_holds_every_file_and_what_jupyterlab_looks_for(wheel):
    held = {p.relative_to(wheel).as_posix() for p in wheel.rglob("*") if p.is_file()}
    package = TOP / "lib" / "walkaround"
    files = (p for p in package.rglob("*") if p.is_file() and "__pycache__" not in p.parts)
    assert {p.relative_to(TOP / "lib").as_posix() for p in files} - held == set()
    data = {name.partition(".data/data/")[2] for name in held}
    assert f"share/jupyter/labextensions/walkaround-pages/static/{PAGES_SCRIPT.name}" in data
    assert "etc/jupyter/labconfig/default_setting_overrides.json" in data
    assert "etc/jupyter/jupyter_server_config.d/walkaround.json" in data


def test_a_changed_script_of_jupyterlab_gets_a_new_name():
    # JupyterLab tells browsers to keep such a file for a year, so under its old name nobody would get the new one.
    name = f"remoteEntry.{hashlib.sha256(PAGES_SCRIPT.read_bytes()).hexdigest()[:8]}.js"
    assert PAGES_SCRIPT.name == name
    assert f'"static/{name}"' in (PAGES_SCRIPT.parents[1] / "package.json").read_text(encoding="utf-8")


def test_the_built_package_lays_its_pages_out(wheel, tmp_path):
    def opened():
        command = [sys.executable, "-m", "walkaround", "open", str(tmp_path / "my pages"), "--lay-out-only"]
        own = {"PYTHONPATH": str(wheel)}
        done = subprocess.run(command, cwd=tmp_path, env=os.environ | own, capture_output=True, text=True)
        assert done.returncode == 0, done.stderr
        return done.stdout

    pages = [p for f in ("notebooks", "exercises", "solutions") for p in sorted((TOP / f).glob("[0-9][0-9]-*"))]
    pages = [p for p in pages if p.suffix in (".ipynb", ".csv")]
    assert opened() == f"The pages are in {tmp_path / 'my pages'}: {len(pages)} added, 0 renewed.\n"
    laid_out = {p.relative_to(tmp_path / "my pages") for p in tmp_path.rglob("[!.]*") if p.is_file()}
    assert laid_out == {p.relative_to(TOP) for p in pages}

    # The next version has both pages anew, and a student has changed one of them.
    for name in ("01-loading.ipynb", "02-securing.ipynb"):
        page = wheel / "walkaround/pages/exercises" / name
        page.write_text(page.read_text(encoding="utf-8").replace("pencil", "a pencil"), encoding="utf-8")
    mine = tmp_path / "my pages/exercises/01-loading.ipynb"
    mine.write_text(mine.read_text(encoding="utf-8").replace("pencil", "my red pencil"), encoding="utf-8")
    assert ": 0 added, 1 renewed.\n" in opened()
    assert "my red pencil" in mine.read_text(encoding="utf-8")
    assert "a pencil" in mine.with_name("02-securing.ipynb").read_text(encoding="utf-8")


def built(what, folder, into):
    """Call the build backend by itself, without the environment that pip and uv would fetch for it."""
    build = f"from hatchling.build import build_{what}; build_{what}({str(into)!r})"
    done = subprocess.run([sys.executable, "-c", build], cwd=folder, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_the_source_archive_holds_every_tracked_file(tmp_path):
    if not (TOP / ".git").exists():
        pytest.skip("no git checkout: an unpacked source archive can't list the tracked files")
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=TOP, capture_output=True, check=True, text=True).stdout
    tracked = {name for name in listed.split("\0") if name and (TOP / name).exists()}
    for name in tracked:
        (tmp_path / "copy" / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(TOP / name, tmp_path / "copy" / name)
    built("sdist", tmp_path / "copy", tmp_path / "dist")
    (archive,) = (tmp_path / "dist").glob("*.tar.gz")
    with tarfile.open(archive) as tar:
        held = {name.partition("/")[2] for name in tar.getnames() if not tar.getmember(name).isdir()}
    assert tracked - held == set()
    assert held - tracked == {"PKG-INFO"}
