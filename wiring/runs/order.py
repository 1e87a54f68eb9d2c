"""What to order for the runs of a job: cable, terminals, heat-shrink, grommets and ties."""

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from wiring.runs.labelled import Allowance, Core, LabelledRun
from wiring.runs.schedule import sort_runs

ORDER_STEP = 0.1  # cable is ordered in steps of this length, rounded up


@dataclass(frozen=True, kw_only=True)
class CableLine:
    """One line of the cable order.

    Attributes:
        size: size of each core as the trade writes it
        metal: metal of the cores
        colours: IEC 60757 letters of the cores, more than one when they share a sheath, empty
            when not chosen
        length: length to order, rounded up [m]
        runs: labels of the runs cut from it
    """

    size: str
    metal: str
    colours: tuple[str, ...]
    length: float
    runs: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class CableOrder:
    """Everything to order for the runs of a job.

    Attributes:
        cables: cable by size, metal and colour
        terminals: number of each terminal by its name [-]
        heat_shrink: length by outer diameter of the core it goes over, None for an unknown
            diameter [m]
        grommets: metal places with the labels of the runs that share the grommet
        ties: number of clips or ties, every run counted by itself [-]
        unmeasured: labels of the runs without a length: their cable and ties are missing here
        unfinished: labels of the runs with an end whose terminal is not chosen
    """

    cables: tuple[CableLine, ...]
    terminals: dict[str, int]
    heat_shrink: dict[float | None, float]
    grommets: dict[str, tuple[str, ...]]
    ties: int
    unmeasured: tuple[str, ...]
    unfinished: tuple[str, ...]


def cable_order(runs: Sequence[LabelledRun], allowance: Allowance) -> CableOrder:
    """Everything to order for the runs, with what is missing named.

    Args:
        runs: the runs
        allowance: what is cut beyond the length of the route

    Returns: the order; lengths rounded up

    Raises:
        WiringError: two runs carry the same label.

    Source: definition
    """
    ordered = sort_runs(runs)
    terminals: dict[str, int] = defaultdict(int)
    heat_shrink: dict[float | None, float] = defaultdict(float)
    grommets: dict[str, list[str]] = defaultdict(list)
    for run in ordered:
        for core in _cores(run):
            ends = [core.start, core.end, *[cut.terminal for cut in core.cuts] * 2]
            heat_shrink[core.conductor.outer_diameter] += len(ends) * allowance.heat_shrink
            for terminal in ends:
                if terminal is not None and terminal.crimped:
                    terminals[terminal.name] += 1
        for plug in _plugs(run):
            terminals[plug] += 1
        for passage in run.passages:
            # An unknown edge is ordered for: a grommet too many costs less than a fire.
            if passage.metal is not False and run.label not in grommets[passage.place]:
                grommets[passage.place].append(run.label)
    return CableOrder(
        cables=_cable_lines(ordered, allowance),
        terminals=dict(sorted(terminals.items())),
        heat_shrink=dict(sorted(heat_shrink.items(), key=lambda item: item[0] or 0.0)),
        grommets={place: tuple(labels) for place, labels in sorted(grommets.items()) if labels},
        ties=sum(run.supports or 0 for run in ordered),
        unmeasured=tuple(name for run in ordered for name in _unmeasured(run)),
        unfinished=tuple(run.label for run in ordered if any(_is_open(core) for core in run.cores)),
    )


def _cores(run: LabelledRun) -> list[Core]:
    """Its cores but a screen, whose ends are made with those of what it lies round."""
    return [core for core in run.cores if not core.screen]


def _is_open(core: Core) -> bool:
    """Whether one of its ends has no terminal yet."""
    return None in (core.start, core.end, *(cut.terminal for cut in core.cuts))


def _plugs(run: LabelledRun) -> list[str]:
    """Plugs of a run by name: one at an end, however many cores go into it."""
    ends = ({core.start for core in run.cores}, {core.end for core in run.cores})
    return [plug.name for end in ends for plug in end if plug is not None and not plug.crimped]


def _unmeasured(run: LabelledRun) -> list[str]:
    """A run without a length, or a core of it that goes a way of its own without one."""
    if run.length is None:
        return [run.label]
    return [f"{run.label} {core.sign}".rstrip() for core in run.cores if core.open_length]


def _cable_lines(runs: Sequence[LabelledRun], allowance: Allowance) -> tuple[CableLine, ...]:
    lengths: dict[tuple[str, str, tuple[str, ...]], float] = defaultdict(float)
    labels: dict[tuple[str, str, tuple[str, ...]], list[str]] = defaultdict(list)
    areas: dict[tuple[str, str, tuple[str, ...]], float] = {}
    for run in runs:
        if run.length is None:
            continue
        measured = tuple(core for core in _cores(run) if not core.open_length)
        groups = [measured] if run.one_sheath else [(core,) for core in measured]
        for cores in groups:
            sizes = sorted({core.conductor.label for core in cores})
            metals = sorted({core.conductor.metal for core in cores})
            key = (" + ".join(sizes), " + ".join(metals), tuple(core.colour for core in cores))
            areas[key] = max(core.conductor.area for core in cores)
            longest = max(core.length or run.length for core in cores)
            pieces = 1 + max(len(core.cuts) for core in cores)
            lengths[key] += allowance.cut_length(longest, pieces)
            if run.label not in labels[key]:
                labels[key].append(run.label)
    return tuple(
        CableLine(
            size=key[0],
            metal=key[1],
            colours=key[2],
            length=math.ceil(lengths[key] / ORDER_STEP - 1e-9) * ORDER_STEP,
            runs=tuple(labels[key]),
        )
        for key in sorted(lengths, key=lambda key: (areas[key], key))
    )
