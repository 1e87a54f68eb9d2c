"""Would the tests notice? Break the house in small ways, one at a time, and count who stays green.

A mutant is one operator, term, word of logic or constant changed. It is held against the tests that
run its line, the nearest file first, until they would take longer than the budget. Which test runs
which line is recorded once and kept in `var/mutants/`; a changed house is recorded anew.

    python -m tests.mutants [--count 100] [--seed N] [--within jobs/design] [--keep-map]
"""

from __future__ import annotations

import argparse
import hashlib
import multiprocessing
import os
import random
import shutil
import subprocess
import sys
from collections import Counter, defaultdict
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from queue import Queue
from xml.etree import ElementTree

import pytest
from coverage import CoverageData

from tests.mutations import Mutation, mutations

HOUSE = Path(__file__).parent.parent
KEPT = HOUSE / "var" / "mutants"
# A room is the longest of these a file lies in. Drawings are left out: most of their constants say
# where a stroke looks best, and no test should hold that.
ROOMS = ("wiring", "acoustics", "acoustics/carcass", "jobs/design", "jobs/pages")
# Words: a test of every code and every language holds them.
WORDS = "jobs/design/wording"
# Seconds of tests one mutant is held against, as they were recorded, and what makes it hang.
BUDGET = 45.0
PATIENCE = 4.0
START = 90.0

# What `make test` runs. A test of many cases may have long ones: named alone it would run them too.
ASKED = "not bench and not served and not long"

# Every mutant is tried in a process of its own, forked from one that holds no line of the house.
FORKED = multiprocessing.get_context("forkserver")
LIBRARIES = ["django.test", "numpy", "scipy.optimize", "shapely", "weasyprint"]

KILLED, CLOCK, SURVIVED, UNTESTED = "killed", "killed by the clock", "survived", "no test"


@dataclass(frozen=True, kw_only=True)
class Map:
    """Which test functions run which line of which file, and how long each takes."""

    by_line: dict[str, dict[int, set[str]]]
    seconds: dict[str, float]

    def tests(self, mutation: Mutation) -> list[str]:
        """Return the tests to ask, best first: those that run the line, then those of its file.

        What is worked out once for many tests counts as run by the first of them only; the others
        of the file stand in for them.
        """
        lines = self.by_line.get(mutation.path, {})
        on_line = set().union(*(lines.get(n, set()) for n in mutation.lines))
        in_file = set().union(*lines.values()) if lines else set()
        chosen: list[str] = []
        spent = 0.0
        for some in (on_line, in_file - on_line):
            for test in sorted(some, key=lambda t: (*_far(mutation.path, t), self.seconds[t], t)):
                if chosen and spent + self.seconds[test] > BUDGET:
                    continue
                chosen.append(test)
                spent += self.seconds[test]
        return chosen


def _far(source: str, test: str) -> tuple[bool, int]:
    """Say how far a test's file is from a source: another name, and folders not shared."""
    here = Path(source)
    there = Path(test.partition("::")[0])
    folders = zip(here.parts[:-1], there.parts[1:-1], strict=False)
    shared = 0
    for ours, theirs in folders:
        if ours != theirs:
            break
        shared += 1
    return here.stem != there.stem.removeprefix("test_"), -shared


def _room(path: str) -> str:
    return max((r for r in ROOMS if path.startswith(r + "/")), key=len)


def _sources() -> list[str]:
    """Return the files that are broken, by their place in the house."""
    files = {str(p.relative_to(HOUSE)) for room in ROOMS for p in (HOUSE / room).rglob("*.py")}
    return sorted(f for f in files if not f.startswith(WORDS + "/"))


def _print_of_house() -> str:
    digest = hashlib.sha256()
    for room in ("acoustics", "wiring", "jobs", "config", "tests", "templates"):
        for path in sorted((HOUSE / room).rglob("*")):
            if path.suffix in {".py", ".html"}:
                digest.update(str(path.relative_to(HOUSE)).encode())
                digest.update(path.read_bytes())
    return digest.hexdigest()


def record() -> None:
    """Run the tests once and keep which lines each of them runs."""
    shutil.rmtree(KEPT, ignore_errors=True)
    KEPT.mkdir(parents=True)
    sys.stdout.write("Recording which test runs which line …\n")
    command = [
        *(
            sys.executable,
            "-m",
            "pytest",
            "-n",
            "auto",
            "--dist",
            "worksteal",
            "-p",
            "no:cacheprovider",
        ),
        *("-m", ASKED),
        *(f"--cov={room}" for room in ROOMS if room != "acoustics/carcass"),
        *("--cov-context=test", "--cov-report="),
        *(f"--junitxml={KEPT / 'times.xml'}", "-o", "junit_family=xunit1"),
    ]
    environment = {**os.environ, "COVERAGE_FILE": str(KEPT / "coverage")}
    done = subprocess.run(command, cwd=HOUSE, env=environment, capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(f"The tests must pass before they are tried:\n{done.stdout[-3000:]}")
    (KEPT / "house").write_text(_print_of_house())


def read_map() -> Map:
    """Return what was recorded."""
    seconds: dict[str, float] = defaultdict(float)
    for case in ElementTree.parse(KEPT / "times.xml").iter("testcase"):
        name = str(case.get("name")).partition("[")[0]
        seconds[f"{case.get('file')}::{name}"] += float(case.get("time", 0))
    data = CoverageData(str(KEPT / "coverage"))
    data.read()
    by_line: dict[str, dict[int, set[str]]] = {}
    for file in data.measured_files():
        lines = {
            line: {test for context in contexts if (test := _function(context)) in seconds}
            for line, contexts in data.contexts_by_lineno(file).items()
        }
        by_line[str(Path(file).relative_to(HOUSE))] = lines
    return Map(by_line=by_line, seconds=dict(seconds))


@cache
def _function(context: str) -> str:
    """Return the test function of a recorded context, `file::test[case]|run`."""
    return context.partition("|")[0].partition("[")[0]


def _copy(to: Path) -> None:
    """Copy what belongs to the house, so that a mutant never stands in the work tree."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=HOUSE,
        capture_output=True,
        text=True,
        check=True,
    )
    shutil.rmtree(to, ignore_errors=True)
    for name in filter(None, listed.stdout.split("\0")):
        if (HOUSE / name).is_file():
            (to / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(HOUSE / name, to / name)


def _try(mutation: Mutation, tests: list[str], seconds: float, copy: Path, stamp: int) -> str:
    """Write a mutant into a copy of the house and run tests until the first fails."""
    if not tests:
        return UNTESTED
    place = copy / mutation.path
    whole = place.read_bytes()
    place.write_bytes(mutation.apply(whole))
    # Compiled modules are known by second and size: give every mutant a second of its own.
    os.utime(place, (stamp, stamp))
    end = _exit_of(tests, seconds, copy)
    place.write_bytes(whole)
    if end is None:
        return CLOCK
    # A mutant that cannot be imported ends so too; the whole house must not.
    if end == pytest.ExitCode.USAGE_ERROR and _exit_of(tests, seconds, copy):
        raise SystemExit("A recorded test is gone; record anew.")
    return KILLED if end else SURVIVED


def _exit_of(tests: list[str], seconds: float, copy: Path) -> int | None:
    """Return how pytest ends, or None when it would not."""
    run = FORKED.Process(target=_run, args=(copy, tests))
    run.start()
    run.join(START + PATIENCE * seconds)
    if run.exitcode is None:
        run.kill()
        run.join()
        return None
    return run.exitcode


def _run(copy: Path, tests: list[str]) -> None:
    """Run tests on a copy of the house, in a process that has read the libraries already."""
    os.chdir(copy)
    sys.path[0] = str(copy)
    for name in [name for name in sys.modules if name.partition(".")[0] == "tests"]:
        del sys.modules[name]
    with open(os.devnull, "w") as nowhere:
        os.dup2(nowhere.fileno(), 1)
        os.dup2(nowhere.fileno(), 2)
    sys.exit(pytest.main(["-x", "-n0", "-m", ASKED, "-p", "no:cacheprovider", *tests]))


def _all(chosen: list[Mutation], known: Map, workers: int) -> list[tuple[Mutation, str, int]]:
    FORKED.set_forkserver_preload(LIBRARIES)
    whole = KEPT / "whole"
    _copy(whole)
    tests = known.tests(chosen[0])
    if _exit_of(tests, sum(known.seconds[t] for t in tests), whole) != 0:
        raise SystemExit(f"The whole house must pass before it is broken: {tests}")
    copies: Queue[Path] = Queue()
    for number in range(workers):
        copy = KEPT / f"copy-{number}"
        _copy(copy)
        copies.put(copy)

    def held(numbered: tuple[int, Mutation]) -> tuple[Mutation, str, int]:
        number, mutation = numbered
        tests = known.tests(mutation)
        copy = copies.get()
        try:
            seconds = sum(known.seconds[t] for t in tests)
            end = _try(mutation, tests, seconds, copy, 1_000_000_000 + number)
        finally:
            copies.put(copy)
        if end in (SURVIVED, UNTESTED):
            sys.stdout.write(f"{end}: {mutation} ({len(tests)} tests)\n")
            sys.stdout.flush()
        return mutation, end, len(tests)

    with ThreadPoolExecutor(workers) as pool:
        return list(pool.map(held, enumerate(chosen)))


def _report(ends: list[tuple[Mutation, str, int]]) -> None:
    counted: dict[str, Counter[str]] = {room: Counter() for room in ROOMS}
    for mutation, end, _ in ends:
        counted[_room(mutation.path)][end] += 1
    sys.stdout.write(f"\n{'room':<20}{'mutants':>8}{'killed':>8}{'survived':>10}\n")
    for room, ended in {**counted, "all": sum(counted.values(), Counter())}.items():
        killed, stayed = ended[KILLED] + ended[CLOCK], ended[SURVIVED] + ended[UNTESTED]
        if ended:
            sys.stdout.write(f"{room:<20}{ended.total():>8}{killed:>8}{stayed:>10}\n")


def main() -> None:
    """Sample mutants, hold them against the tests and print who survived, by room."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    options.add_argument("--count", type=int, default=100)
    options.add_argument("--seed", type=int, default=random.randrange(10_000))
    options.add_argument("--within", default="", help="only files below this folder")
    options.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    options.add_argument("--keep-map", action="store_true", help="an older record will do")
    asked = options.parse_args()
    kept = KEPT / "house"
    if not kept.exists() or not (asked.keep_map or kept.read_text() == _print_of_house()):
        record()
    everything = [
        mutation
        for path in _sources()
        if path.startswith(asked.within)
        for mutation in mutations(path, (HOUSE / path).read_bytes())
    ]
    chosen = random.Random(asked.seed).sample(everything, min(asked.count, len(everything)))
    sys.stdout.write(f"seed {asked.seed}: {len(chosen)} of {len(everything)} mutants\n")
    sys.stdout.flush()
    _report(_all(chosen, read_map(), asked.workers))


if __name__ == "__main__":
    main()
