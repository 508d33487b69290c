"""One at a time: whoever writes a course's files holds its lock, so that nothing is lost when two do it at once."""

import os
import socket
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path

from filelock import FileLock, Timeout

from walkaround.assessment.files import write_whole

LOCK, HOLDER = ".walkaround.lock", ".walkaround.lock-holder"
WAIT_S = 30.0


@contextmanager
def locked(folder, doing, wait_s=WAIT_S):
    """Hold the lock of the course in a folder while the block runs; the system frees it if the process is killed.

    `doing` says in a word or two what for. Raises ValueError naming who holds the lock if it is not free in `wait_s`.
    """
    lock, holder = FileLock(Path(folder) / LOCK, mode=0o600), Path(folder) / HOLDER
    try:
        lock.acquire(timeout=wait_s)
    except Timeout:
        try:
            who = holder.read_text("utf-8")
        except (OSError, ValueError):
            who = "another process"
        raise ValueError(f"the course is in use: {who}. Try again when that is done") from None
    except NotImplementedError:
        yield  # a file system that can't lock: better to work without than not at all
        return
    try:
        since = f"{datetime.now():%H:%M}"
        with suppress(OSError):  # on a full disk something may still be done
            who = f"{doing} by process {os.getpid()} on {socket.gethostname()} since {since}"
            write_whole(holder, who.encode(), True)
        yield
    finally:
        holder.unlink(missing_ok=True)
        lock.release()
