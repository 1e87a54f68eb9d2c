"""A box worked out: its litres, its acoustic load, its curves, its figures and its findings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from acoustics.air.modes import ModeVerdict
from acoustics.carcass.cavity.place_in_cavity import Place
from acoustics.circuit.solver import Sweep, sweep
from acoustics.circuit.tolerance_bands import MOST_TOLERANCE, SpreadBands, Tolerances
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.driver.heat import heated
from acoustics.enclosure.boxes import Box as Enclosure
from acoustics.enclosure.port import Port
from acoustics.errors import AcousticsError
from jobs.design.box import drivers, remembered
from jobs.design.box.box_in_car import look
from jobs.design.box.channel_feed import NOTHING, Feed, played_up_to
from jobs.design.box.checks import (
    SECTION,
    box_finding,
    check_box,
    check_feed,
    check_held,
    check_sure,
)
from jobs.design.box.coil import check_coil
from jobs.design.box.drivers import NOTHING_MEASURED, Measured, MeasuredSet
from jobs.design.box.enclosures import enclosure, wood_and_port
from jobs.design.box.figures import FREQUENCIES, Curve, Figure, beside, curves_of, figures_of
from jobs.design.carcass.carcass import Wood
from jobs.design.carcass.contents import passive
from jobs.design.carcass.moulded import Shell, shell
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt, reason, unnamed
from jobs.models import Box, Channel, Driver

__all__ = ["BoxResult", "Curve", "wood_of", "work_out_box"]


@dataclass(frozen=True, kw_only=True)
class BoxResult:
    """What a box comes to; with `refused` set, nothing but the reason could be worked out."""

    box: Box
    # What the figures and the wood say; `findings` adds what the spread and the waves say.
    checked: Sequence[Finding]
    refused: AcousticsError | None = None
    driver: AcousticDriver | None = None
    load: Enclosure | None = None
    voltage: float = 2.83
    feed: Feed = NOTHING
    # What was measured and takes the place of the catalogue, by equipment item.
    measured: Measured = field(default_factory=dict)
    net_volume: float | None = None
    port: Port | None = None
    wood: Wood | None = None
    # Of a moulded box, which has no panels.
    shell: Shell | None = None
    # Where in its cavity it stands, and what that comes to.
    place: Place | None = None
    placed: Sequence[Figure] = ()
    # Without the channel's filters, and as the channel plays it.
    alone: Sweep | None = None
    played: Sweep | None = None
    # The same driver with its coil hot.
    hot: AcousticDriver | None = None

    @property
    def trouble(self) -> str:
        """Why it could not be worked out, in the reader's language."""
        return "" if self.refused is None else reason(self.refused)

    @property
    def amplifier(self) -> float | None:
        """What the amplifier can give; None when no channel says so."""
        return self.feed.voltage

    @property
    def measured_set(self) -> MeasuredSet | None:
        """The measured figures its driver is worked out with; None where the catalogue's are."""
        return self.measured.get(self.box.driver_id or 0)

    @property
    def low_pass(self) -> float | None:
        """The low-pass of the channel that feeds the box."""
        channel = self.box.channel
        return channel.lowpass_frequency if channel else None

    @property
    def used_up_to(self) -> float | None:
        """The highest frequency it is heard at, down the slope of its low-pass; None without."""
        return played_up_to(self.box.channel) if self.box.channel else None

    @cached_property
    def figures(self) -> list[Figure]:
        """Its numbers; most pages of a job show none of them."""
        if self.alone is None or self.played is None:
            return []
        wood, net = self.shell or self.wood, self.net_volume
        solved = figures_of(self.alone, self.played, self.feed, net, wood, self.port)
        return [*solved, *self.placed]

    @cached_property
    def curves(self) -> Mapping[str, Curve]:
        """Its curves by name, as the channel plays it."""
        return curves_of(self.played) if self.played else {}

    @cached_property
    def beside(self) -> Mapping[str, Sequence[Curve]]:
        """Drawn beside a curve of that name: unfiltered, hot, or at the stated voltage."""
        if self.alone is None or self.played is None or self.hot is None:
            return {}
        hot = self.played.at(frequencies=FREQUENCIES, driver=self.hot)
        return beside(self.alone, self.played, hot, stated=self.box.test_voltage)

    @cached_property
    def bands(self) -> SpreadBands | None:
        """Where nine in ten builds lie, as the channel plays them."""
        if self.driver is None or self.load is None:
            return None
        return remembered.bands(
            driver=self.driver,
            load=self.load,
            voltage=self.voltage,
            series_resistance=self.feed.series_resistance,
            filters=self.feed.filters,
            tolerances=self._tolerances,
        )

    @property
    def _tolerances(self) -> Tolerances | None:
        """How far parts and build stray: as measured, or None for the usual."""
        own = self.measured_set.tolerances if self.measured_set else None
        sure = self.shell.tolerance if self.shell else None
        if sure is None:
            return own
        return replace(own or Tolerances(), volume=min(sure, MOST_TOLERANCE))

    @cached_property
    def modes(self) -> ModeVerdict | None:
        """The standing waves between its walls; None without walls."""
        if self.wood is None:
            return None
        top = self.used_up_to or remembered.USED_UP_TO
        return remembered.standing_waves(self.wood, highest_used=top)

    @cached_property
    def findings(self) -> list[Finding]:
        """Everything the checks have to say; what cannot be judged adds nothing."""
        if self.refused is not None or self.driver is None:
            return list(self.checked)
        top_known = self.used_up_to is not None
        sure = check_sure(
            self.box,
            self.driver,
            self.bands,
            self.modes,
            top_known=top_known,
            voltage=self.voltage,
        )
        return [*self.checked, *sure]


def work_out_box(
    box: Box,
    feed: Feed = NOTHING,
    measured: Measured = NOTHING_MEASURED,
    *,
    proposed: Channel | None = None,
) -> BoxResult:
    """Work one box out; whatever stands in the way becomes a finding, never an exception.

    `proposed` is the channel that plays its driver: it is named where none feeds the box.
    """
    part: Driver | None = getattr(box.driver.part, "driver", None) if box.driver else None
    if part is None:
        nobody = box_finding(box, "box-without-driver", severity="look")
        return BoxResult(box=box, checked=[nobody, *check_held(box, None)], measured=measured)
    findings: list[Finding] = check_feed(box, proposed)
    try:
        return _solved(box, part, feed, measured, findings)
    except AcousticsError as error:
        value = unnamed(error, _keys_by_name(box))
        findings.append(box_finding(box, "box-cannot-be", value=value, refused=error))
        findings += check_held(box, None)
        return BoxResult(box=box, checked=findings, refused=error, measured=measured)


def wood_of(box: Box) -> BoxResult:
    """Work out the wood of a box and nothing else; without a driver there is none, as above."""
    try:
        wood = wood_and_port(box)[1] if box.driver and hasattr(box.driver.part, "driver") else None
    except AcousticsError:
        wood = None
    return BoxResult(box=box, checked=(), wood=wood)


def _keys_by_name(box: Box) -> dict[str, str]:
    """What in a refusal is the name of a record, and the key to stand in its place."""
    driver, radiator, material = box.driver, box.radiator, box.material
    keys = {str(item.part): about(item).id for item in (driver, radiator) if item}
    if radiator:
        keys[passive(str(radiator.part))] = about(radiator, "passive").id
    if material:
        keys[str(material)] = about(material).id
    return keys


def _solved(
    box: Box, part: Driver, feed: Feed, measured: Measured, findings: list[Finding]
) -> BoxResult:
    own = measured.get(box.driver_id or 0)
    completed = drivers.completed(part, own)
    findings += adopt(
        completed.findings, section=SECTION, about=about(box), name=str(part), places={}
    )
    driver = drivers.equivalent(part, box, box.channel, own)
    port, wood = wood_and_port(box)
    if wood:
        findings += adopt(
            wood.findings, section=SECTION, about=about(box), name=box.name, places=wood.places
        )
    moulded = shell(box, port.length if port else None)
    if moulded:
        findings += adopt(moulded.findings, section=SECTION, about=about(box), name=box.name)
    net = moulded.net if moulded else wood.carcass.net_volume if wood else box.wanted_volume
    front = wood.front_volume if wood else None
    load = enclosure(box, net, port, measured, front)
    voltage = feed.voltage or box.test_voltage
    alone = sweep(
        driver=driver,
        box=load,
        frequencies=FREQUENCIES,
        voltage=voltage,
        series_resistance=feed.series_resistance,
    )
    played = alone.at(frequencies=FREQUENCIES, filters=feed.filters) if feed.filters else alone
    findings += check_box(box, part, played, net, wood)
    mass = moulded.skin_mass if moulded else wood.mass.known if wood else None
    findings += check_held(box, mass)
    if feed.voltage:
        findings += check_coil(box, part, alone, feed)
    standing = look(box, wood)
    findings += standing.findings
    return BoxResult(
        box=box,
        checked=findings,
        driver=driver,
        load=load,
        voltage=voltage,
        feed=feed,
        measured=measured,
        net_volume=net,
        port=port,
        wood=wood,
        shell=moulded,
        alone=alone,
        played=played,
        hot=heated(driver),
        place=standing.place,
        placed=standing.figures,
    )
