"""Where a page is on its server: only the browser knows the server's address, only the kernel its own id."""

from pathlib import Path

from IPython import get_ipython

from walkaround.live.screen import sources

JS = sources("server_place.js", folder=Path(__file__).parent)  # its screen side


def kernel_id():
    """Return the kernel's id on its server, as its connection file has it; empty without a kernel."""
    config = getattr(get_ipython(), "config", {})
    return Path(config.get("IPKernelApp", {}).get("connection_file", "")).stem.removeprefix("kernel-")
