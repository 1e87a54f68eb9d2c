"""Lists made from the runs of a job: wire schedule, crimp list and fuse map."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from wiring.cable.conductor import Conductor
from wiring.cable.markings import RunKind, colour_names, split_label
from wiring.cable.terminals import (
    CrimpTerminal,
    Passage,
    bend_radius,
    check_passages,
    check_stud,
    check_terminal,
    check_terminal_size,
    pull_force,
    support_count,
)
from wiring.errors import (
    COUNT,
    Id,
    OutsideTableError,
    WiringError,
    require_not_negative,
    require_positive,
)
from wiring.findings import END, START, Finding
from wiring.names import Name
from wiring.sources import Source


@dataclass(frozen=True, kw_only=True)
class Core:
    """One conductor of a run with its colour and its two ends.

    Attributes:
        conductor: size and metal
        colour: IEC 60757 letters, empty when not chosen
        start: terminal at the start of the run, None when not chosen
        end: terminal at the end of the run, None when not chosen
        length: its own length where it goes another way, None for that of the run [m]
        sign: "+" or "−" of a supply, empty for other cores
        start_place: where its start is, empty for that of the run
        end_place: where its end is, empty for that of the run
        start_stud: the stud at its start, such as "M8"; empty where nobody noted it
        end_stud: the stud at its end
        start_torque: of that stud by its maker, None for that of the terminal [N·m]
        end_torque: likewise at its end [N·m]

    Raises:
        OutsideTableError: the letters are not in IEC 60757.
        OutOfRangeError: the length is not above 0.
    """

    conductor: Conductor
    colour: str
    start: CrimpTerminal | None = None
    end: CrimpTerminal | None = None
    length: float | None = None
    sign: str = ""
    start_place: str = ""
    end_place: str = ""
    start_stud: str = ""
    end_stud: str = ""
    start_torque: float | None = None
    end_torque: float | None = None

    def __post_init__(self) -> None:
        """Refuse letters that name no colour, and a length that cannot be."""
        if self.colour:
            colour_names(self.colour)
        if self.length is not None:
            require_positive(name=Name.CORE_LENGTH, value=self.length, unit="m")


@dataclass(frozen=True, kw_only=True)
class LabelledRun:
    """One labelled cable from here to there.

    Attributes:
        id: what it is known by; findings hand it back
        label: run label, such as "P03"
        start: place and contact it starts at
        end: place and contact it ends at
        length: length along the route, None when not measured [m]
        cores: its conductors
        one_sheath: True when the cores share one cable, False when each is its own cable
        fuses: labels of the fuses that protect it, one at each end that a source feeds
        passages: places it goes through, in the order of the route
        on_battery: True for a cable on a battery

    Raises:
        WiringError: the label is not a run label or there is no core.
        OutOfRangeError: the length is not above 0.
    """

    id: str
    label: str
    start: str
    end: str
    length: float | None
    cores: tuple[Core, ...]
    one_sheath: bool = False
    fuses: tuple[str, ...] = ()
    passages: tuple[Passage, ...] = ()
    on_battery: bool = False

    def __post_init__(self) -> None:
        """Refuse a run that cannot be labelled or laid."""
        split_label(self.label)
        if self.length is not None:
            require_positive(name=Name.LENGTH, value=self.length, unit="m", about=self.label)
        if not self.cores:
            raise WiringError(Name.CORES, 0, COUNT, about=self.label, at_least=1)

    @property
    def kind(self) -> RunKind:
        """Kind of the run, from its label.

        Returns: the kind
        """
        return split_label(self.label)[0]

    @property
    def supports(self) -> int | None:
        """Number of clips that keep the run supported.

        Returns: number, None while the length is unknown [-]

        Source: see terminals.support_count
        """
        if self.length is None:
            return None
        return support_count(self.length, battery_cable=self.on_battery)


@dataclass(frozen=True, kw_only=True)
class Allowance:
    """What is cut and ordered beyond the length of the route.

    Attributes:
        slack: share of the length that is added for bends and mistakes [-]
        per_end: length added at each end for stripping and for a second try [m]
        heat_shrink: length of heat-shrink on each end of each core [m]

    Raises:
        OutOfRangeError: a value is negative.

    Source: definition; the workshop sets the figures
    """

    slack: float
    per_end: float
    heat_shrink: float

    def __post_init__(self) -> None:
        """Refuse a negative allowance."""
        require_not_negative(name=Name.SLACK, value=self.slack, unit="-")
        require_not_negative(name=Name.ALLOWANCE, value=self.per_end, unit="m")
        require_not_negative(name=Name.HEAT_SHRINK, value=self.heat_shrink, unit="m")

    def cut_length(self, length: float) -> float:
        """Length to cut for a route of this length.

        L_cut = L·(1 + slack) + 2·per_end.

        Args:
            length: length along the route [m]

        Returns: length to cut [m]
        """
        return length * (1.0 + self.slack) + 2.0 * self.per_end


@dataclass(frozen=True, kw_only=True)
class ScheduleRow:
    """One line of the wire schedule; None where the run does not tell.

    Attributes:
        run: the run
        cut_length: length to cut of each core, or of the one cable [m]
        supports: number of clips [-]
        bend_radius: smallest inner radius of its thickest core [m]
    """

    run: LabelledRun
    cut_length: float | None
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
        terminal: the terminal, None when not chosen
        pull_force: force to hold in a pull test, None for other metals than copper and for
            sizes outside the published table [N]
    """

    run: LabelledRun
    at_start: bool
    core: Core
    number: int
    terminal: CrimpTerminal | None
    pull_force: float | None

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
        own = self.core.start_place if self.at_start else self.core.end_place
        return own or (self.run.start if self.at_start else self.run.end)

    @property
    def stud(self) -> str:
        """The stud it goes on, as noted at its place or else by its terminal.

        Returns: stud, empty where none
        """
        own = self.core.start_stud if self.at_start else self.core.end_stud
        return own or (self.terminal.stud if self.terminal else "")

    @property
    def torque(self) -> float | None:
        """Tightening torque: that of the place, or else of the terminal's sheet.

        Returns: torque, None where there is no stud or nobody entered it [N·m]
        """
        own = self.core.start_torque if self.at_start else self.core.end_torque
        return own or (self.terminal.torque if self.terminal else None)


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

    Returns: two rows for each core, in the order of the labels

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
            terminal=core.start if at_start else core.end,
            pull_force=_pull_force(core.conductor),
        )
        for run in sort_runs(runs)
        for number, core in enumerate(run.cores, start=1)
        for at_start in (True, False)
    )


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
    for row in crimp_list(runs):
        # Which end of which core.
        detail = (START if row.at_start else END, str(row.number))
        conductor = row.core.conductor
        if row.terminal is None:
            findings.append(Finding(code="terminal-not-chosen", about=row.run.id, detail=detail))
            continue
        terminal, about = row.terminal, row.run.id
        findings += [
            one
            for one in check_terminal(terminal, metal=conductor.metal, about=about, detail=detail)
            if one.code != "stud-torque-unknown" or row.torque is None
        ]
        findings += check_terminal_size(terminal, area=conductor.area, about=about, detail=detail)
        stud = row.core.start_stud if row.at_start else row.core.end_stud
        findings += check_stud(terminal, stud=stud, about=about, detail=detail)
        if row.pull_force is None:
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


def _pull_force(conductor: Conductor) -> float | None:
    if conductor.metal != "copper":
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
