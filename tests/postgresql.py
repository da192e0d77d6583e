"""A PostgreSQL server of our own, thrown away after the tests."""

import os
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

SERVER_USER = "postgres"


def programs() -> Path | None:
    """The folder with initdb and pg_ctl: on the PATH, or the newest of Debian's."""
    found = shutil.which("initdb")
    if found and shutil.which("pg_ctl"):
        return Path(found).parent
    packaged = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda folder: int(folder.parent.name))
    return next((folder for folder in reversed(packaged) if (folder / "initdb").exists()), None)


@contextmanager
def cluster(folder: Path) -> Iterator[str]:
    """The URL of an empty database on a fresh server."""
    with tempfile.TemporaryDirectory(prefix="pellicle-pg-") as place:
        data = Path(place) / "data"
        _own(Path(place))
        _run(folder / "initdb", "--auth=trust", "--username=cook", "--no-sync", "-D", data)
        port = _free_port()
        options = f"-h 127.0.0.1 -p {port} -k {place} -c fsync=off"
        _run(folder / "pg_ctl", "-D", data, "-w", "-o", options, "-l", Path(place) / "log", "start")
        try:
            yield f"postgresql://cook@127.0.0.1:{port}/postgres"
        finally:
            _run(folder / "pg_ctl", "-D", data, "-m", "immediate", "stop")


def _own(place: Path) -> None:
    """The server refuses to run as root: its folder goes to the user that it runs as."""
    if os.geteuid() == 0:
        shutil.chown(place, SERVER_USER, SERVER_USER)


def _run(*command: object) -> None:
    become = ["setpriv", f"--reuid={SERVER_USER}", f"--regid={SERVER_USER}", "--init-groups"]
    prefix = become if os.geteuid() == 0 else []
    environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8"}
    words = [*prefix, *map(str, command)]
    subprocess.run(words, check=True, cwd="/", env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def _free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])
