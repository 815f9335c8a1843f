import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

PATIENCE = 300
"""Seconds; a rebuild takes a few, and a loaded machine many times that."""


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def serving(folder: Path, port: int) -> Iterator[None]:
    process = subprocess.Popen(
        [sys.executable, "-m", "guidegen", "serve", "--address", f"127.0.0.1:{port}"],
        cwd=folder,
        env={**os.environ, "PYTHONWARNINGS": ""},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        yield
    finally:
        process.terminate()
        process.wait(timeout=PATIENCE)


def page_holds(port: int, path: str, words: str) -> bool:
    """Wait until the page holds *words*, or say no."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            address = f"http://127.0.0.1:{port}/{path}"
            with urllib.request.urlopen(address, timeout=5) as answer:
                if words in answer.read().decode().replace("\u00a0", " "):
                    return True
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            pass
        time.sleep(0.2)
    return False


def test_a_saved_spec_is_shown_without_starting_again(few: Path) -> None:
    spec = few / "specs" / "models" / "drumlin-72.yml"
    port = free_port()

    with serving(few, port):
        assert page_holds(port, "T-17/air-brakes.html", "130 psi")
        text = spec.read_text(encoding="utf-8")
        spec.write_text(text.replace("cut_out: 130 psi", "cut_out: 128 psi"), encoding="utf-8")

        assert page_holds(port, "T-17/air-brakes.html", "128 psi")
