"""Read when Python starts with this folder on PYTHONPATH: it may talk to its own machine, and is refused any other.

What it tried is written to the file that WALKAROUND_REACHED_OUT names, a line for each.
"""

import os
import socket
import sys

LOG = os.environ.get("WALKAROUND_REACHED_OUT")
NAMED = {"socket.getaddrinfo", "socket.gethostbyname"}  # events of Python's audit hooks
REACHED = {"socket.connect", "socket.sendto", "socket.sendmsg"}


def refuse(event, arguments):
    """Raise an error where a name or an address is not this machine's."""
    if event not in NAMED | REACHED:
        return
    host = arguments[0] if event in NAMED else arguments[1]
    host = host[0] if isinstance(host, tuple) else host if event in NAMED else None  # none: a socket in the file system
    host = host.decode() if isinstance(host, bytes) else host
    if not host or host in ("localhost", "::1", socket.gethostname()) or host.startswith("127."):
        return
    with open(LOG, "a", encoding="utf-8") as log:
        log.write(f"{event} {host} by {' '.join(sys.argv[:3])}\n")
    raise OSError(f"{event}: {host} is not this machine")


if LOG:
    sys.addaudithook(refuse)
