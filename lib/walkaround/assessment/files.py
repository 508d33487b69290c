"""Writing files so that a name always holds the old or the new content, and private ones nobody else can read."""

import os
import secrets
from pathlib import Path

PART = ".part"  # ending of a file that is being written


def write_whole(path: str | Path, data: bytes, private: bool = False, sync: bool = True) -> None:
    """Write a file so that its name always holds the old or the new content, never a part: beside it, then renamed.

    A private file can be read by its owner only, from its first byte; another has the mode that the umask gives it.
    Without `sync` its folder is not synced: whoever writes many files there calls `sync_folder` after the last.
    Raises OSError with the name of the file; the old file is then as it was.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     write_whole(Path(folder) / "a.txt", b"whole")
    ...     (Path(folder) / "a.txt").read_text()
    'whole'
    """
    path = Path(path)
    temporary = path.with_name(f".{path.name}.{secrets.token_hex(4)}{PART}")
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
    handle = os.open(temporary, flags, 0o600 if private else 0o666)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(temporary, path)
    except BaseException as error:
        temporary.unlink(missing_ok=True)
        if isinstance(error, OSError):
            error.filename = str(path)  # the system does not say which file had no room
        raise
    if sync:
        sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Wait until the folder's list of names is on disk; Windows can't, and does not need it.

    >>> sync_folder(Path("."))
    """
    if hasattr(os, "O_DIRECTORY"):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def private_folder(path: str | Path) -> Path:
    """Make a folder that only its owner can look into, or close one that is there; returns its path.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     private_folder(Path(folder) / "results").is_dir()
    True
    """
    path = Path(path)
    path.mkdir(mode=0o700, parents=True, exist_ok=True)
    if os.name == "posix" and path.stat().st_mode & 0o077:
        path.chmod(0o700)
    return path


def remove_parts(folder: str | Path) -> None:
    """Remove what a write that was stopped half way has left in a folder.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     _ = (Path(folder) / f".gradebook.csv.1a2b{PART}").write_text("half")
    ...     remove_parts(folder)
    ...     list(Path(folder).iterdir())
    []
    """
    for left in Path(folder).glob(f".*{PART}"):
        left.unlink(missing_ok=True)
