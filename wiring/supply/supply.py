"""Supply budget while driving: what the charging source has to spare, and cautions about it."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from wiring.errors import require_between, require_not_negative, require_positive
from wiring.findings import Finding
from wiring.names import Name
from wiring.sources import Source
from wiring.supply.amplifier import Amplifier


class Tap(StrEnum):
    """The network of the vehicle that feeds the added equipment.

    Attributes:
        LOW: the 12 V network
        FORTY_EIGHT: the 48 V network of a mild hybrid
        HIGH: the high-voltage network, orange cables
    """

    LOW = "12 V"
    FORTY_EIGHT = "48 V"
    HIGH = "high voltage"


@dataclass(frozen=True, kw_only=True)
class Alternator:
    """An alternator as the rating plate and a person describe it.

    Attributes:
        rated_current: rated current IR at 6000 1/min of its shaft, None when unknown [A]
        idle_current: current IL at 1500 1/min of its shaft, None when unknown [A]
        hot_factor: hot output over the rated output, None when unknown [-]

    Raises:
        OutOfRangeError: a current is not above 0, the idle current is above the rated one, or
            the factor is not within 0 to 1.

    Source: rating style IL / IR of ISO 8854:2012.
    """

    rated_current: float | None
    idle_current: float | None
    hot_factor: float | None

    def __post_init__(self) -> None:
        """Refuse an alternator that cannot exist."""
        _require(Name.RATED_CURRENT, self.rated_current, "A")
        _require(Name.IDLE_CURRENT, self.idle_current, "A", high=self.rated_current)
        _require(Name.HOT_FACTOR, self.hot_factor, "-", high=1.0)

    def output(self, *, idling: bool) -> float | None:
        """Current when hot, idling or at speed.

        I = hot factor × IL (idling) or hot factor × IR (at speed).

        Args:
            idling: True for the idle speed of the engine

        Returns: current, None when a figure is unknown [A]

        Source: ISO 8854:2012 for IL and IR.
        """
        rated = self.idle_current if idling else self.rated_current
        if rated is None or self.hot_factor is None:
            return None
        return rated * self.hot_factor


@dataclass(frozen=True, kw_only=True)
class DcDcConverter:
    """A converter that makes the 12 V network from a higher one.

    Attributes:
        current_limit: greatest continuous output current, None when unknown [A]
        accessory_limit: most added load the vehicle maker allows, for an added converter its
            own limit, None when unknown [A]

    Raises:
        OutOfRangeError: a figure is not above 0.
    """

    current_limit: float | None
    accessory_limit: float | None

    def __post_init__(self) -> None:
        """Refuse a converter that cannot exist."""
        _require(Name.CURRENT_LIMIT, self.current_limit, "A")
        _require(Name.ACCESSORY_LIMIT, self.accessory_limit, "A")

    def output(self, *, idling: bool) -> float | None:
        """Continuous current; the converter does not care whether an engine idles.

        Args:
            idling: accepted so that both charging sources answer the same question

        Returns: current, None when unknown [A]
        """
        return self.current_limit


@dataclass(frozen=True, kw_only=True)
class VehicleSupply:
    """What the vehicle's own network does; None means nobody has found out yet.

    Attributes:
        start_stop: the engine stops by itself at rest
        smart_charging: the charging voltage is commanded, with a sensor on the battery
        high_voltage: the vehicle has a high-voltage network
        tap: the network that feeds the added equipment
    """

    start_stop: bool | None
    smart_charging: bool | None
    high_voltage: bool | None
    tap: Tap = Tap.LOW


@dataclass(frozen=True, kw_only=True)
class Demand:
    """What draws on the charging source; None means unknown.

    Attributes:
        amplifiers: the amplifiers fitted
        share: average output over rated output for the programme played [-]
        voltage: lowest supply voltage at the amplifiers with the engine running, from the
            power tree; a commanded charging voltage can be as low as 12.2 V [V]
        other_current: every other added load, its average [A]
        vehicle_current: the vehicle's own load, the worst usual case [A]
        charge_current: current into the battery while it recovers [A]

    Raises:
        OutOfRangeError: a current is negative, the voltage is not above 0, or the share is not
            above 0 and at most 1.
    """

    amplifiers: Sequence[Amplifier]
    share: float
    voltage: float
    other_current: float
    vehicle_current: float | None
    charge_current: float | None

    def __post_init__(self) -> None:
        """Refuse a demand that cannot exist."""
        _require(Name.OUTPUT_SHARE, self.share, "-", high=1.0)
        _require(Name.SUPPLY_VOLTAGE, self.voltage, "V")
        for name in ("other_current", "vehicle_current", "charge_current"):
            value = getattr(self, name)
            if value is not None:
                require_not_negative(name=Name(name.replace("_", "-")), value=value, unit="A")

    def added_current(self, share: float) -> float:
        """Current of everything added, with the amplifiers at one share of their output.

        Args:
            share: output over rated output [-]

        Returns: current [A]

        Raises:
            OutOfRangeError: the share is not within 0 and 1.

        Source: constant-power amplifiers, see Amplifier.current.
        """
        audio = sum(float(a.current(share=share, voltage=self.voltage)) for a in self.amplifiers)
        return audio + self.other_current


@dataclass(frozen=True, kw_only=True)
class SupplyBudget:
    """What remains of the charging source; None where a figure is unknown.

    Attributes:
        audio_average: average current of everything added [A]
        audio_peak: current of everything added with all amplifiers at full output [A]
        spare_driving: charging current at speed, hot, less vehicle, battery and audio [A]
        spare_idling: the same with the engine idling [A]
    """

    audio_average: float
    audio_peak: float
    spare_driving: float | None
    spare_idling: float | None


def supply_budget(source: Alternator | DcDcConverter, demand: Demand) -> SupplyBudget:
    """Current the charging source has to spare at speed and at idle.

    I_spare = I_source(hot) − I_vehicle − I_charge − I_added(average).

    Args:
        source: alternator or converter
        demand: everything that draws on it

    Returns: average and peak current of the added equipment, spare current [A]

    Valid: average over minutes; peaks come from the battery.

    Source: common practice, no source.
    """
    average = demand.added_current(demand.share)

    def spare(output: float | None) -> float | None:
        if output is None or demand.vehicle_current is None or demand.charge_current is None:
            return None
        return output - demand.vehicle_current - demand.charge_current - average

    return SupplyBudget(
        audio_average=average,
        audio_peak=demand.added_current(1.0),
        spare_driving=spare(source.output(idling=False)),
        spare_idling=spare(source.output(idling=True)),
    )


def check_supply(
    *, source: Alternator | DcDcConverter, demand: Demand, vehicle: VehicleSupply
) -> tuple[Finding, ...]:
    """Findings on the supply budget and cautions about the vehicle's network.

    Args:
        source: alternator or converter
        demand: everything that draws on it
        vehicle: what the vehicle's own network does

    Returns: findings; an unknown figure is one of them

    Source: common practice, no source; the limits come from the vehicle and part makers.
    """
    budget = supply_budget(source, demand)
    findings = [*_unknown_figures(source, demand), *vehicle_cautions(vehicle)]
    if budget.spare_driving is not None and budget.spare_driving < 0.0:
        findings.append(_short("supply-short-driving", budget.spare_driving))
    idle_matters = isinstance(source, Alternator)
    if idle_matters and budget.spare_idling is not None and budget.spare_idling < 0.0:
        findings.append(_short("supply-short-idling", budget.spare_idling))
    if isinstance(source, DcDcConverter):
        findings += _dc_dc_limits(source, budget)
    return tuple(findings)


def _unknown_figures(source: Alternator | DcDcConverter, demand: Demand) -> list[Finding]:
    figures: dict[str, tuple[str, object]] = {
        "vehicle-load-unknown": ("vehicle", demand.vehicle_current),
        "battery-charge-current-unknown": ("battery", demand.charge_current),
    }
    if isinstance(source, Alternator):
        figures |= {
            "alternator-rated-current-unknown": ("alternator", source.rated_current),
            "alternator-idle-current-unknown": ("alternator", source.idle_current),
            "alternator-hot-factor-unknown": ("alternator", source.hot_factor),
        }
    else:
        figures |= {
            "dc-dc-current-unknown": ("DC-DC converter", source.current_limit),
            "dc-dc-accessory-limit-unknown": ("DC-DC converter", source.accessory_limit),
        }
    findings = [
        Finding(code=code, detail=(part,), source=(Source.TO_BE_ENTERED,))
        for code, (part, value) in figures.items()
        if value is None
    ]
    findings += [
        Finding(
            code="amplifier-idle-power-unknown",
            about=a.id,
            unit="W",
            source=(Source.TO_BE_ENTERED,),
        )
        for a in demand.amplifiers
        if a.idle_power is None
    ]
    return findings


def vehicle_cautions(vehicle: VehicleSupply) -> tuple[Finding, ...]:
    """Cautions about the vehicle's network that hold whatever the budget says.

    Args:
        vehicle: what the vehicle's own network does

    Returns: findings; what nobody has found out is one of them

    Source: vehicle makers' instructions; UN R100, 5.1.1.5.3
    """
    findings = []
    maker = (Source.VEHICLE_INSTRUCTIONS,)
    for answer, code, unknown in (
        (vehicle.start_stop, "start-stop-caution", "start-stop-unknown"),
        (vehicle.smart_charging, "smart-charging-caution", "smart-charging-unknown"),
        (vehicle.high_voltage, "high-voltage-vehicle-caution", "high-voltage-vehicle-unknown"),
    ):
        if answer is None:
            findings.append(Finding(code=unknown, detail=("vehicle",), source=maker))
        elif answer:
            findings.append(Finding(code=code, detail=("vehicle",), source=maker))
    if vehicle.tap is Tap.HIGH:
        source = (Source.ORANGE_CABLES, Source.VEHICLE_INSTRUCTIONS)
        findings.append(Finding(code="high-voltage-tap", detail=("vehicle",), source=source))
    if vehicle.tap is Tap.FORTY_EIGHT:
        source = (Source.PARTS_VOLTAGE, Source.VEHICLE_INSTRUCTIONS)
        findings.append(Finding(code="forty-eight-volt-tap", detail=("vehicle",), source=source))
    return tuple(findings)


def _dc_dc_limits(source: DcDcConverter, budget: SupplyBudget) -> list[Finding]:
    """The maker's limit on added load, held against the average and against the peak."""
    limit = source.accessory_limit
    if limit is None:
        return []
    if budget.audio_average > limit:
        code, value = "dc-dc-accessory-limit-exceeded", budget.audio_average
    elif budget.audio_peak > limit:
        code, value = "dc-dc-accessory-limit-exceeded-on-peaks", budget.audio_peak
    else:
        return []
    return [
        Finding(
            code=code,
            detail=("DC-DC converter",),
            value=value,
            limit=limit,
            unit="A",
            source=(Source.ACCESSORY_LIMIT,),
        )
    ]


def _short(code: str, spare: float) -> Finding:
    return Finding(
        code=code,
        detail=("charging source",),
        value=spare,
        limit=0.0,
        unit="A",
        source=(Source.COMMON_PRACTICE,),
    )


def _require(name: Name, value: float | None, unit: str, *, high: float | None = None) -> None:
    """Raise unless a known value is above 0 and at most an upper limit."""
    if value is None:
        return
    require_positive(name=name, value=value, unit=unit)
    if high is not None:
        require_between(name=name, value=value, low=0.0, high=high, unit=unit)
