"""The estate car's supply, its speaker cables, and the way of the signal from the factory's bus."""

from __future__ import annotations

from typing import Any

from jobs.demo.rows import Rows, Stop

SEAT = "under the front passenger seat"


def add_wiring(rows: Rows) -> None:
    """Add the power tree and every run."""
    _power(rows)
    _runs(rows)
    _signals(rows)


def _power(rows: Rows) -> None:
    rows.node(
        "Battery",
        "battery",
        "boot floor, right",
        side="right",
        voltage=12.6,
        internal_resistance=0.004,
        cca=800,
        charge=80 * 3600,
        rated_time=20 * 3600,
        peukert=1.12,
    )
    rows.node("Fused block", "block", "boot, beside the battery", equipment="block")
    side = "boot, left side pocket"
    rows.node("Amplifier Six", "amplifier", side, equipment="six", standby_current=0.0012)
    rows.node("Amplifier Mono", "amplifier", side, equipment="mono", standby_current=0.001)
    rows.node("Processor", "load", side, equipment="processor", current=0.8, standby_current=0.0015)
    rows.node(
        "Bus interface",
        "load",
        SEAT,
        side="right",
        equipment="interface",
        current=0.25,
        standby_current=0.0008,
    )


def _runs(rows: Rows) -> None:
    boot = ["Boot floor", "Boot side trim, left"]
    rows.ground("Sensor, body side", "sensor", "on the minus post", torque=6.0)
    rows.ground("Ground bar", "block", "board, beside the fused block", torque=9.0)
    bar = ("Ground bar", "")
    rows.power(
        "Battery",
        "Fused block",
        "35 mm²",
        0.6,
        fuse="F150",
        fuse_distance=0.15,
        panels=boot[:1],
        start_contact="30",
        minus=("Sensor, body side", "Ground bar"),
    )
    rows.power("Fused block", "Amplifier Six", "16 mm²", 1.4, fuse="F60", panels=boot, minus=bar)
    rows.power("Fused block", "Amplifier Mono", "16 mm²", 1.5, fuse="F60", panels=boot, minus=bar)
    rows.power("Fused block", "Processor", "2.5 mm²", 1.4, fuse="F5", panels=boot, minus=bar)
    under: list[Stop] = [*boot, "Sill trim, left", SEAT]
    rows.power(
        "Fused block", "Bus interface", "2.5 mm²", 4.1, fuse="F5", panels=under, minus=bar,
        zone="cabin",
    )  # fmt: skip
    for side in ("left", "right"):
        door: list[Stop] = [("door hinge, factory sleeve", "soft"), f"Front door card, {side}"]
        for part, length in (("Tweeter", 5.2), ("Midrange", 5.0), ("Woofer", 4.8)):
            rows.speaker(f"{part} {side}", "1.5 mm²", length, [boot[1], "Sill trim, left", *door])
    rows.speaker("Bass", "2.5 mm²", 1.2, boot[::-1])


def _signals(rows: Rows) -> None:
    trim = ["Boot side trim, left"]
    head = ["behind the dashboard", "Sill trim, left", *trim]
    rows.line(
        "Bus interface",
        "Processor",
        3.9,
        [SEAT, "Sill trim, left", *trim],
        source_resistance=120.0,
        beside_power=0.3,
    )
    for amplifier in ("Amplifier Six", "Amplifier Mono"):
        rows.line("Processor", amplifier, 0.5, trim, source_resistance=100.0, beside_power=0.0)
    bus = rows.line(
        "bus plug of the factory amplifier",
        "Bus interface",
        0.4,
        [SEAT],
        cable="0.5 mm² twisted",
        plugs=("adapter plug", "adapter plug"),
        colour="WH",
        return_colour="BN",
    )
    rows.control("Processor", "both amplifiers, turn-on", 0.6, trim, wakes=["six", "mono"])
    wake = rows.control(
        "factory head unit, remote output",
        "Processor",
        5.2,
        head,
        wakes=["processor"],
        fed_by="output",
        source_limit=0.3,
        current=0.02,
    )
    mute = rows.control(
        "hands-free of the car, mute",
        "Processor",
        5.2,
        head,
        wakes=["processor"],
        purpose="mute",
        fed_by="output",
        source_limit=0.1,
        current=0.005,
    )
    joined: dict[str, Any] = {"how": "plug", "colour": "WH, BN", "carries": "data"}
    rows.join("Factory amplifier, plug B", "7, 8", bus, signal="bus, both wires", **joined)
    joined = {"how": "pin", "colour": "BU", "carries": "remote"}
    rows.join("Head unit, block A", "5", wake, signal="remote output", level=12.1, **joined)
    joined = {"how": "pin", "colour": "GYWH", "carries": "mute"}
    rows.join("Head unit, block A", "2", mute, signal="pulled to ground by a call", **joined)
