"""Loudspeakers as circuits for ngspice: elements and openings one by one, nothing of ours inside.

Force and pressure are voltages, velocity and volume velocity are currents. What is heard is added
up from what passes every opening, the leaks too, so that the circuit knows no compliance branch
rule.
"""

import math
import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pytest

needs_ngspice = pytest.mark.skipif(
    shutil.which("ngspice") is None, reason="ngspice is not installed: apt-get install ngspice"
)

Curve = npt.NDArray[np.complex128]


@dataclass(frozen=True, kw_only=True)
class Motor:
    """A driver by its elements [SI]."""

    re: float
    le: float
    bl: float
    mms: float
    cms: float
    rms: float
    sd: float


@dataclass(frozen=True, kw_only=True)
class Room:
    """A chamber by its elements [SI]: compliance, leak, absorption, up to two series branches."""

    compliance: float
    leak: float = math.inf
    absorption: float = 0.0
    branch: tuple[float, float, float] | None = None  # mass, resistance, compliance
    second: tuple[float, float, float] | None = None  # the same, beside the first


@dataclass(frozen=True, kw_only=True)
class Answer:
    """What the circuit says per volt, rms."""

    frequencies: npt.NDArray[np.float64]
    velocity: Curve
    heard: Curve
    impedance: Curve
    rear_branch: Curve | None
    front_branch: Curve | None
    rear_second: Curve | None = None


@dataclass
class Bench:
    """Many circuits side by side in one run."""

    lines: list[str] = field(default_factory=list)
    wanted: list[str] = field(default_factory=list)
    cases: list[dict[str, str]] = field(default_factory=list)

    def add(
        self,
        motors: Sequence[Motor],
        *,
        rear: Room | None,
        front: Room | None = None,
        series_resistance: float = 0.0,
        in_series: bool = False,
        coupled: bool = False,
    ) -> None:
        """Add one system; coupled drivers move as one and share one face."""
        n = len(self.cases)
        top = f"e{n}"
        self.lines += [f"V{n} s{n} 0 AC 1", f"Rg{n} s{n} {top} {max(series_resistance, 1e-9)}"]
        senses = []
        for k, motor in enumerate(motors):
            tag = f"{n}x{k}"
            start = top if k == 0 or not in_series else f"j{n}x{k - 1}"
            end = f"j{tag}" if in_series and k < len(motors) - 1 else "0"
            self.lines += [
                f"Vi{tag} {start} a{tag} 0",
                f"Re{tag} a{tag} b{tag} {motor.re:.12g}",
                f"Le{tag} b{tag} c{tag} {motor.le:.12g}",
                f"He{tag} c{tag} {end} Vu{n if coupled else tag} {motor.bl:.12g}",
            ]
            senses.append(tag)
        self._mechanics(n, motors, coupled)
        faces = [str(n)] if coupled else senses
        area = motors[0].sd
        out_rear = self._room(f"r{n}", rear, faces, area)
        out_front = self._room(f"f{n}", front, faces, area)
        diaphragm = "+".join(f"{area:.12g}*i(Vu{face})" for face in faces)
        heard = out_front or diaphragm
        if out_rear:
            heard = f"{heard}-({out_rear})"
        self._want(n, "velocity", f"i(Vu{faces[0]})")
        self._want(n, "current", f"i(V{n})")
        self._want(n, "heard", heard)
        for side, room in (("r", rear), ("f", front)):
            if room is not None and room.branch is not None:
                self._want(n, side, f"i(Vb{side}{n})")
            if room is not None and room.second is not None:
                self._want(n, f"{side}second", f"i(Vb{side}{n}s)")

    def _want(self, n: int, key: str, expression: str) -> None:
        while len(self.cases) <= n:
            self.cases.append({})
        name = f"{key}{n}"
        self.cases[n][key] = name
        self.wanted.append(f"let {name}={expression}")

    def _mechanics(self, n: int, motors: Sequence[Motor], coupled: bool) -> None:
        tags = [str(n)] if coupled else [f"{n}x{k}" for k in range(len(motors))]
        groups = [list(motors)] if coupled else [[motor] for motor in motors]
        for tag, group in zip(tags, groups, strict=True):
            node = f"m{tag}"
            self.lines.append(f"Vu{tag} {node}f {node}a 0")
            # Forces of coupled drivers add up in one loop.
            below = "0"
            for k in range(len(group)):
                above = f"{node}f" if k == len(group) - 1 else f"{node}h{k}"
                source = f"Vi{n}x{k}" if coupled else f"Vi{tag}"
                self.lines.append(f"Hf{tag}k{k} {above} {below} {source} {group[k].bl:.12g}")
                below = above
            mass = sum(m.mms for m in group)
            loss = sum(m.rms for m in group)
            compliance = 1 / sum(1 / m.cms for m in group)
            self.lines += [
                f"Lm{tag} {node}a {node}b {mass:.12g}",
                f"Rm{tag} {node}b {node}c {loss:.12g}",
                f"Cm{tag} {node}c {node}d {compliance:.12g}",
                f"Er{tag} {node}d {node}e pr{n} 0 {group[0].sd:.12g}",
                f"Ef{tag} {node}e 0 pf{n} 0 {group[0].sd:.12g}",
            ]

    def _room(self, tag: str, room: Room | None, faces: list[str], area: float) -> str:
        """Build a chamber; give back the sum of all that passes its openings."""
        node = f"p{tag}"
        for face in faces:
            self.lines.append(f"Fa{tag}{face} 0 {node} Vu{face} {area:.12g}")
        if room is None:
            self.lines.append(f"Rz{tag} {node} 0 1e-9")
            return ""
        self.lines += [
            f"Ra{tag} {node} {node}a {max(room.absorption, 1e-6):.12g}",
            f"Ca{tag} {node}a 0 {room.compliance:.12g}",
        ]
        openings = []
        if math.isfinite(room.leak):
            self.lines += [f"Vl{tag} {node} {node}l 0", f"Rl{tag} {node}l 0 {room.leak:.12g}"]
            openings.append(f"i(Vl{tag})")
        for end, branch in (("", room.branch), ("s", room.second)):
            if branch is None:
                continue
            (mass, loss, compliance), way, at = branch, f"{tag}{end}", f"{node}{end}"
            self.lines += [
                f"Vb{way} {node} {at}b 0",
                f"Lb{way} {at}b {at}c {mass:.12g}",
                f"Rb{way} {at}c {at}d {max(loss, 1e-9):.12g}",
            ]
            spring = f"Cb{way} {at}d 0 {compliance:.12g}"
            self.lines.append(spring if math.isfinite(compliance) else f"Rs{way} {at}d 0 1e-9")
            openings.append(f"i(Vb{way})")
        return "+".join(openings) or "0*i(Vu" + faces[0] + ")"

    def run(self, folder: Path, *, start: float, stop: float, per_decade: int) -> list[Answer]:
        """Run all circuits at once."""
        names = [name for case in self.cases for name in case.values()]
        deck = [
            "loudspeakers",
            *self.lines,
            ".options reltol=1e-9",
            ".control",
            "set numdgt=12",
            "set wr_singlescale",
            f"ac dec {per_decade} {start} {stop}",
            *self.wanted,
            f"wrdata {folder / 'out.txt'} {' '.join(names)}",
            "quit",
            ".endc",
            ".end",
        ]
        path = folder / "deck.cir"
        path.write_text("\n".join(deck) + "\n")
        done = subprocess.run(
            ["ngspice", "-b", str(path)], capture_output=True, text=True, timeout=120, check=False
        )
        out = folder / "out.txt"
        assert out.exists(), done.stdout + done.stderr
        table = np.loadtxt(out)
        frequencies = table[:, 0]
        pairs = table[:, 1:].reshape(len(table), -1, 2)
        curves = dict(zip(names, (pairs[..., 0] + 1j * pairs[..., 1]).T, strict=True))
        return [
            Answer(
                frequencies=frequencies,
                velocity=curves[case["velocity"]],
                heard=curves[case["heard"]],
                impedance=-1 / curves[case["current"]],
                rear_branch=curves.get(case.get("r", "")),
                front_branch=curves.get(case.get("f", "")),
                rear_second=curves.get(case.get("rsecond", "")),
            )
            for case in self.cases
        ]
