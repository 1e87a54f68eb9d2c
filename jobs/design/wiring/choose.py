"""Cables, fuses and what holds them, chosen for every power run, beside what is there now."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from jobs.design.records.about import About, about
from jobs.design.records.findings import Finding
from jobs.design.wiring.cables import core, fitted
from jobs.design.wiring.cores import fuses_of
from jobs.design.wiring.holders import AtFuse, choose_at_fuse, price_order
from jobs.design.wiring.power import SECTION, PowerResult, from_tree
from jobs.models import Conductor, Fuse, Holder, Run, Terminal
from wiring.cable.conductor import Conductor as Core
from wiring.cable.fuse import Fuse as FusePart
from wiring.errors import WiringError
from wiring.network.tree import Run as TreeRun
from wiring.network.tree import Tree
from wiring.protection.fuse_voltage import check_fuse_voltages, network_voltage
from wiring.runs.choice import Catalogue, Pick, Seat
from wiring.runs.choose import choose

# Where a run has no fuse.
NOTHING = AtFuse(holder=None, terminal=None)

# What keeps the next smaller cable from being taken.
BOUND: dict[str, str | Promise] = {
    "kept": _("kept as it is"),
    "built": _("it lies in the car so"),
    "smallest": _("the smallest there is"),
    "ampacity-exceeded": _("the current it carries"),
    "fuse-above-conductor": _("the fuse its load needs"),
    "drop-over-limit": _("the voltage lost on the way"),
    "insulation-damaged-first": _("its insulation in a short circuit"),
    "fuse-may-not-open": _("a short at its end has to open the fuse"),
    "fuse-opens-slowly": _("a short at its end has to open the fuse quickly"),
    "voltage-below-load-minimum": _("the voltage its load needs"),
    "no-solution": _("the power it has to carry"),
}


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """One power run: what is there, what is proposed, and what bound it."""

    run: Run
    conductor: Conductor | None
    fuse: Fuse | None
    end_fuse: Fuse | None
    # Where a fuse is to sit; None where a person has said it already.
    fuse_distance: float | None
    end_fuse_distance: float | None
    # What holds each fuse, and the terminals of the cable that is cut for it.
    at_start: AtFuse = NOTHING
    at_end: AtFuse = NOTHING
    kept: bool
    bound: str

    @property
    def because(self) -> str:
        """What bound the choice, in words."""
        return str(BOUND.get(self.bound, self.bound))

    @property
    def now_at(self) -> tuple[AtFuse, AtFuse]:
        """What holds the fuse at its start and at its end now."""
        run = self.run
        return (
            AtFuse(holder=run.fuse_holder, terminal=run.fuse_terminal),
            AtFuse(holder=run.end_fuse_holder, terminal=run.end_fuse_terminal),
        )

    @property
    def changes(self) -> bool:
        """Whether anything would be put in."""
        now = self.run.conductor_id, self.run.fuse_id, self.run.end_fuse_id
        chosen = tuple(p.pk if p else None for p in (self.conductor, self.fuse, self.end_fuse))
        held = [(at.holder, at.terminal) for at in (self.at_start, self.at_end)]
        return now != chosen or held != [(at.holder, at.terminal) for at in self.now_at]


@dataclass(frozen=True, kw_only=True)
class PartsChoice:
    """The outcome: proposals that pass every check together, or what stands in the way."""

    proposals: Sequence[Proposal]
    passes: bool
    findings: Sequence[Finding]
    # Parts of the catalogue that cannot be offered: cable that is no copper or has no class,
    # fuses for too little voltage, and whatever has a figure that cannot be.
    left_out: int = 0

    @property
    def changed(self) -> list[Proposal]:
        """Only what would be put in."""
        return [proposal for proposal in self.proposals if proposal.changes]

    @property
    def fingerprint(self) -> str:
        """Changes with the runs and with what is proposed for them."""
        parts = [
            (
                *(p.run.pk, p.run.version, p.conductor, p.fuse, p.end_fuse, p.kept),
                *(p.at_start.holder, p.at_start.terminal, p.at_end.holder, p.at_end.terminal),
            )
            for p in self.proposals
        ]
        words = repr([tuple(getattr(x, "pk", x) for x in part) for part in parts])
        return hashlib.sha256(words.encode()).hexdigest()


def choose_parts(
    power: PowerResult,
    conductors: Iterable[Conductor],
    fuses: Iterable[Fuse],
    *,
    holders: Sequence[Holder] = (),
    terminals: Sequence[Terminal] = (),
    keep: Collection[int] = (),
) -> PartsChoice:
    """Choose for every run of the tree but those whose key is to be kept."""
    stops = [finding for finding in power.findings if finding.severity == "stop"]
    if power.tree is None:
        return PartsChoice(proposals=(), passes=False, findings=stops)
    tree = power.tree
    runs = {about(run.run).id: run.run for run in power.runs}
    cables = [run for run in tree.runs if run.contact is None]
    cores, left_out = _cores(conductors)
    offered, unreadable = _fuses(fuses, tree)
    left_out += unreadable
    # What was built otherwise is no plan any more: only a person in the bay may change it.
    kept = [run.id for run in cables if runs[run.id].pk in keep or runs[run.id].as_built]
    try:
        catalogue = Catalogue(conductors=tuple(cores), fuses=tuple(offered))
        choice = choose(tree, catalogue, keep=kept, seats=_seats(cables, runs))
    except WiringError as error:
        refused = Finding(
            code="choice-cannot-be",
            severity="stop",
            section=SECTION,
            about=About("catalogue", "all"),
            also=tuple(about(run) for run in runs.values()),
            name=", ".join(run.label for run in runs.values()),
            value=str(error),
            refused=error,
        )
        return PartsChoice(proposals=(), passes=False, findings=[refused], left_out=left_out)
    findings = list(choice.findings)
    if choice.tree is not None:
        findings += check_fuse_voltages(choice.tree)
    stopped = choice.tree is None or any(finding.severity == "stop" for finding in findings)
    # What the records leave open, such as a run without an end, no cable can cure.
    loose = [stop for stop in stops if stop.code == "run-goes-nowhere"]
    proposals = [
        _held(_proposal(runs[pick.run], pick, cores, offered), holders, terminals)
        for pick in choice.picks
        if pick.run in runs
    ]
    return PartsChoice(
        proposals=proposals,
        passes=not stopped and not loose,
        findings=[
            *loose,
            *from_tree(findings, power.names, power.solved),
            *(finding for proposal in proposals for finding in _lacking(proposal)),
        ],
        left_out=left_out,
    )


def _seats(cables: Iterable[TreeRun], runs: Mapping[str, Run]) -> dict[tuple[str, str], Seat]:
    """Where a person wants a fuse that is not chosen yet: what was typed binds."""
    seats = {}
    for cable in cables:
        run = runs[cable.id]
        if run.fuse_distance is not None:
            seat = Seat(distance=run.fuse_distance, sheathed=run.fuse_sheathed)
            seats[cable.id, cable.start] = seat
        if run.end_fuse_distance is not None:
            seat = Seat(distance=run.end_fuse_distance, sheathed=run.end_fuse_sheathed)
            seats[cable.id, cable.end] = seat
    return seats


def _cores(parts: Iterable[Conductor]) -> tuple[dict[Core, list[Conductor]], int]:
    """Cores that may be offered with the parts that have them.

    Only copper: other metals need terminals made for them, which a person has to see to.
    """
    cores: dict[Core, list[Conductor]] = {}
    left_out = 0
    for part in parts:
        try:
            offered = core(part)
        except WiringError:
            left_out += 1
            continue
        if offered.insulation is None or offered.metal != Conductor.Metal.COPPER:
            left_out += 1
            continue
        # What conducts alike is one size to choose from, whatever its jacket and its sheet.
        sheet = offered.rated_source and "sheet"
        alike = replace(offered, outer_diameter=None, rated_source=sheet)
        cores.setdefault(alike, []).append(part)
    return cores, left_out


def _fuses(parts: Iterable[Fuse], tree: Tree) -> tuple[dict[FusePart, list[Fuse]], int]:
    """Fuses that stand the highest voltage of the tree, as far as their sheets say."""
    least = max((network_voltage(source.emf) for source in tree.sources), default=0.0)
    fuses: dict[FusePart, list[Fuse]] = {}
    left_out = 0
    for part in parts:
        try:
            seat = fitted(part, distance=None, sheathed=False)
        except WiringError:
            seat = None
        if seat is None or (seat.fuse.voltage is not None and seat.fuse.voltage < least):
            left_out += 1
        else:
            fuses.setdefault(seat.fuse, []).append(part)
    return fuses, left_out


def _proposal(
    run: Run,
    pick: Pick,
    cores: dict[Core, list[Conductor]],
    fuses: dict[FusePart, list[Fuse]],
) -> Proposal:
    if pick.bound == "kept":
        return Proposal(
            run=run,
            conductor=run.conductor,
            fuse=run.fuse,
            end_fuse=run.end_fuse,
            fuse_distance=None,
            end_fuse_distance=None,
            kept=True,
            bound="built" if run.as_built else pick.bound,
        )
    start, end = pick.fuse_start, pick.fuse_end
    fuse = _part(fuses[start.fuse], run.fuse) if start else None
    end_fuse = _part(fuses[end.fuse], run.end_fuse) if end else None
    return Proposal(
        run=run,
        conductor=_cable(cores.get(pick.conductor, []), run) if pick.conductor else None,
        fuse=fuse,
        end_fuse=end_fuse,
        fuse_distance=start.distance if start and run.fuse_distance is None else None,
        end_fuse_distance=end.distance if end and run.end_fuse_distance is None else None,
        kept=False,
        bound=pick.bound,
    )


def _held(proposal: Proposal, holders: Sequence[Holder], terminals: Sequence[Terminal]) -> Proposal:
    """Choose what holds the fuses of a proposal, as if it were put in."""
    if proposal.kept:
        start, end = proposal.now_at
        return replace(proposal, at_start=start, at_end=end)
    run = put_in(copy(proposal.run), proposal)
    at = {fuse.at_start: choose_at_fuse(run, fuse, holders, terminals) for fuse in fuses_of(run)}
    return replace(proposal, at_start=at.get(True, NOTHING), at_end=at.get(False, NOTHING))


def put_in(run: Run, proposal: Proposal) -> Run:
    """Write cable, fuses and where these sit into a run, unsaved; what was typed stays."""
    run.conductor, run.fuse, run.end_fuse = proposal.conductor, proposal.fuse, proposal.end_fuse
    if proposal.fuse_distance is not None:
        run.fuse_distance = proposal.fuse_distance
    if proposal.end_fuse_distance is not None:
        run.end_fuse_distance = proposal.end_fuse_distance
    return run


def _lacking(proposal: Proposal) -> Iterator[Finding]:
    """Where the catalogue has nothing that holds a fuse, or ends the cable at it."""
    run = proposal.run
    codes = {"holder": "choice-without-holder", "terminal": "choice-without-terminal"}
    for what in dict.fromkeys((*proposal.at_start.lacks, *proposal.at_end.lacks)):
        code = codes[what]
        yield Finding(code=code, severity="look", section=SECTION, about=about(run), name=run.label)


def _part(parts: Sequence[Fuse], now: Fuse | None) -> Fuse:
    """The part that is there already if it serves, else the cheapest."""
    return now if now is not None and now in parts else min(parts, key=price_order)


def _cable(parts: Sequence[Conductor], run: Run) -> Conductor | None:
    """The cable that is there already if it serves, else of the run's colour, else the cheapest."""
    if run.conductor in parts:
        return run.conductor
    return min(
        parts, key=lambda part: (part.colour != run.colour, *price_order(part)), default=None
    )
