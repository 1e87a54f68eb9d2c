"""What a wiring check says, as data: code, place, value, limit, source. No sentences here."""

from dataclasses import dataclass

from wiring.errors import WiringError

STOP = "stop"  # must not be fitted so
LOOK = "look"  # a person must decide
NOTE = "note"  # good to know

# Each comment says when the code fires -> what cures it.
CODES: dict[str, str] = {
    # -- the tree itself ------------------------------------------------------------------
    "loop": STOP,  # runs form a ring, current can go round a fuse -> open the ring
    "load-without-source": STOP,  # no run leads from any source to this load -> connect it
    "node-without-source": NOTE,  # a node nothing feeds, with no load on it -> connect or remove
    "two-mains-on-one-stud": LOOK,  # more cable lugs on a battery than studs -> fit a block
    "length-unknown": STOP,  # run has no length (value: "out" or "return") -> measure, enter
    "conductor-unknown": STOP,  # run has no conductor chosen (value: out/return) -> choose one
    "return-unknown": STOP,  # chassis return never measured, or no return -> measure, enter
    "source-resistance-unknown": STOP,  # inner resistance of a source not entered -> enter it
    "load-draw-unknown": STOP,  # power or efficiency of a load not entered -> enter it
    "no-solution": STOP,  # loads want value W, tree carries at most limit W -> shorter/bigger/less
    "voltage-below-load-minimum": STOP,  # load gets less than its maker's least V -> bigger cable
    "converter-at-limit": LOOK,  # DC-DC gives its limit, battery makes up the rest -> less load
    # -- carrying current -----------------------------------------------------------------
    "ampacity-exceeded": STOP,  # worst-case current above what the conductor may carry -> bigger
    "ampacity-outside-table": STOP,  # no published rating for this size/bundle -> enter sheet's
    "insulation-below-ambient": STOP,  # insulation class not above the zone's heat -> other cable
    "insulation-unknown": LOOK,  # temperature class not entered, 60 degC assumed -> enter it
    "drop-over-limit": LOOK,  # V lost to this run/load above limit at worst case -> bigger cable
    # -- fuses ----------------------------------------------------------------------------
    "unprotected-conductor": STOP,  # a source reaches this end (value) with no fuse -> fit a fuse
    "second-source-unprotected": STOP,  # fused at one end, other end (value) also fed -> fuse it
    "fuse-above-conductor": STOP,  # fuse(s) feeding the run above its ampacity -> smaller fuse
    "fuse-below-load": STOP,  # worst-case current above the fuse's warm rating -> bigger fuse
    "fuse-load-above-75-percent": LOOK,  # above 75 % of the warm rating -> next bigger fuse
    "fuse-beyond-178-mm": LOOK,  # fuse 178-457 mm from the feed -> move closer, or sheathe to 1 m
    "fuse-beyond-457-mm": LOOK,  # 457-1829 mm from the feed (common practice) -> move closer
    "fuse-beyond-1829-mm": STOP,  # more than 1829 mm from the feed -> move closer
    "fuse-distance-unknown": LOOK,  # how far the fuse sits from the feed not entered -> measure
    "breaking-capacity-low": STOP,  # prospective current above the fuse's -> other fuse type
    "breaking-capacity-unknown": LOOK,  # not on the part's sheet / not entered -> enter, or change
    "fault-current-unknown": LOOK,  # neither maker's figure nor resistance of source -> enter
    # -- short circuit --------------------------------------------------------------------
    "insulation-damaged-first": STOP,  # fuse lets I2t through above k2S2 -> smaller fuse/bigger
    "fuse-may-not-open": STOP,  # far-end fault below the first point of the curve -> smaller fuse
    "fuse-opens-slowly": LOOK,  # far-end fault takes more than 5 s to clear -> smaller/faster fuse
    "fuse-curve-unknown": LOOK,  # no opening time entered from the part's sheet -> enter a point
    "cold-resistance-unknown": LOOK,  # neither CCA nor cold resistance of the battery -> enter
    # -- ends and amplifiers --------------------------------------------------------------
    "terminal-unsuited-to-metal": STOP,  # copper-only lug on CCA or aluminium -> rated lug
    "terminal-metal-unknown": LOOK,  # CCA or aluminium, lug's rating not entered -> enter it
    "load-below-amplifier-lowest": STOP,  # speakers' ohms below amplifier's least -> rewire
    "amplifier-lowest-unknown": LOOK,  # amplifier's least load not entered -> enter it
    # -- supply, transient, speaker and signal runs, terminals, heat ------------------------
}


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing a check has to say about one place in the wiring.

    Attributes:
        code: stable code, a key of CODES
        where: label of the run, node, source, load or fuse
        value: what was found [in unit], a short word, or None if unknown
        limit: what it was held against [in unit], a short word, or None
        unit: SI unit of value and limit, "" for words
        source: where the limit comes from

    Raises:
        WiringError: if the code is not in CODES

    Source: definition
    """

    code: str
    where: str
    value: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    source: str = ""

    def __post_init__(self) -> None:
        if self.code not in CODES:
            raise WiringError(name="finding code", value=self.code, limit="one of CODES")

    @property
    def severity(self) -> str:
        """How much the finding weighs: stop, look or note.

        Returns:
            the severity of the code

        Source: definition
        """
        return CODES[self.code]
