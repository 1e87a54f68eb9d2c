"""Small supplies that several tests share. All values invented."""

from wiring.cable.conductor import Conductor, awg, metric
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.network.parts import Load, Source
from wiring.network.tree import Contact, Node, Run, Tree

CURVE = ((1.35, 600.0), (2.0, 5.0), (3.5, 0.5), (6.0, 0.1))

MAIN = awg("1/0", insulation=105)
LINK = awg("3/0", insulation=105)
BRANCH = awg("4", insulation=105)
CLAD = awg("1/0", metal="copper_clad_aluminium_10", insulation=105)
METRIC = metric(25e-6, insulation=105)


def fused(
    rating: float, *, breaking: float | None = 6000.0, distance: float | None = 0.1
) -> FittedFuse:
    """A fuse with a full sheet."""
    fuse = Fuse(kind="strip SF51", rating=rating, breaking_capacity=breaking, opening=CURVE)
    return FittedFuse(fuse=fuse, distance=distance)


def run(
    label: str,
    start: str,
    end: str,
    conductor: Conductor = BRANCH,
    length: float | None = 2.0,
    *,
    chassis: float | None = None,
    fuse: float | None = None,
    fuse_end: float | None = None,
    zone: str = "cabin",
) -> Run:
    """A run with a cable return of the same kind, or a measured chassis."""
    back: CableReturn | ChassisReturn = CableReturn(conductor=conductor, length=length)
    if chassis is not None:
        back = ChassisReturn(resistance=chassis)
    return Run(
        id=label,
        start=start,
        end=end,
        conductor=conductor,
        length=length,
        return_path=back,
        fuse_start=None if fuse is None else fused(fuse),
        fuse_end=None if fuse_end is None else fused(fuse_end),
        zone=zone,
        aluminium_terminals=True,
    )


def battery(
    node: str = "battery", *, name: str = "", emf: float = 12.6, ohms: float = 5e-3
) -> Source:
    """A warm starter battery."""
    return Source(
        id=name or f"B-{node}", node=node, kind="starter battery", emf=emf, resistance=ohms,
        cold_cranking=600.0,
    )  # fmt: skip


def contact(rated: float | None) -> Contact:
    """What joins the two sides of a switch."""
    return Contact(kind="switch", rated_current=rated)


def amplifier(node: str, watts: float, efficiency: float = 0.8) -> Load:
    """An amplifier at a node."""
    return Load(id=f"A-{node}", node=node, kind="amplifier", value=watts, efficiency=efficiency)


def tree(runs: list[Run], sources: list[Source], loads: list[Load]) -> Tree:
    """A tree with the nodes its runs, sources and loads name."""
    names = dict.fromkeys(
        [s.node for s in sources] + [n for r in runs for n in (r.start, r.end)]
        + [load.node for load in loads]
    )  # fmt: skip
    kinds = {s.node: "battery" for s in sources if "battery" in s.kind}
    studs = {n: sum(n in (r.start, r.end) for r in runs) or 1 for n in names}
    nodes = tuple(Node(id=n, kind=kinds.get(n, "block"), studs=studs[n]) for n in names)
    return Tree(nodes=nodes, sources=tuple(sources), runs=tuple(runs), loads=tuple(loads))


def estate(watts: float = 400.0) -> Tree:
    """One battery, a main, a block, two amplifiers and a processor; all is in order."""
    return tree(
        [
            run("P01", "battery", "block", MAIN, 4.5, fuse=150, zone="engine bay"),
            run("P02", "block", "sub", BRANCH, 1.0, fuse=80),
            run("P03", "block", "front", BRANCH, 0.8, fuse=60),
            run("P04", "block", "processor", awg("14", insulation=105), 1.0, fuse=5),
        ],
        [battery()],
        [
            amplifier("sub", watts),
            amplifier("front", watts / 2),
            Load(id="DSP", node="processor", kind="current", value=1.5),
        ],
    )


def camper(watts: float = 400.0) -> Tree:
    """Two batteries with a cable that has a source at each end; all is in order."""
    return tree(
        [
            # 186 A at most: the starter battery flat, the other charging it.
            run("P01", "starter", "house", LINK, 9.0, fuse=300, fuse_end=300),
            run("P02", "house", "block", METRIC, 1.0, fuse=125),
            run("P03", "block", "amp", BRANCH, 0.5, fuse=100),
            run("P04", "block", "lamps", awg("14", insulation=105), 3.0, fuse=10),
        ],
        [battery("starter", emf=12.7), battery("house", emf=12.6, ohms=4e-3)],
        [
            amplifier("amp", watts),
            Load(id="lamps", node="lamps", kind="resistance", value=4.0),
        ],
    )
