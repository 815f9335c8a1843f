"""The machine on which figures were taken, in words.

Takes in a folder on the disk that was written to; gives out name and value of each property.
Refuses nothing: what a system does not tell is "unknown".
"""

import os
import platform
import re
import subprocess
import time
from importlib.metadata import version
from pathlib import Path

UNKNOWN = "unknown"


def describe(folder: Path) -> dict[str, str]:
    """Return what the figures depend on."""
    return {
        "date": time.strftime("%Y-%m-%d"),
        "processor": _processor(),
        "cores": str(os.cpu_count() or UNKNOWN),
        "memory": _memory(),
        "disk": _disk(folder),
        "system": f"{platform.system()} {platform.release()} {platform.machine()}",
        "Python": platform.python_version(),
        "guidegen": version("guidegen"),
        "busy before": _load(),
    }


def _processor() -> str:
    named = re.search(r"model name\s*:\s*(.+)", _text(Path("/proc/cpuinfo")))
    return named[1] if named else platform.processor() or UNKNOWN


def _memory() -> str:
    total = re.search(r"MemTotal:\s*(\d+)", _text(Path("/proc/meminfo")))
    return f"{int(total[1]) / 2**20:.0f} GiB" if total else UNKNOWN


def _disk(folder: Path) -> str:
    """Return file system, device, and whether it turns. Source: sysfs, ``queue/rotational``."""
    try:
        asked = ["df", "--output=source,fstype", str(folder)]
        device, kind = subprocess.run(
            asked, capture_output=True, text=True, check=True
        ).stdout.split()[-2:]
    except (OSError, subprocess.CalledProcessError, ValueError):
        return UNKNOWN
    turns = _text(Path("/sys/class/block", Path(device).name, "queue/rotational")).strip()
    turning = {"0": "solid state or virtual", "1": "turning or virtual"}.get(turns, "not told")
    return f"{kind} on {device} ({turning})"


def _load() -> str:
    if not hasattr(os, "getloadavg"):
        return UNKNOWN
    return f"{os.getloadavg()[0]:.1f} processes on average in the minute before"


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except OSError:
        return ""
