"""The workbook's pages in a folder of the reader's own: laid out, renewed, and never over a page that was changed."""

import errno
import hashlib
import importlib.util
import json
import subprocess
import sys
from pathlib import Path
from typing import NamedTuple

import walkaround
from walkaround.assessment.files import write_whole

FOLDERS = ("notebooks", "exercises", "solutions")
START = "notebooks/00-start-here.ipynb"
# In the home folder, so that the answers are found again from wherever the command is typed.
HOME = "~/walkaround-workbook"
RECORD = ".walkaround-pages.json"  # what each page was when it was laid out


class LaidOut(NamedTuple):
    """Names of the pages that were added and renewed, and of those kept although there is a new version of them."""

    folder: Path
    added: list[str]
    renewed: list[str]
    kept: list[str]

    def says(self):
        """Say in words what was done.

        >>> LaidOut(Path("wb"), ["a", "b"], [], ["c"]).says().splitlines()[0]
        'The pages are in wb: 2 added, 0 renewed.'
        """
        done = f": {len(self.added)} added, {len(self.renewed)} renewed" if self.added or self.renewed else ""
        lines = [f"The pages are in {self.folder}{done}."]
        if self.kept:
            lines += ["There are new versions of pages that you changed. Yours were left as they are:"]
            lines += [f"  {name}" for name in self.kept]
            lines += ["To get a new version, give your page another name and type this command again."]
        return "\n".join(lines)


def source():
    """Return the folder that the pages come from: one in the package, or the checkout that the package is part of."""
    package = Path(walkaround.__file__).resolve().parent
    inside = package / "pages"
    return inside if inside.is_dir() else package.parents[1]


def lay_out(folder):
    """Lay the pages out in a folder, which is made if need be; raises ValueError or OSError where it can't be done.

    A page that is there and unchanged is renewed, and a changed one is kept; nothing else in the folder is touched.
    """
    origin, folder = source(), Path(folder).expanduser().absolute()
    done = LaidOut(folder, [], [], [])
    if folder.resolve() == origin:
        return done
    try:
        for name in FOLDERS:
            (folder / name).mkdir(parents=True, exist_ok=True)
        record = _read_record(folder / RECORD)
        for page in _pages(origin):
            _lay(page, page.relative_to(origin).as_posix(), record, done)
        write_whole(folder / RECORD, json.dumps(record, indent=1).encode())
    except (FileExistsError, NotADirectoryError, IsADirectoryError) as error:
        way = next(path for path in (Path(error.filename), *Path(error.filename).parents) if path.exists())
        raise ValueError(
            f"the pages can't be laid out in {folder}: {way} is in the way. Move it, or choose another folder."
        ) from None
    except OSError as error:
        if error.errno not in (errno.EACCES, errno.EPERM, errno.EROFS):
            raise
        raise ValueError(f"{error.filename} can't be read or written. Choose another folder for the pages.") from None
    return done


def _pages(origin):
    """The files that belong to the workbook: what someone did in a checkout, their answers for one, does not."""
    for name in FOLDERS:
        yield from sorted(p for p in (origin / name).glob("[0-9][0-9]-*.*") if p.suffix in (".ipynb", ".csv"))


def _lay(page, name, record, done):
    there, data = done.folder / name, page.read_bytes()
    ours, laid = _digest(data), record.get(name)
    found = _digest(there.read_bytes()) if there.exists() else None
    if found not in (None, ours, laid):
        if laid != ours:
            done.kept.append(name)
        return
    if found != ours:
        (done.renewed if found else done.added).append(name)
        write_whole(there, data, sync=False)
    record[name] = ours


def _digest(data):
    """A hash of what people write in a page: JupyterLab also saves outputs, empty cells and more, which don't count."""
    try:
        cells = [(c["cell_type"], "".join(c["source"]), c.get("attachments")) for c in json.loads(data)["cells"]]
        data = json.dumps([(kind, text, more or {}) for kind, text, more in cells if text.strip()]).encode()
    except (ValueError, TypeError, KeyError, RecursionError):
        pass  # a table, or a notebook that is broken: every byte counts
    return hashlib.sha256(data).hexdigest()


def _read_record(path):
    try:
        return dict(json.loads(path.read_bytes()))
    except (ValueError, TypeError, FileNotFoundError):
        return {}  # then every page that differs counts as changed


def lab_command():
    """Return what starts JupyterLab at the start page, in the pages' folder; raises ValueError where there is none."""
    if importlib.util.find_spec("jupyterlab") is None:
        raise ValueError("JupyterLab is not installed; install it with: python -m pip install jupyterlab")
    # -P: no module in the reader's folder takes the place of one that JupyterLab imports.
    return [sys.executable, "-P", "-m", "jupyterlab", "--notebook-dir=.", START]


def run(command, folder):
    """Run JupyterLab until it ends. Ctrl+C goes to it too, and it asks whether to end, so here it is passed over."""
    with subprocess.Popen(command, cwd=folder) as lab:
        while True:
            try:
                return lab.wait()
            except KeyboardInterrupt:
                continue
