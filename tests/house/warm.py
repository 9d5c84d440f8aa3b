"""Tests kept warm for `mutation.py`: pytest and the tool are loaded once, and each flip is tried in a fork of that.

A flip inside a function is put in by giving the loaded function another code, wherever it was imported to; one that
only an import would show is written into the copy and tried by a fork that had not loaded the tool yet.
"""

from __future__ import annotations

import ast
import gc
import importlib
import os
import signal
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from types import CodeType, FunctionType
from typing import NoReturn

import pytest
from tests.house.flips import Flip, flipped

PACKAGE = "tool/axlebook"
NO_PLUGINS = ("-p", "no:cacheprovider", "-p", "no:cov", "-p", "no:randomly")
# As the project's own settings, but for the words on the terminal.
LIKE_US = ("-o", "addopts=", "--doctest-modules", "--import-mode=importlib", "--tb=no", "--capture=sys",
           "-m", "not browser and not fuzz and not slow")  # fmt: skip
LEAST_SECONDS, TIMES_LONGER = 20, 10  # of the processor's time, before a flip is held to have made a loop endless
NOT_NOTICED, NOTICED, NOT_TO_BE_PUT_IN = 0, 1, 3


class Met:
    """What came past: of each test its seconds, whether it passed, and its lines by module."""

    def __init__(self) -> None:
        self.seconds: dict[str, float] = {}
        self.failing: set[str] = set()
        self.lines: dict[str, dict[str, set[int]]] = {}
        self._breadth: dict[str, int] = {}

    def tests_past(self, module: str, lines: Sequence[int]) -> list[str]:
        """The tests that came past a line, and passed."""
        wanted = set(lines)
        return [
            name
            for name, met in self.lines.items()
            if name not in self.failing and not wanted.isdisjoint(met.get(module, ()))
        ]

    def breadth(self, test: str) -> int:
        """How many lines a test comes past in all."""
        found = self._breadth.get(test)
        if found is None:
            found = self._breadth[test] = sum(map(len, self.lines[test].values()))
        return found


def stand_in(copy: Path) -> None:
    """Make a copy the place that this process and its children read the tool and the tests from."""
    top = Path(__file__).resolve().parents[2]
    os.chdir(copy)
    os.environ.update({"PYTHONPATH": str(copy / "tool"), "PYTHONDONTWRITEBYTECODE": "1"})
    sys.dont_write_bytecode = True
    sys.path[:] = [str(copy), str(copy / "tool"), *(p for p in sys.path if p not in ("", str(top), str(top / "tool")))]
    for name in [name for name in sys.modules if name.split(".")[0] in ("tests", "axlebook")]:
        del sys.modules[name]


def load_what_is_not_ours() -> None:
    """Load what is slow to load; and read the cases' YAML five times as fast."""
    import hypothesis
    import yaml

    for name in (
        "jsonschema",
        "numpy",
        "scipy.optimize",
        "scipy.stats",
        "pint",
        "ruamel.yaml",
        "rich",
        "click",
        "jinja2",
        "git",
    ):
        importlib.import_module(name)
    yaml.BaseLoader = yaml.CBaseLoader  # type: ignore[misc,assignment]
    phases = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
    hypothesis.settings.register_profile("flips", deadline=None, derandomize=True, database=None, phases=phases)
    hypothesis.settings.load_profile("flips")


class Loop:
    """A plugin that hands pytest's collected tests to somebody, in place of running them all."""

    def __init__(self, use: Callable[[dict[str, pytest.Item]], None]) -> None:
        self.use = use

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.use({item.nodeid: item for item in session.items})
        return True


class Heard:
    """A plugin that remembers whether a test has failed."""

    def __init__(self) -> None:
        self.failed = False

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.failed = self.failed or report.failed


def with_collected(asked: Sequence[str], temporary: Path, use: Callable[[dict[str, pytest.Item]], None]) -> None:
    """Collect tests once and hand them on; nothing is printed."""
    silence()
    pytest.main([*NO_PLUGINS, *LIKE_US, f"--basetemp={temporary}", *asked], plugins=[Loop(use)])


def silence() -> None:
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)


def run_one(item: pytest.Item, following: pytest.Item | None, heard: Heard) -> None:
    item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)


def come_past(items: Sequence[pytest.Item], copy: Path, rooms: Sequence[str], met: Met) -> None:
    """Run tests with nothing flipped, and note the lines each comes past."""
    import coverage

    package = copy / PACKAGE
    measured = coverage.Coverage(data_file=None, config_file=False, include=[f"{package / room}/*" for room in rooms])
    heard = Heard()
    items[0].config.pluginmanager.register(heard)
    measured.start()
    for item, following in zip(items, [*items[1:], None], strict=True):
        measured.switch_context(item.nodeid)
        heard.failed = False
        started = time.process_time()
        run_one(item, following, heard)
        met.seconds[item.nodeid] = time.process_time() - started
        if heard.failed:
            met.failing.add(item.nodeid)
    measured.stop()
    for item in items:
        met.lines.setdefault(item.nodeid, {})
    told = measured.get_data()
    for path in told.measured_files():
        module = Path(path).relative_to(package).as_posix()
        for line, names in told.contexts_by_lineno(path).items():
            for name in filter(None, names):
                met.lines[name].setdefault(module, set()).add(line)


class Warm:
    """The loaded tool: its functions by their code, and the collected tests by name."""

    def __init__(self, items: Mapping[str, pytest.Item], copy: Path, rooms: Sequence[str]) -> None:
        self.items, self.package = items, copy / PACKAGE
        for room in rooms:
            for path in sorted((self.package / room).glob("*.py")):
                parts = path.relative_to(self.package.parent).with_suffix("").parts
                importlib.import_module(".".join(part for part in parts if part != "__init__"))
        self.functions: dict[str, list[FunctionType]] = {}
        for found in gc.get_objects():
            if isinstance(found, FunctionType) and found.__code__.co_filename.startswith(str(self.package)):
                self.functions.setdefault(found.__code__.co_filename, []).append(found)
        gc.collect()
        gc.freeze()

    def tries(self, flip: Flip, tests: Sequence[str], seconds: Mapping[str, float]) -> int:
        """Try a flip in a fork: noticed, not noticed, or not to be put in here."""
        child = os.fork()
        if child == 0:
            self._try(flip, tests, seconds)
        _, status = os.waitpid(child, 0)
        return NOTICED if os.WIFSIGNALED(status) else os.WEXITSTATUS(status)

    def _try(self, flip: Flip, tests: Sequence[str], seconds: Mapping[str, float]) -> NoReturn:
        code = NOTICED
        try:
            code = self._tried(flip, tests, seconds)
        finally:
            os._exit(code)

    def _tried(self, flip: Flip, tests: Sequence[str], seconds: Mapping[str, float]) -> int:
        if not self._put_in(flip):
            return NOT_TO_BE_PUT_IN
        chosen = [self.items[name] for name in tests]
        heard = Heard()
        chosen[0].config.pluginmanager.register(heard)
        for item, following in zip(chosen, [*chosen[1:], None], strict=True):
            # An alarm ends what never ends.
            signal.setitimer(signal.ITIMER_PROF, LEAST_SECONDS + TIMES_LONGER * seconds.get(item.nodeid, 1))
            run_one(item, following, heard)
            if heard.failed:
                return NOTICED
        return NOT_NOTICED

    def _put_in(self, flip: Flip) -> bool:
        path = self.package / flip.module
        source = path.read_text(encoding="utf-8")
        was = list(_codes(compile(ast.parse(source), str(path), "exec")))
        now = list(_codes(compile(flipped(source, flip.number), str(path), "exec")))
        if len(was) != len(now):
            return False
        changed = {old: new for old, new in zip(was[1:], now[1:], strict=True) if old != new}
        put_in = False
        for function in self.functions.get(str(path), ()):
            if new := changed.get(function.__code__):
                function.__code__ = new
                put_in = True
        return put_in


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield from _codes(part)


def tries_anew(flip: Flip, tests: Sequence[str], copy: Path) -> int:
    """Try a flip in a fork that has loaded nothing of ours, and reads it as it imports."""
    place = copy / PACKAGE / flip.module
    was = place.read_bytes()
    place.write_text(ast.unparse(flipped(was.decode(), flip.number)), encoding="utf-8")
    try:
        child = os.fork()
        if child == 0:
            _run_anew(tests, copy)
        _, status = os.waitpid(child, 0)
        return NOTICED if status else NOT_NOTICED
    finally:
        place.write_bytes(was)


def _run_anew(tests: Sequence[str], copy: Path) -> NoReturn:
    code = NOTICED
    try:
        silence()
        signal.setitimer(signal.ITIMER_PROF, 120)
        code = int(pytest.main(["-x", *NO_PLUGINS, *LIKE_US, f"--basetemp={copy.parent / 'anew'}", *tests]))
    finally:
        os._exit(code)
