"""Handing out at login on a shared machine: a student's zip is unpacked into their home, under their own account.

The hub runs as root, and root must not write into a folder that somebody else may fill with links.
"""

import io
import os
import subprocess
import sys
import zipfile
from pathlib import Path
from typing import Any

from walkaround.assessment.answer_sheet import ENDING
from walkaround.assessment.files import write_whole
from walkaround.classroom.texts import file_stem

MOST_BYTES = 20_000_000


def hand_out_at_login(handed_out, folder, as_user=True):
    """Return a hook for a JupyterHub spawner: it puts what was handed out into a folder of the student's home.

    With `as_user` the zip is unpacked under the student's account; for that the hub has to run as root.
    """

    def hook(spawner):
        name = spawner.user.name
        zipped = Path(handed_out) / f"{file_stem(name)}.zip"
        data = zipped.read_bytes() if zipped.is_file() else b""
        under: dict[str, Any] = {}
        if as_user:
            import pwd  # not on Windows, where there is no such hub either

            account = pwd.getpwnam(name)
            home = account.pw_dir
            under = {"user": account.pw_uid, "group": account.pw_gid, "extra_groups": []}
        else:
            home = spawner.home_dir
        # Isolated, and with an environment of its own: the hub's holds tokens, and the student may read this process's.
        command = [sys.executable, "-I", "-m", "walkaround.classroom.hub", str(Path(home) / folder)]
        environment = {"PATH": os.defpath, "HOME": str(home), "LANG": "C.UTF-8"}
        done = subprocess.run(command, input=data, capture_output=True, cwd="/", env=environment, timeout=60, **under)
        if done.returncode:
            # The student can still work with what they have.
            spawner.log.warning("nothing handed out to %s: %s", name, done.stderr.decode("utf-8", "replace")[-500:])

    return hook


def unpack(data, folder):
    """Write what a handed-out zip holds into a folder; answer sheets, and notebooks that are there, stay as they are.

    Folders in the zip are ignored. Returns the names of the files written.
    """
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    if not data:
        return []
    written = []
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        if sum(e.file_size for e in archive.infolist()) > MOST_BYTES:
            raise ValueError("the zip is too large to be what was handed out")
        for entry in archive.infolist():
            name = Path(entry.filename).name
            path = folder / name
            if entry.is_dir() or name.endswith(ENDING) or (name.endswith(".ipynb") and path.exists()):
                continue
            if not path.exists() or path.read_bytes() != archive.read(entry):
                write_whole(path, archive.read(entry))
                written.append(name)
    return written


if __name__ == "__main__":
    os.umask(0o077)
    unpack(sys.stdin.buffer.read(MOST_BYTES), sys.argv[1])
