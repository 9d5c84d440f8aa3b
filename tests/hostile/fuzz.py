"""Search, led by what code is reached, for a text that crashes axlebook: a command of its own, and 60 s of `.ci/run`.

    python -m tests.hostile.fuzz                       # 60 s: records, then rows of a CSV
    python -m tests.hostile.fuzz records --seconds 600
    python -m tests.hostile.fuzz records --seconds 600 --keep new/   # what reached new code is kept there, made small

It needs atheris, which has wheels for Linux: pip install -e '.[fuzz]'. Exit 0: nothing found. 1: something was; each
input is printed as base64, to be put into tests/hostile/corpus/ once what it found is mended. 2: it cannot run here.
"""

from __future__ import annotations

import argparse
import base64
import subprocess
import sys
import tempfile
from importlib.util import find_spec
from pathlib import Path

HERE = Path(__file__).parent
CORPUS = {"records": HERE / "corpus" / "records", "rows": HERE / "corpus" / "rows"}
LARGEST = {"records": 6000, "rows": 3000}  # bytes of an input


def main() -> int:
    """Search for a while in a process of its own; tell what was found."""
    asked = _arguments().parse_args()
    if find_spec("atheris") is None:
        print("atheris is not installed, and so nothing was searched: pip install -e '.[fuzz]' (Linux has wheels).")
        return 2
    targets = [asked.target] if asked.target else list(CORPUS)
    return max(_search(target, asked.seconds // len(targets), asked.keep) for target in targets)


def _arguments() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="python -m tests.hostile.fuzz", description=(__doc__ or "").split("\n")[0])
    parser.add_argument("target", nargs="?", choices=list(CORPUS), help="what is fed; both where none is named")
    parser.add_argument("--seconds", type=int, default=60, help="for how long (60)")
    parser.add_argument("--keep", type=Path, help="a folder for the inputs that reached new code")
    return parser


def _search(target: str, seconds: int, keep: Path | None) -> int:
    with tempfile.TemporaryDirectory() as room:
        found, new = Path(room, "found"), Path(room, "new")
        found.mkdir()
        new.mkdir()
        limits = [f"-max_total_time={seconds}", "-timeout=20", "-rss_limit_mb=3000", f"-max_len={LARGEST[target]}"]
        code = _libfuzzer(target, [*limits, f"-artifact_prefix={found}/", str(new), str(CORPUS[target])])
        if keep is not None:
            keep = keep.absolute()
            keep.mkdir(parents=True, exist_ok=True)
            _libfuzzer(target, ["-merge=1", f"-max_len={LARGEST[target]}", str(keep), str(CORPUS[target]), str(new)])
        for path in sorted(found.iterdir()):
            print(f"\n{path.name} ({target}), as base64:\n{base64.b64encode(path.read_bytes()).decode()}")
        print(f"{target}: {seconds} s, {len(list(new.iterdir()))} inputs reached new code, exit {code}", flush=True)
        return int(code != 0 or any(found.iterdir()))


def _libfuzzer(target: str, arguments: list[str]) -> int:
    child = [sys.executable, "-m", "tests.hostile.fuzz_feed", target, *arguments]
    return subprocess.run(child, cwd=HERE.parents[1], check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
