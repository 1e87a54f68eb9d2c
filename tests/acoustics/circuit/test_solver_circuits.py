"""Every kind of box against ngspice: a circuit of single elements that shares no code with ours."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import pytest

from acoustics.air.air import STANDARD
from acoustics.circuit.solver import sweep
from acoustics.driver.combination import combine
from acoustics.driver.driver import Driver
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import (
    Box,
    Door,
    InfiniteBaffle,
    PassiveRadiatorBox,
    Sealed,
    Vented,
)
from acoustics.enclosure.openings import Radiator, Vent
from tests.acoustics.spice import Answer, Bench, Motor, Room, needs_ngspice

pytestmark = [pytest.mark.second_method, needs_ngspice]

RHO, C = 1.204, 343.2
CABLE = 0.15
VOLTS = 10.0

NAMES = ("fs", "qms", "qes", "re", "vas", "sd", "le")
# Invented drivers: a door driver, a light and a heavy subwoofer.
DRIVERS = {
    "door": dict(zip(NAMES, (58.0, 4.2, 0.72, 3.1, 0.0105, 0.0134, 0.35e-3), strict=True)),
    "light": dict(zip(NAMES, (34.0, 6.5, 0.52, 3.4, 0.031, 0.0335, 1.4e-3), strict=True)),
    "heavy": dict(zip(NAMES, (26.0, 5.1, 0.41, 1.9, 0.058, 0.0512, 2.1e-3), strict=True)),
}
# Invented driver that came with the car.
FACTORY = dict(zip(NAMES, (71.0, 3.3, 0.95, 3.6, 0.0088, 0.0128, 0.0), strict=True))


def motor_of(p: dict[str, float]) -> Motor:
    """Elements of a driver from its textbook parameters."""
    w = 2 * math.pi * p["fs"]
    cms = p["vas"] / (RHO * C**2 * p["sd"] ** 2)
    mms = 1 / (w * w * cms)
    return Motor(
        re=p["re"],
        le=p["le"],
        bl=math.sqrt(w * mms * p["re"] / p["qes"]),
        mms=mms,
        cms=cms,
        rms=w * mms / p["qms"],
        sd=p["sd"],
    )


def room(
    volume: float,
    w0: float,
    *,
    ql: float = math.inf,
    qa: float = math.inf,
    fill: float = 1.0,
    branch: tuple[float, float, float] | None = None,
) -> Room:
    """Elements of a chamber from its volume and the Q of its losses at w0."""
    c = fill * volume / (RHO * C**2)
    return Room(
        compliance=c,
        leak=ql / (w0 * c),
        absorption=0.0 if math.isinf(qa) else 1 / (w0 * c * qa),
        branch=branch,
    )


def closed_w0(p: dict[str, float], effective_volume: float) -> float:
    return 2 * math.pi * p["fs"] * math.sqrt(1 + p["vas"] / effective_volume)


def vented_room(v: float, s: float, length: float, ql: float, qa: float, qp: float) -> Room:
    mass = RHO * length / s
    w0 = 1 / math.sqrt(mass * v / (RHO * C**2))
    loss = 0.0 if math.isinf(qp) else w0 * mass / qp
    return room(v, w0, ql=ql, qa=qa, branch=(mass, loss, math.inf))


def unlike_room(v: float, first: dict[str, float], second: dict[str, float], qp: float) -> Room:
    """A chamber with two ports, each with its own loss at the tuning they have together."""
    masses = [RHO * port["length"] / port["s"] for port in (first, second)]
    together = 1 / sum(1 / mass for mass in masses)
    w0 = 1 / math.sqrt(together * v / (RHO * C**2))
    one, two = ((mass, w0 * mass / qp, math.inf) for mass in masses)
    return replace(room(v, w0, ql=7.0, qa=80.0, branch=one), second=two)


@dataclass(frozen=True)
class Case:
    """A kind of box, told to both methods."""

    box: Callable[[dict[str, float]], Box]
    rear: Callable[[dict[str, float]], Room | None]
    front: Callable[[dict[str, float]], Room | None] = lambda p: None
    area: float = 0.0
    is_port: bool = True


V = 0.7  # boxes scale with the driver, in units of Vas
PORT = {"s": 0.006, "length": 0.31}
SHORT = {"s": 0.0044, "length": 0.19}
# Invented cone of a passive radiator.
CONE = {"sd": 0.0345, "mms": 0.21, "cms": 4.1e-4, "rms": 1.9}


def cone_branch(added: float, count: int) -> tuple[float, float, float]:
    scale = count * CONE["sd"] ** 2
    return (CONE["mms"] + added) / scale, CONE["rms"] / scale, CONE["cms"] * scale


def factory_branch() -> tuple[float, float, float]:
    m = motor_of(
        {"fs": 71.0, "qms": 3.3, "qes": 0.95, "re": 3.6, "vas": 0.0088, "sd": 0.0128, "le": 0.0}
    )
    return m.mms / m.sd**2, m.rms / m.sd**2, m.cms * m.sd**2


def radiator_w0(v: float, added: float, count: int) -> float:
    mass, _, compliance = cone_branch(added, count)
    return math.sqrt((1 / compliance + RHO * C**2 / v) / mass)


def vented_box(volume: float, s: float, length: float, **q: float) -> Vented:
    return Vented(volume=volume, vent=Vent(area=s, effective_length=length), **q)


CASES = {
    "infinite-baffle": Case(lambda p: InfiniteBaffle(), lambda p: None),
    "sealed": Case(
        lambda p: Sealed(volume=V * p["vas"], ql=9.0, qa=30.0, fill=1.12),
        lambda p: room(V * p["vas"], closed_w0(p, 1.12 * V * p["vas"]), ql=9.0, qa=30.0, fill=1.12),
    ),
    "vented": Case(
        lambda p: vented_box(1.3 * p["vas"], **PORT, ql=7.0, qa=80.0, qp=45.0),
        lambda p: vented_room(1.3 * p["vas"], **PORT, ql=7.0, qa=80.0, qp=45.0),
        area=PORT["s"],
    ),
    "unlike-ports": Case(
        lambda p: Vented(
            volume=1.3 * p["vas"],
            vent=Vent(area=PORT["s"], effective_length=PORT["length"]),
            second=Vent(area=SHORT["s"], effective_length=SHORT["length"]),
            ql=7.0,
            qa=80.0,
            qp=45.0,
        ),
        lambda p: unlike_room(1.3 * p["vas"], PORT, SHORT, 45.0),
    ),
    "passive-radiators": Case(
        lambda p: PassiveRadiatorBox(
            volume=1.1 * p["vas"],
            radiator=Radiator(**CONE, added_mass=0.06, count=2),
            ql=8.0,
            qa=70.0,
        ),
        lambda p: room(
            1.1 * p["vas"],
            radiator_w0(1.1 * p["vas"], 0.06, 2),
            ql=8.0,
            qa=70.0,
            branch=cone_branch(0.06, 2),
        ),
        area=2 * CONE["sd"],
        is_port=False,
    ),
    "band-pass-4": Case(
        lambda p: BandPass(
            rear=Sealed(volume=0.6 * p["vas"], ql=11.0, qa=60.0),
            front=vented_box(0.35 * p["vas"], **PORT, ql=8.0, qa=90.0, qp=40.0),
        ),
        lambda p: room(0.6 * p["vas"], closed_w0(p, 0.6 * p["vas"]), ql=11.0, qa=60.0),
        lambda p: vented_room(0.35 * p["vas"], **PORT, ql=8.0, qa=90.0, qp=40.0),
        area=PORT["s"],
    ),
    "band-pass-6": Case(
        lambda p: BandPass(
            rear=vented_box(1.2 * p["vas"], s=0.005, length=0.42, ql=7.0, qa=90.0, qp=50.0),
            front=vented_box(0.4 * p["vas"], **PORT, ql=9.0, qa=math.inf, qp=35.0),
        ),
        lambda p: vented_room(1.2 * p["vas"], 0.005, 0.42, 7.0, 90.0, 50.0),
        lambda p: vented_room(0.4 * p["vas"], **PORT, ql=9.0, qa=math.inf, qp=35.0),
    ),
    "door-blanked": Case(
        lambda p: Door(volume=0.045, ql=2.5),
        lambda p: room(0.045, closed_w0(p, 0.045), ql=2.5),
    ),
    "door-open": Case(
        lambda p: Door(volume=0.045, ql=2.5, opening=Vent(area=0.011, effective_length=0.1)),
        lambda p: room(
            0.045, closed_w0(p, 0.045), ql=2.5, branch=(RHO * 0.1 / 0.011, 0.0, math.inf)
        ),
        area=0.011,
    ),
    "door-unplugged": Case(
        lambda p: Door(volume=0.045, ql=2.5, opening=Radiator.unplugged(Driver(**FACTORY))),
        lambda p: room(0.045, closed_w0(p, 0.045), ql=2.5, branch=factory_branch()),
        area=0.0128,
        is_port=False,
    ),
}
GROUPS = {
    "parallel": ({"parallel": 2}, {"in_series": False}),
    "series": ({"series": 2}, {"in_series": True}),
    "isobaric": ({"series": 2, "isobaric": True}, {"in_series": True, "coupled": True}),
}


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Answer]:
    """All circuits in one process."""
    bench, keys = Bench(), []
    for name, p in DRIVERS.items():
        for kind, case in CASES.items():
            bench.add(
                [motor_of(p)], rear=case.rear(p), front=case.front(p), series_resistance=CABLE
            )
            keys.append(f"{name}/{kind}")
    p = DRIVERS["light"]
    for group, (_, wiring) in GROUPS.items():
        rear = vented_room(0.06, 0.012, 0.3, 7.0, math.inf, math.inf)
        bench.add([motor_of(p)] * 2, rear=rear, series_resistance=CABLE, **wiring)
        keys.append(group)
    folder = tmp_path_factory.mktemp("ngspice")
    return dict(zip(keys, bench.run(folder, start=10, stop=500, per_decade=60), strict=True))


def compare(driver: Driver, box: Box, answer: Answer, case: Case | None = None) -> None:
    f = answer.frequencies
    ours = sweep(
        driver=driver, box=box, frequencies=f, voltage=VOLTS, series_resistance=CABLE, air=STANDARD
    )
    w = 2 * np.pi * f
    spl = 20 * np.log10(VOLTS * RHO * w * abs(answer.heard) / (2 * np.pi) / 20e-6)
    excursion = math.sqrt(2) * VOLTS * abs(answer.velocity) / w
    assert np.abs(ours.spl - spl).max() < 0.01
    assert np.abs(20 * np.log10(ours.excursion / excursion)).max() < 0.01
    assert np.abs(ours.impedance / answer.impedance - 1).max() < 1e-3
    if case is None or not case.area:
        return
    branch = answer.rear_branch if answer.front_branch is None else answer.front_branch
    assert branch is not None
    speed = math.sqrt(2) * VOLTS * abs(branch) / case.area
    mine = ours.port_speed if case.is_port else ours.radiator_excursion
    assert mine is not None
    assert mine == pytest.approx(speed if case.is_port else speed / w, rel=1e-4)


@pytest.mark.parametrize("kind", CASES)
@pytest.mark.parametrize("name", DRIVERS)
def test_solver_agrees_with_a_circuit(name: str, kind: str, answers: dict[str, Answer]) -> None:
    """SPL and excursion agree within 0.01 dB and impedance within 0.1 % from 10 to 500 Hz."""
    p, case = DRIVERS[name], CASES[kind]
    compare(Driver(**p), case.box(p), answers[f"{name}/{kind}"], case)


@pytest.mark.parametrize("name", DRIVERS)
def test_each_unlike_port_has_the_air_speed_of_its_circuit(
    name: str, answers: dict[str, Answer]
) -> None:
    """Both speeds agree with the currents of two branches, each over its own area."""
    p, answer = DRIVERS[name], answers[f"{name}/unlike-ports"]
    ours = sweep(
        driver=Driver(**p),
        box=CASES["unlike-ports"].box(p),
        frequencies=answer.frequencies,
        voltage=VOLTS,
        series_resistance=CABLE,
    )
    pairs = ((answer.rear_branch, PORT), (answer.rear_second, SHORT))
    assert len(ours.port_speeds) == len(pairs)
    for mine, (branch, port) in zip(ours.port_speeds, pairs, strict=True):
        assert branch is not None
        assert mine == pytest.approx(math.sqrt(2) * VOLTS * abs(branch) / port["s"], rel=1e-4)


@pytest.mark.parametrize("group", GROUPS)
def test_two_drivers_agree_with_two_circuits(group: str, answers: dict[str, Answer]) -> None:
    """The equivalent driver of a pair behaves as the two drivers wired one by one."""
    numbers, _ = GROUPS[group]
    pair = combine(Driver(**DRIVERS["light"]), **numbers)
    compare(pair, vented_box(0.06, 0.012, 0.3, ql=7.0), answers[group])
