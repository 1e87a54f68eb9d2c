"""What a wiring check says, as data: code, record, value, limit, source. No sentences here."""

from dataclasses import dataclass

from wiring.sources import Source

STOP = "stop"  # must not be fitted so
LOOK = "look"  # a person must decide
NOTE = "note"  # good to know

# What a finding says of a run besides its id: which end of it, and which way.
START, END, OUT, RETURN = "start", "end", "out", "return"
START_FUSE, END_FUSE = "start fuse", "end fuse"

ABOVE = 1 + 1e-9  # tolerance of a comparison, so that a limit met exactly is met

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
    "current-limit-unknown": STOP,  # most a DC-DC or alternator gives not entered -> enter it
    "load-draw-unknown": STOP,  # power or efficiency of a load not entered -> enter it
    "no-solution": STOP,  # loads want value W, tree carries at most limit W -> shorter/bigger/less
    "voltage-below-load-minimum": STOP,  # load gets less than its maker's least V -> bigger cable
    "converter-feeds-itself": STOP,  # its output is joined to its input -> take one run away
    "networks-joined": STOP,  # sources of different networks on one (V) -> separate them
    "voltage-above-part": STOP,  # load reached by more than its maker allows (V) -> converter
    "highest-voltage-unknown": LOOK,  # highest supply voltage not entered, not 12 V -> enter it
    "battery-never-charged": LOOK,  # one of several batteries, nothing leads to it -> link it
    "no-isolator": LOOK,  # second battery beside the one that starts the engine -> isolator
    "commanded-charge-falls": LOOK,  # car lets its charging fall, battery stays low -> converter
    "contact-over-rating": STOP,  # switch, relay or diode carries more than its A -> larger one
    "contact-rating-unknown": LOOK,  # what a contact may carry not entered -> enter it
    "contact-fuse-above-rating": LOOK,  # fuses let more through than its rating -> smaller fuse
    "converter-at-limit": LOOK,  # DC-DC gives its limit, battery makes up the rest -> less load
    # -- carrying current -----------------------------------------------------------------
    "ampacity-exceeded": STOP,  # worst-case current above what the conductor may carry -> bigger
    "ampacity-outside-table": STOP,  # no published rating for this size/bundle -> enter sheet's
    "insulation-below-ambient": STOP,  # insulation class not above the zone's heat -> other cable
    "insulation-unknown": LOOK,  # temperature class not entered, 60 °C assumed -> enter it
    "drop-over-limit": LOOK,  # V lost to this run/load above limit at worst case -> bigger cable
    # -- fuses ----------------------------------------------------------------------------
    "unprotected-conductor": STOP,  # a source reaches this end (value) with no fuse -> fit a fuse
    "second-source-unprotected": STOP,  # fused at one end, other end (value) also fed -> fuse it
    "fuse-above-conductor": STOP,  # fuse(s) feeding the run above its ampacity -> smaller fuse
    "fuse-below-load": STOP,  # worst-case current above the fuse's warm rating -> bigger fuse
    "fuse-above-part": STOP,  # supply fuse above what the load's maker asks for -> smaller fuse
    "fuse-below-part": LOOK,  # supply fuse below what the load's maker asks for -> decide
    "main-fuse-below-sum": LOOK,  # below the makers' fuses behind it -> larger, or state diversity
    "bank-fuse-below-note": LOOK,  # a bank's fuse below the current of a note -> larger, cable too
    "fuse-beyond-run-end": STOP,  # fuse farther from the feed than the run is long -> measure
    "fuse-load-above-75-percent": LOOK,  # above 75 % of the warm rating -> next bigger fuse
    "fuse-beyond-178-mm": LOOK,  # bare, to 457 mm: a habit beyond the rule -> closer, or sheathe
    "fuse-beyond-1016-mm": LOOK,  # sheathed, at a battery, to 1829 mm: beyond the rule -> closer
    "fuse-too-far": STOP,  # farther than any allowance -> move closer
    "fuse-distance-unknown": LOOK,  # how far the fuse sits from the feed not entered -> measure
    "breaking-capacity-low": STOP,  # prospective current above the fuse's -> other fuse type
    "breaking-capacity-unknown": LOOK,  # not on the part's sheet / not entered -> enter, or change
    "fault-current-unknown": LOOK,  # neither maker's figure nor resistance of source -> enter
    "fuse-voltage-low": STOP,  # rated voltage below what its network can reach -> other fuse
    "fuse-voltage-unknown": LOOK,  # rated voltage not entered from the part's sheet -> enter it
    # -- short circuit --------------------------------------------------------------------
    "insulation-damaged-first": STOP,  # fuse lets I2t through above k2S2 -> smaller fuse/bigger
    "fuse-may-not-open": STOP,  # far-end fault below the first point of the curve -> smaller fuse
    "fuse-opens-slowly": LOOK,  # far-end fault takes more than 5 s to clear -> smaller/faster fuse
    "fuse-curve-unknown": LOOK,  # no opening time entered from the part's sheet -> enter a point
    "fuse-opens-on-start": STOP,  # starting the engine opens it (time s) -> isolator, larger both
    "fuse-may-open-on-start": LOOK,  # starting current above 110 % of it -> isolator
    "start-overheats-run": STOP,  # starting heats the cable above its class -> isolator, larger
    "low-voltage-on-start": NOTE,  # load below its maker's least while starting -> mute, turn off
    "cold-resistance-unknown": LOOK,  # neither CCA nor cold resistance of the battery -> enter
    # -- ends and amplifiers --------------------------------------------------------------
    "terminal-unsuited-to-metal": STOP,  # copper-only lug on CCA or aluminium -> rated lug
    "terminal-metal-unknown": LOOK,  # CCA or aluminium, lug's rating not entered -> enter it
    "load-below-amplifier-lowest": STOP,  # speakers' ohms below amplifier's least -> rewire
    "amplifier-lowest-unknown": LOOK,  # amplifier's least load not entered -> enter it
    # -- supply budget --------------------------------------------------------------------
    "alternator-rated-current-unknown": LOOK,  # IR of the plate not entered -> read it, enter
    "alternator-idle-current-unknown": LOOK,  # IL of the plate not entered -> read it, enter
    "alternator-hot-factor-unknown": LOOK,  # loss of output when hot not entered -> ask maker
    "vehicle-load-unknown": LOOK,  # vehicle's own load not entered -> measure, enter
    "battery-charge-current-unknown": LOOK,  # recovering battery's current not entered -> enter
    "amplifier-idle-power-unknown": LOOK,  # idle input not entered; bound used -> enter sheet's
    "supply-short-driving": STOP,  # average draw above hot output at speed by -value -> less load
    "supply-short-idling": LOOK,  # the same at idle: battery drains in a queue -> less load
    "start-stop-caution": LOOK,  # engine stops, audio runs on the battery -> size reserve
    "start-stop-unknown": LOOK,  # nobody found out whether the engine stops by itself -> find out
    "smart-charging-caution": LOOK,  # commanded voltage, sensor on battery -> ground on car side
    "smart-charging-unknown": LOOK,  # nobody found out how charging is commanded -> find out
    "high-voltage-vehicle-caution": LOOK,  # orange cables in the car -> qualified people, maker
    "high-voltage-vehicle-unknown": LOOK,  # nobody found out whether it has one -> find out
    "high-voltage-tap": STOP,  # added kit fed from the high-voltage network -> feed from 12 V
    "forty-eight-volt-tap": STOP,  # 12 V kit fed from the 48 V network -> feed from 12 V
    "dc-dc-current-unknown": LOOK,  # converter's continuous current not entered -> enter
    "dc-dc-accessory-limit-unknown": LOOK,  # maker's limit on added load not entered -> ask maker
    "dc-dc-accessory-limit-exceeded": STOP,  # average added load above maker's limit -> less load
    "dc-dc-accessory-limit-exceeded-on-peaks": LOOK,  # full output above it -> ask maker, less
    "reserve-unknown": LOOK,  # battery's capacity, rate or exponent not entered -> enter
    "reserve-short": LOOK,  # plays shorter than wanted with engine off -> bigger battery, less
    "key-off-added-high": LOOK,  # added kit asleep draws above 10 mA -> find what stays awake
    "key-off-added-unknown": LOOK,  # added kit's draw asleep not measured -> measure after sleep
    "key-off-total-high": LOOK,  # whole car asleep draws above 50 mA -> find what stays awake
    "key-off-total-unknown": LOOK,  # whole car's draw asleep not measured -> measure after sleep
    # -- bass note ------------------------------------------------------------------------
    "note-collapses": STOP,  # note's power above the most the feed can give -> shorter/bigger feed
    "note-below-minimum-voltage": LOOK,  # amplifier may switch off on the note -> better feed
    "amplifier-minimum-voltage-unknown": LOOK,  # least supply voltage not entered -> enter sheet's
    "capacitor-needs-fuse-and-slow-charge": NOTE,  # a bank is a source -> fuse, charge via resistor
    "capacitor-gain-small": NOTE,  # bank lifts the lowest voltage by under 0.1 V -> leave out
    # -- speaker, line-level and control runs ---------------------------------------------
    "speaker-load-unknown": STOP,  # impedance of the speakers not entered -> enter, measure
    "speaker-run-resistance-unknown": LOOK,  # length or cable not entered -> enter
    "speaker-run-ampacity-unknown": LOOK,  # cable's ampacity in its zone unknown -> enter
    "speaker-run-over-ampacity": STOP,  # current at rated output above ampacity -> bigger cable
    "speaker-run-loss": LOOK,  # cable's loop above 5 % of the load -> bigger or shorter cable
    "load-held-up-by-cable": LOOK,  # speakers below amplifier's least, cable lifts them -> rewire
    "bridged-output-has-no-ground": NOTE,  # no speaker terminal is ground -> keep both insulated
    "run-length-unknown": LOOK,  # length of the run not entered -> measure, enter
    "line-treble-loss": LOOK,  # cable takes more than 0.1 dB at 20 kHz -> shorter, better driver
    "line-treble-unknown": NOTE,  # source resistance or cable capacitance unknown -> enter
    "line-beside-power": NOTE,  # lies along a power run for value m -> move away, cross at 90 deg
    "line-beside-power-unknown": NOTE,  # nobody noted what it lies beside -> look, enter
    "turn-on-limit-unknown": LOOK,  # source's remote-output limit not entered -> enter sheet's
    "turn-on-current-unknown": LOOK,  # a turn-on or coil current not entered -> enter, measure
    "turn-on-needs-relay": STOP,  # turn-on current above the source's limit -> fit a relay
    "turn-on-may-need-relay": LOOK,  # above 150 mA and the source's limit unknown -> fit a relay
    "relay-coil-over-limit": STOP,  # coil alone draws more than the source may give -> other relay
    "signal-on-supply": STOP,  # line or speaker run that begins at the supply -> control, fused
    "control-unprotected": STOP,  # fed by a battery, block or circuit, no fuse -> fuse at its start
    "control-fuse-above-cable": STOP,  # fuse above what its cable may carry -> smaller fuse
    "control-over-ampacity": STOP,  # current above what its cable may carry -> larger cable
    "control-output-above-cable": STOP,  # device's output gives more than that -> fuse, larger
    "control-cable-unrated": STOP,  # no figure for what this cable may carry -> 0.5 mm² or more
    "control-feed-unknown": LOOK,  # nobody noted what feeds it -> enter it
    "relay-without-coil": LOOK,  # current of a relay's coil not entered -> enter it
    "coil-diode-unknown": LOOK,  # nobody noted whether the coil is suppressed -> look, enter
    "coil-without-diode": LOOK,  # coil switches off unsuppressed -> diode, stripe to plus
    # -- returns and ground points --------------------------------------------------------
    "return-end-unknown": LOOK,  # where the minus of a run ends not entered -> enter it
    "ground-not-bare": STOP,  # a return ends on paint -> bare metal, seal afterwards
    "ground-surface-unknown": LOOK,  # metal under the lug not noted -> look, enter
    "ground-resistance-unknown": LOOK,  # to the battery's minus, not measured -> measure
    "ground-resistance-high": LOOK,  # above the limit for its current -> clean, larger, plate
    "ground-on-sensed-post": STOP,  # charging is commanded, return on the post -> sensor side
    "ground-lugs-many": LOOK,  # more than four lugs on one stud -> a second stud
    "shared-return-over-ampacity": STOP,  # returns together above what their cable may carry
    "shared-return-drop": LOOK,  # returns together lose more than the limit -> larger cable
    "hum-grounds-apart": LOOK,  # what hands the signal on is grounded elsewhere -> one point
    "hum-shared-drop": NOTE,  # a shared way back shifts the grounds by (dB below line level)
    # -- terminals and routes -------------------------------------------------------------
    "fuse-holder-not-chosen": LOOK,  # a fuse has nothing that holds it -> choose a holder
    "fuse-terminal-not-chosen": LOOK,  # an end at a fuse has no terminal -> choose one
    "terminal-not-chosen": LOOK,  # an end of a core has no terminal -> choose one
    "stud-torque-unknown": LOOK,  # torque not entered from the part maker's sheet -> enter it
    "terminal-wrong-size": STOP,  # cable outside what the terminal is made for -> other terminal
    "terminal-size-unknown": NOTE,  # terminal's range of cables not entered -> enter it
    "terminal-wrong-stud": STOP,  # hole of the terminal is not the stud's -> other terminal
    "holder-ways": STOP,  # more runs than the block has ways -> larger block
    "holder-cable": STOP,  # cable larger than the block takes -> other block, smaller cable
    "holder-over-rating": STOP,  # more current than the block may carry -> other block
    "holder-rating-unknown": LOOK,  # what the block may carry not entered -> enter it
    "holder-for-other-fuse": STOP,  # the holder is made for another fuse -> other holder
    "holder-fuse-unknown": NOTE,  # which fuse the holder takes not entered -> enter it
    "fuse-above-holder": STOP,  # fuse above what its holder may carry -> other holder or fuse
    "signal-above-input": LOOK,  # level found in the loom above what the input takes -> converter
    "high-level-into-line": STOP,  # speaker signal into an unread line input -> converter
    "data-without-interface": STOP,  # bus or fibre into a part that reads none -> interface
    "join-kind-unknown": LOOK,  # nobody noted what a joined pin carries -> find out, enter
    "join-level-unknown": LOOK,  # nobody measured what comes out of a joined pin -> measure
    "device-without-supply": LOOK,  # no power run to a converter or interface -> enter it
    "interface-without-data": STOP,  # no joined pin of a bus or fibre leads to it -> join it
    "calls-open": LOOK,  # nobody asked whether a call must be heard over the music -> ask
    "mute-run-missing": LOOK,  # a call must be heard, nothing mutes the music -> mute run
    "input-limit-unknown": LOOK,  # what the input takes not entered -> enter it
    "signal-run-missing": LOOK,  # no signal run leads to a processor or amplifier -> enter it
    "turn-on-run-missing": LOOK,  # nothing turns a processor or amplifier on -> enter it
    "route-missing": LOOK,  # a run without a route -> enter the places it passes
    "run-wrong-side": LOOK,  # end on the other side than the panel next to it -> label or route
    "run-crosses-car": LOOK,  # both ends on one side, route on the other too -> lay it otherwise
    "side-unknown": NOTE,  # side of a panel or an end not entered -> enter it
    "pull-force-unpublished": NOTE,  # no published pull force for size/metal -> terminal maker's
    "grommet-missing": STOP,  # cable passes a metal edge bare -> fit grommet or edge guard
    "passage-unknown": LOOK,  # edge or grommet of a passage not recorded -> look, enter
    "bend-too-tight": LOOK,  # inner radius below the limit -> larger bend
    "bend-radius-unknown": LOOK,  # tightest bend not measured -> measure, enter
    "outer-diameter-unknown": LOOK,  # over the insulation, not entered -> measure, enter
    # -- heat -----------------------------------------------------------------------------
    "amplifier-in-closed-space": LOOK,  # gives off value W on average, no air -> vent or move
    "amplifier-air-unknown": LOOK,  # nobody noted whether air can move there -> look, enter
}


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing a check has to say about one place in the wiring.

    Attributes:
        code: stable code, a key of CODES
        about: id of the run, node, source, load or amplifier it is about, as it was handed in;
            empty when it is about what was asked for as a whole
        detail: which end, core, fuse or figure of it, in words of the package's own
        value: what was found [in unit], a short word, or None if unknown
        limit: what it was held against [in unit], a short word, or None
        unit: SI unit of value and limit, "" for words
        source: where the limit comes from
        state: the state of the car in which it holds, in words of the package's own

    Raises:
        KeyError: if the code is not in CODES
    """

    code: str
    about: str = ""
    detail: tuple[str, ...] = ()
    value: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    source: tuple[Source, ...] = ()
    state: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.code not in CODES:
            raise KeyError(self.code)

    @property
    def severity(self) -> str:
        """How much the finding weighs: stop, look or note.

        Returns:
            the severity of the code
        """
        return CODES[self.code]
