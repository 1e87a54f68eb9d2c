"""The runs of a job as lists: wire schedule, fuse map, cable order, crimp list."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cores import MINUS, PLUS, fuses_of, labelled, leads_back
from jobs.design.wiring.power import PowerResult
from jobs.models import Fuse, Holder, Job, Run, Stretch, Workshop
from wiring.cable.terminals import Passage, check_passages
from wiring.errors import WiringError
from wiring.findings import END, END_FUSE, START, START_FUSE
from wiring.findings import Finding as RunFinding
from wiring.protection.protection import Protection
from wiring.runs.labelled import Allowance, LabelledRun
from wiring.runs.order import CableOrder, cable_order
from wiring.runs.schedule import (
    CrimpRow,
    FuseEntry,
    ScheduleRow,
    check_schedule,
    crimp_list,
    fuse_map,
    wire_schedule,
)

SECTION = "power"
# Edge of a stretch -> (metal, grommet) as the calculator asks for it.
_EDGES: dict[str, tuple[bool | None, bool | None]] = {
    Stretch.Edge.GROMMET: (True, True),
    Stretch.Edge.BARE: (True, False),
    Stretch.Edge.SOFT: (False, None),
    Stretch.Edge.OPEN: (None, None),
}
# Said by the tree or by the signal checks already.
_SAID_ELSEWHERE = {"run-length-unknown"}
_METAL_OF_TREE = {"terminal-unsuited-to-metal", "terminal-metal-unknown"}
# Said of an edge a run passes; its detail is the edge.
_OF_EDGES = {"grommet-missing", "passage-unknown"}
# Told once for all runs: a list of thirty alike would hide what matters.
_TOGETHER = {
    "fuse-terminal-not-chosen",
    "terminal-not-chosen",
    "terminal-size-unknown",
    "stud-torque-unknown",
    "pull-force-unpublished",
}


@dataclass(frozen=True, kw_only=True)
class Line:
    """One line of the wire schedule: the run, and what is worked out of it where it can be."""

    run: Run
    route: Sequence[Stretch]
    fuses: Sequence[str] = ()
    row: ScheduleRow | None = None
    return_cut: float | None = None  # where a second cable leads back and is not as long
    return_open: bool = False  # where one leads back and nobody has measured how long

    @property
    def lies_alike(self) -> bool:
        """Whether the whole route follows the factory loom, or none of it: then said once."""
        return len({stretch.follows_loom for stretch in self.route}) == 1


@dataclass(frozen=True, kw_only=True)
class FusePlace:
    """One line of the fuse map."""

    label: str
    run: Run
    part: Fuse
    holder: Holder | None
    place: str
    distance: float | None
    protects: Sequence[str]


@dataclass(frozen=True, kw_only=True)
class CrimpKind:
    """Every end that gets the same terminal on the same conductor: one pull test stands for all."""

    size: str
    metal: str
    terminal: str
    force: float | None
    ends: Sequence[str]
    count: int


@dataclass(frozen=True, kw_only=True)
class Schedule:
    """Every list that is made from the runs."""

    lines: Sequence[Line]
    fuses: Sequence[FusePlace]
    order: CableOrder
    crimps: Sequence[CrimpKind]
    # Every end of every core, to be ticked one by one.
    ends: Sequence[CrimpRow]
    allowance: Allowance

    @property
    def unended(self) -> list[str]:
        """Labels of the runs that have no cable yet, so that their ends are on no list."""
        return [line.run.label for line in self.lines if line.row is None]

    def line(self, run: Run) -> Line:
        """The line of this run."""
        return next(line for line in self.lines if line.run is run)


def work_out_schedule(records: JobRecords, power: PowerResult, workshop: Workshop) -> Schedule:
    """Make the lists; a run without a cable stands on them without a length to cut."""
    allowance = Allowance(
        slack=workshop.cable_slack,
        per_end=workshop.cable_per_end,
        heat_shrink=workshop.heat_shrink,
    )
    guards = _guards(records, power)
    labelled_runs = lay_runs(records, guards).by_label
    ends = crimp_list(list(labelled_runs.values()))
    rows = {row.run.label: row for row in wire_schedule(list(labelled_runs.values()), allowance)}
    return Schedule(
        lines=[
            Line(
                run=run,
                route=run.route,
                fuses=guards.get(run.label, ()),
                row=rows.get(run.label),
                return_cut=_return_cut(run, rows.get(run.label), allowance),
                return_open=leads_back(run) and run.return_length is None,
            )
            for run in sorted(records.runs, key=_by_label)
        ],
        fuses=_fuse_places(records, labelled_runs),
        order=cable_order(list(labelled_runs.values()), allowance),
        crimps=_crimp_kinds(ends),
        ends=ends,
        allowance=allowance,
    )


def _return_cut(run: Run, row: ScheduleRow | None, allowance: Allowance) -> float | None:
    """What the way back is cut to, where that is not said with the way out."""
    alike = run.return_length == run.length and not (row and row.pieces)
    if not leads_back(run) or run.return_length is None or alike:
        return None
    return allowance.cut_length(run.return_length)


def check_runs(records: JobRecords, laid: LaidRuns) -> list[Finding]:
    """What the checks say of ends, edges and colours; what holds for many runs is said once."""
    numbered = [run for run in records.runs if run.number]
    runs = {about(run).id: run for run in numbered}
    findings = [
        finding
        for finding in check_schedule([run for run in laid.by_label.values() if run.id in runs])
        if finding.code not in _SAID_ELSEWHERE
        and not (finding.code in _METAL_OF_TREE and runs[finding.about].kind == Run.Kind.POWER)
    ]
    for run in numbered:
        # A missing cable is not ordered; it still passes the edges.
        if run.conductor is None:
            findings += check_passages(_passages(run), about=about(run).id)
    alike = [finding for finding in findings if finding.code in _TOGETHER]
    edges = [finding for finding in findings if finding.code in _OF_EDGES]
    ends = [finding for finding in findings if finding not in alike and finding not in edges]
    return [
        *(finding for finding in laid.refused if finding.about.id in runs),
        *_by_edges(edges, runs),
        *(_at_end(end, runs[end.about], laid.by_label) for end in ends),
        *together(records.job, [_of_run(finding, runs[finding.about]) for finding in alike]),
    ]


def _of_run(finding: RunFinding, run: Run) -> Finding:
    return adopt([finding], section=SECTION, about=about(run), name=run.label)[0]


def _at_end(finding: RunFinding, run: Run, by_label: Mapping[str, LabelledRun]) -> Finding:
    """A finding about a terminal, which is told by the end and the colour of its core."""
    end, core_number = finding.detail
    core = by_label[run.label].cores[int(core_number) - 1]
    words = {START: _("start"), END: _("end")}
    words |= {START_FUSE if cut.at_start else END_FUSE: cut.fuse for cut in core.cuts}
    return replace(_of_run(finding, run), name=f"{run.label} {words[end]} {core.colour}".rstrip())


def _by_edges(of_edges: Iterable[RunFinding], runs: Mapping[str, Run]) -> list[Finding]:
    """Say each thing once of a run, with every edge it holds for."""
    groups: dict[tuple[str, str], list[RunFinding]] = {}
    for finding in of_edges:
        groups.setdefault((finding.code, finding.about), []).append(finding)
    findings = []
    for (_code, key), group in groups.items():
        run, edges = runs[key], dict.fromkeys(edge for finding in group for edge in finding.detail)
        places = {edge: str(stretch) for edge, stretch in _edges(run).items()}
        findings.append(
            replace(
                _of_run(replace(group[0], detail=()), run),
                value=", ".join(edges),
                value_said=", ".join(places[edge] for edge in edges if places[edge]),
            )
        )
    return findings


def _edges(run: Run) -> dict[str, Stretch]:
    """The edges a run passes, by panel, place as far as entered, and which of several alike."""
    edges: dict[str, Stretch] = {}
    for stretch in (stretch for stretch in run.route if stretch.edge):
        panel = about(stretch.panel).id if stretch.panel else ""
        key, alike = f"{panel} {stretch.place}".strip(), 1
        while (known := key if alike == 1 else f"{key} / {alike}") in edges:
            alike += 1
        edges[known] = stretch
    return edges


def together(job: Job, findings: Iterable[Finding]) -> list[Finding]:
    """Say once of a job what holds for many of its runs, and name them all."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        groups.setdefault((finding.code, finding.value, finding.limit), []).append(finding)
    return [
        replace(
            group[0],
            about=about(job, *([str(value)] if value else [])),
            # With the end: a decision about one says nothing of the other.
            also=tuple(dict.fromkeys(finding.about for finding in group)),
            name=", ".join(dict.fromkeys(finding.name for finding in group)),
        )
        for (_code, value, _limit), group in groups.items()
    ]


def _by_label(run: Run) -> tuple[int, int]:
    """Power, speaker, line, control, each by its number: the order of the labels on the wall."""
    return Run.Kind.values.index(run.kind), run.number


@dataclass(frozen=True, kw_only=True)
class LaidRuns:
    """The runs of a job as the calculators know them, and why others cannot be."""

    by_label: Mapping[str, LabelledRun]
    refused: Sequence[Finding]


def lay_runs(records: JobRecords, guards: Mapping[str, tuple[str, ...]] | None = None) -> LaidRuns:
    """Take every run that has a cable apart into its cores, with the fuses that protect it."""
    by_label, refused = {}, []
    for run in records.runs:
        if run.conductor is None:
            continue
        fuses = guards.get(run.label, ()) if guards else ()
        try:
            by_label[run.label] = labelled(run, fuses, _passages(run))
        except WiringError as error:
            refused.append(
                Finding(
                    code="run-cannot-be",
                    severity="stop",
                    section=SECTION,
                    about=about(run),
                    name=run.label,
                    value=str(error),
                    refused=error,
                )
            )
    return LaidRuns(by_label=by_label, refused=refused)


def _passages(run: Run) -> tuple[Passage, ...]:
    return tuple(
        Passage(id=edge, place=str(stretch), metal=metal, grommet=grommet)
        for edge, stretch in _edges(run).items()
        for metal, grommet in [_EDGES[stretch.edge]]
    )


def _guards(records: JobRecords, power: PowerResult) -> dict[str, tuple[str, ...]]:
    """Which fuses protect each run: its own, or else the nearest ones towards each source."""
    by_run = {run.label: run for run in records.runs}
    # A run that is not in the tree has at least its own.
    guards = {label: tuple(fuse.label for fuse in fuses_of(run)) for label, run in by_run.items()}
    if power.tree is None:
        return guards
    by_id = {about(run).id: run for run in records.runs}
    protection = Protection(power.tree)
    for run in (run for run in power.tree.runs if run.id in by_id):  # a contact has no label
        named: list[str] = []
        for node in (run.start, run.end):
            for carrier, fitted in protection.guards(run, node):
                at_start = fitted is carrier.fuse_start
                named += [
                    fuse.label for fuse in fuses_of(by_id[carrier.id]) if fuse.at_start == at_start
                ]
        guards[by_id[run.id].label] = tuple(dict.fromkeys(named))
    return guards


def _fuse_places(records: JobRecords, labelled_runs: Mapping[str, LabelledRun]) -> list[FusePlace]:
    places = []
    for run in records.runs:
        for fuse in fuses_of(run):
            places.append(
                FusePlace(
                    label=fuse.label,
                    run=run,
                    part=fuse.part,
                    holder=fuse.holder,
                    place=fuse.node.place or fuse.node.name if fuse.node else "",
                    distance=fuse.distance,
                    protects=(),
                )
            )
    entries = [
        FuseEntry(
            label=place.label, place=place.place, style=place.part.type, rating=place.part.rating
        )
        for place in places
    ]
    by_label = {place.label: place for place in places}
    return [
        replace(by_label[row.fuse.label], protects=row.runs)
        for row in fuse_map(entries, list(labelled_runs.values()))
    ]


def _crimp_kinds(rows: Iterable[CrimpRow]) -> list[CrimpKind]:
    groups: dict[tuple[str, str, str], list[CrimpRow]] = {}
    for row in rows:
        if not row.is_crimped:
            continue
        name = row.terminal.name if row.terminal else ""
        key = (row.core.conductor.label, row.core.conductor.metal, name)
        groups.setdefault(key, []).append(row)
    return [
        CrimpKind(
            size=size,
            metal=metal,
            terminal=name,
            force=group[0].pull_force,
            ends=_ends(group),
            count=len(group),
        )
        for (size, metal, name), group in groups.items()
    ]


def _ends(group: Sequence[CrimpRow]) -> list[str]:
    """Name each end once; a run whose two ends are alike is named by its label."""
    sides: dict[str, set[bool]] = {}
    at_fuses = list(dict.fromkeys(row.cut.fuse for row in group if row.cut))
    for row in (row for row in group if not row.cut):
        sides.setdefault(row.label, set()).add(row.at_start)
    for run in {row.run.label for row in group if not row.cut}:
        # Both cores alike: the run's own label says it.
        plus, minus = (sides.get(f"{run} {sign}") for sign in (PLUS, MINUS))
        if plus is not None and plus == minus:
            sides = {
                (run if label == f"{run} {PLUS}" else label): ends
                for label, ends in sides.items()
                if label != f"{run} {MINUS}"
            }
    words = {True: _("%(run)s start"), False: _("%(run)s end")}
    at_ends = [
        run if len(ends) == len(words) else words[ends.pop()] % {"run": run}
        for run, ends in sides.items()
    ]
    return at_ends + at_fuses
