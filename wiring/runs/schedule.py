"""Lists made from the runs of a job: wire schedule, crimp list and fuse map."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from wiring.cable.markings import RunKind, split_label
from wiring.cable.terminals import (
    CrimpTerminal,
    bend_radius,
    check_passages,
    check_stud,
    check_terminal,
    check_terminal_size,
    pull_force,
)
from wiring.errors import (
    Id,
    OutsideTableError,
    WiringError,
    require_positive,
)
from wiring.findings import END, END_FUSE, START, START_FUSE, Finding
from wiring.names import Name
from wiring.runs.labelled import Allowance, Core, Cut, LabelledRun
from wiring.sources import Source


@dataclass(frozen=True, kw_only=True)
class ScheduleRow:
    """One line of the wire schedule; None where the run does not tell.

    Attributes:
        run: the run
        cut_length: length to cut of each core, or of the one cable [m]
        pieces: lengths to cut of a core that its fuses part, from its start; none where no fuse
            does or nobody knows where it does [m]
        supports: number of clips [-]
        bend_radius: smallest inner radius of its thickest core [m]
    """

    run: LabelledRun
    cut_length: float | None
    pieces: tuple[float, ...]
    supports: int | None
    bend_radius: float | None


@dataclass(frozen=True, kw_only=True)
class CrimpRow:
    """One crimped end; None where a figure does not exist or is not known.

    Attributes:
        run: the run
        at_start: True for the start of the run, False for its end
        core: the conductor and its colour
        number: which of the run's cores it is, counted from 1 [-]
        cut: the fuse it ends at, before the fuse where `at_start`; None at an end of the run
        terminal: the terminal, None when not chosen
        pull_force: force to hold in a pull test, None for other metals than copper, for sizes
            outside the published table, for a screen and for what is not crimped [N]
    """

    run: LabelledRun
    at_start: bool
    core: Core
    number: int
    terminal: CrimpTerminal | None
    pull_force: float | None
    cut: Cut | None = None

    @property
    def is_crimped(self) -> bool:
        """Whether a crimp is made here: no plug, no screen.

        Returns: whether
        """
        plugged = self.terminal is not None and not self.terminal.crimped
        return not plugged and not self.core.screen

    @property
    def label(self) -> str:
        """What is written on this core: that of the run, with the sign of a supply.

        Returns: label, such as "P03 +"
        """
        return f"{self.run.label} {self.core.sign}".rstrip()

    @property
    def place(self) -> str:
        """Where this end is.

        Returns: place in words
        """
        if self.cut:
            return self.cut.fuse
        own = self.core.start_place if self.at_start else self.core.end_place
        return own or (self.run.start if self.at_start else self.run.end)

    @property
    def where(self) -> str:
        """Where in the car that place is.

        Returns: place in words, empty where nobody noted it
        """
        if self.cut:
            return self.cut.where
        return self.core.start_where if self.at_start else self.core.end_where

    @property
    def noted_stud(self) -> str:
        """The stud noted at its place.

        Returns: stud, empty where nobody noted it
        """
        if self.cut:
            return self.cut.stud
        return self.core.start_stud if self.at_start else self.core.end_stud

    @property
    def stud(self) -> str:
        """The stud it goes on, as noted at its place or else by its terminal.

        Returns: stud, empty where none
        """
        return self.noted_stud or (self.terminal.stud if self.terminal else "")

    @property
    def torque(self) -> float | None:
        """Tightening torque: that of the place, or else of the terminal's sheet.

        Returns: torque, None where there is no stud or nobody entered it [N·m]
        """
        own = self.core.start_torque if self.at_start else self.core.end_torque
        at_fuse = self.cut is not None
        return (None if at_fuse else own) or (self.terminal.torque if self.terminal else None)


@dataclass(frozen=True, kw_only=True)
class FuseEntry:
    """One fuse or breaker of the job; None means not entered.

    Attributes:
        label: its label
        place: where a person finds it
        style: body style, as its part sheet calls it
        rating: rated current [A]

    Raises:
        OutOfRangeError: the rating is not above 0.
    """

    label: str
    place: str
    style: str
    rating: float | None

    def __post_init__(self) -> None:
        """Refuse a rating that cannot be."""
        if self.rating is not None:
            require_positive(name=Name.FUSE_RATING, value=self.rating, unit="A", about=self.label)


@dataclass(frozen=True, kw_only=True)
class FuseRow:
    """One line of the fuse map.

    Attributes:
        fuse: the fuse
        runs: labels of the runs it protects, none when it is spare
    """

    fuse: FuseEntry
    runs: tuple[str, ...]


def wire_schedule(runs: Sequence[LabelledRun], allowance: Allowance) -> tuple[ScheduleRow, ...]:
    """Wire schedule of a job, in the order of the labels.

    Args:
        runs: the runs
        allowance: what is cut beyond the length of the route

    Returns: one row for each run

    Raises:
        WiringError: two runs carry the same label.

    Source: support spacing of ISO 10133:2012; bend radius, see terminals.bend_radius
    """
    rows = []
    for run in sort_runs(runs):
        diameters = [core.conductor.outer_diameter for core in run.cores]
        known = [diameter for diameter in diameters if diameter is not None]
        rows.append(
            ScheduleRow(
                run=run,
                cut_length=None if run.length is None else allowance.cut_length(run.length),
                pieces=_pieces(run, allowance),
                supports=run.supports,
                bend_radius=bend_radius(outer_diameter=max(known))
                if len(known) == len(diameters)
                else None,
            )
        )
    return tuple(rows)


def crimp_list(runs: Sequence[LabelledRun]) -> tuple[CrimpRow, ...]:
    """Every end of every core with the force its crimp must hold.

    Args:
        runs: the runs

    Returns: two rows for each core and two more for each fuse in it, in the order of the labels

    Raises:
        WiringError: two runs carry the same label.

    Source: see terminals.pull_force
    """
    return tuple(
        CrimpRow(
            run=run,
            at_start=at_start,
            core=core,
            number=number,
            terminal=terminal,
            pull_force=_pull_force(core, terminal),
            cut=cut,
        )
        for run in sort_runs(runs)
        for number, core in enumerate(run.cores, start=1)
        for at_start, terminal, cut in _ends(core)
    )


def _ends(core: Core) -> list[tuple[bool, CrimpTerminal | None, Cut | None]]:
    """Every end along a core: that of the run, into each fuse and out of it, that of the run."""
    at_fuses = [(before, cut.terminal, cut) for cut in core.cuts for before in (True, False)]
    return [(True, core.start, None), *at_fuses, (False, core.end, None)]


def _pieces(run: LabelledRun, allowance: Allowance) -> tuple[float, ...]:
    """Lengths to cut of the first core, the one its fuses stand in."""
    cuts = run.cores[0].cuts
    if not cuts or run.length is None:
        return ()
    points = [0.0]
    for cut in cuts:
        if cut.distance is None:
            return ()
        points.append(cut.distance if cut.at_start else run.length - cut.distance)
    points.append(run.length)
    lengths = [after - before for before, after in pairwise(points)]
    if min(lengths) < 0.0:
        return ()  # a fuse farther than its run is long, which is said elsewhere
    return tuple(allowance.cut_length(length) for length in lengths)


def fuse_map(fuses: Sequence[FuseEntry], runs: Sequence[LabelledRun]) -> tuple[FuseRow, ...]:
    """Which fuse protects which runs, sorted by place and label.

    Args:
        fuses: every fuse and breaker
        runs: the runs

    Returns: one row for each fuse

    Raises:
        WiringError: two fuses or two runs carry the same label, or a run names a fuse that is
            not there.

    Source: definition
    """
    labels = [fuse.label for fuse in fuses]
    _refuse_duplicates(Name.FUSE_LABEL, labels)
    known = set(labels)
    for run in runs:
        for guard in run.fuses:
            if guard not in known:
                raise WiringError(Name.FUSE, Id(guard), about=run.label, to_be="known-fuse")
    protected: dict[str, list[str]] = {label: [] for label in labels}
    for run in sort_runs(runs):
        for guard in run.fuses:
            protected[guard].append(run.label)
    return tuple(
        FuseRow(fuse=fuse, runs=tuple(protected[fuse.label]))
        for fuse in sorted(fuses, key=lambda fuse: (fuse.place, fuse.label))
    )


def check_schedule(runs: Sequence[LabelledRun]) -> tuple[Finding, ...]:
    """Findings on the lengths, ends and passages of the runs.

    Args:
        runs: the runs

    Returns: findings, in the order of the labels

    Raises:
        WiringError: two runs carry the same label.

    Source: see terminals
    """
    findings: list[Finding] = []
    for run in sort_runs(runs):
        if run.length is None:
            findings.append(Finding(code="run-length-unknown", about=run.id, unit="m"))
        findings += check_passages(run.passages, about=run.id)
    for row in (row for row in crimp_list(runs) if not row.core.screen):
        if row.cut and not row.at_start:
            continue  # the end out of a fuse is made as the one into it
        detail = _which(row)
        conductor = row.core.conductor
        if row.terminal is None:
            code = "fuse-terminal-not-chosen" if row.cut else "terminal-not-chosen"
            findings.append(Finding(code=code, about=row.run.id, detail=detail))
            continue
        terminal, about = row.terminal, row.run.id
        findings += [
            finding
            for finding in check_terminal(
                terminal, metal=conductor.metal, about=about, detail=detail
            )
            if finding.code != "stud-torque-unknown" or row.torque is None
        ]
        findings += check_terminal_size(terminal, area=conductor.area, about=about, detail=detail)
        findings += check_stud(terminal, stud=row.noted_stud, about=about, detail=detail)
        if row.is_crimped and row.pull_force is None:
            findings.append(
                Finding(
                    code="pull-force-unpublished",
                    about=row.run.id,
                    detail=detail,
                    value=f"{conductor.label} {conductor.metal}",
                    source=(Source.PULL,),
                )
            )
    return tuple(findings)


def _which(row: CrimpRow) -> tuple[str, str]:
    """Which end of which core."""
    if row.cut:
        return START_FUSE if row.cut.at_start else END_FUSE, str(row.number)
    return START if row.at_start else END, str(row.number)


def _pull_force(core: Core, terminal: CrimpTerminal | None) -> float | None:
    conductor = core.conductor
    uncrimped = core.screen or (terminal is not None and not terminal.crimped)
    if uncrimped or conductor.metal != "copper":
        return None
    try:
        return pull_force(conductor.area).required
    except OutsideTableError:
        return None


def sort_runs(runs: Sequence[LabelledRun]) -> list[LabelledRun]:
    """Runs in the order of their labels: power, speaker, line, control, each by number.

    Args:
        runs: the runs

    Returns: the same runs, sorted

    Raises:
        WiringError: two runs carry the same label.

    Source: definition
    """
    _refuse_duplicates(Name.RUN_LABEL, [run.label for run in runs])
    order = list(RunKind)
    return sorted(runs, key=lambda run: (order.index(run.kind), split_label(run.label)[1]))


def _refuse_duplicates(name: Name, labels: Sequence[str]) -> None:
    for label, count in Counter(labels).items():
        if count > 1:
            raise WiringError(name, Id(label), to_be="used-once")
