"""A labelled cable: its cores, where their ends are, and what is cut beyond its route."""

from dataclasses import dataclass

from wiring.cable.conductor import Conductor
from wiring.cable.markings import RunKind, colour_names, split_label
from wiring.cable.terminals import CrimpTerminal, Passage, support_count
from wiring.errors import COUNT, WiringError, require_not_negative, require_positive
from wiring.names import Name


@dataclass(frozen=True, kw_only=True)
class Cut:
    """Where a core is cut for the fuse in its way: an end goes in, another comes out.

    Attributes:
        fuse: label of the fuse
        at_start: True where its distance counts from the start of the run, False from its end
        distance: length along the core from that end, None when not entered [m]
        terminal: what both ends get, None when not chosen
        where: where in the car the holder is, empty where nobody noted it
        stud: the stud of the holder, empty where nobody noted it
    """

    fuse: str
    at_start: bool
    distance: float | None
    terminal: CrimpTerminal | None = None
    where: str = ""
    stud: str = ""


@dataclass(frozen=True, kw_only=True)
class Core:
    """One conductor of a run with its colour and its two ends.

    Attributes:
        conductor: size and metal
        colour: IEC 60757 letters, empty when not chosen
        start: terminal at the start of the run, None when not chosen
        end: terminal at the end of the run, None when not chosen
        length: its own length where it goes another way, None for that of the run [m]
        open_length: whether it goes another way that nobody has measured yet
        sign: "+" or "−" of a supply, empty for other cores
        screen: True for what lies round the others and screens them
        start_place: where its start is, empty for that of the run
        end_place: where its end is, empty for that of the run
        start_where: where in the car that place is, empty where nobody noted it
        end_where: likewise of its end
        start_stud: the stud at its start, such as "M8"; empty where nobody noted it
        end_stud: the stud at its end
        cuts: where it is cut for its fuses, from its start
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
    open_length: bool = False
    sign: str = ""
    screen: bool = False
    start_place: str = ""
    end_place: str = ""
    start_where: str = ""
    end_where: str = ""
    start_stud: str = ""
    end_stud: str = ""
    cuts: tuple[Cut, ...] = ()
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

    def cut_length(self, length: float, pieces: int = 1) -> float:
        """Length to cut for a route of this length.

        L_cut = L·(1 + slack) + 2·n·per_end.

        Args:
            length: length along the route [m]
            pieces: n, how many pieces it is laid in [-]

        Returns: length to cut [m]
        """
        return length * (1.0 + self.slack) + 2.0 * pieces * self.per_end
