"""What an acoustic check says, as data; the sentences live with the pages."""

from dataclasses import dataclass

from acoustics.sources import Source

# code -> severity. The comment says when the code fires and what cures it.
CODES: dict[str, str] = {
    # --- driver parameters -------------------------------------------------------------------
    # A given parameter differs from what the others lead to by more than the tolerance.
    # Cure: correct the typed value, or measure the driver.
    "driver-parameters-contradict": "look",
    # One in twenty of the parts and builds the tolerances allow moves further (than value), past
    # Xmax (limit), though some stay below. Cure: lower level, high-pass, other box.
    "spread-crosses-xmax": "look",
    # As above with the fastest air in the port (value) and the speed accepted (limit).
    # Cure: larger port, lower level.
    "spread-crosses-port-speed": "look",
    # --- standing waves inside the box ---------------------------------------------------------
    # The lowest rigid-walled mode (value) lies below the highest frequency used (limit).
    # Cure: absorbing material where the mode has its pressure, a lower low-pass, a divided box.
    "standing-wave-in-band": "look",
    # The lowest mode (value) lies above the highest frequency used (limit): nothing to do.
    "standing-waves-above-band": "note",
    # Nobody said how high the box plays; its lowest mode is value. Cure: say it.
    "band-top-unknown": "note",
    # A box that is not square: its lowest mode (value) against that of the square box of the same
    # height, width and volume (limit); the number of modes in the used band differs.
    "box-shape-matters": "note",
    # As above, and the number of modes in the used band is the same: a sloped panel gains nothing.
    "box-shape-does-not-matter": "note",
    # --- measured sweeps -----------------------------------------------------------------------
    # The points either side of resonance have a geometric mean (value) more than 1 % away from
    # that of the fitted driver (limit). Cure: measure again, free air, lower level, finer steps.
    "sweep-not-symmetric": "look",
    # The fitted curve misses the measured one by more (value) than the limit, root mean square.
    # Cure: measure again; a rattle, a box too close or a defective driver does this.
    "sweep-fits-badly": "look",
    # Re (value) was fitted, and the coil is so lossy that the fit may hide it. Cure: a meter.
    "coil-resistance-fitted": "note",
    # A measured parameter (value) is outside the tolerance of the catalogue's (limit).
    # Cure: measure again, correct the catalogue, or design with the measured set.
    "measured-differs-from-catalogue": "look",
    # --- sweeps of finished boxes --------------------------------------------------------------
    # The finished box resonates elsewhere (value) than the drawn one (limit), by more than 3 %.
    # Cure: trim the port or the mass; a closed box: look for lost litres or another driver.
    "box-tuned-off": "look",
    # Taken as one leak, what the box loses is a lower Q (value) than a sound box has (limit).
    # Cure: find the leak: driver gasket, terminals, seams.
    "box-leaks": "look",
    # One leak misses the curve by value; losses in port and lining too miss it by limit.
    # Cure: look at the port's edges and what lies in its way, and at the lining.
    "losses-not-one-leak": "look",
    # No box of its kind fits the measured curve well (value, limit). Cure: rattle, loose part.
    "box-sweep-fits-badly": "look",
    # --- boxes of wood -------------------------------------------------------------------------
    # Litres (value) of a moulded shape rest on a single fill, on few areas, or on a skin of which
    # nobody knows how even it is. Cure: fill again, more areas, measure the skin at places.
    "litres-error-unknown": "look",
    # A larger share (value) of the net volume than usual (limit) may be missing. Cure: likewise.
    "litres-unsure": "look",
    # A bevel (value) is steeper than the saw tilts (limit). Cure: another joint, or a jig.
    "bevel-beyond-saw": "look",
    # A side of a part (value) is longer than the trimmed sheet gives it, along the grain where that
    # is to be kept (limit). Cure: larger sheets, a smaller or divided panel, grain let go.
    "part-larger-than-sheet": "stop",
    # The room from the mounting face to the far wall, along the driver's axis and at its nearest
    # place (value), is less than the driver is deep (limit). Cure: deeper box, another place.
    "driver-deeper-than-box": "stop",
    # That room (value) is less than the driver's depth and the gap to keep behind it (limit).
    # Cure: deeper box, other place, spacer ring.
    "driver-near-back": "look",
    # Basket or motor reaches into a wall beside it (value, negative). Cure: move it.
    "part-hits-wall": "stop",
    # Basket or motor is nearer to a wall (value) than the gap to keep (limit). Cure: move it.
    "part-near-wall": "look",
    # The flange (value) is larger than the face is (limit). Cure: larger face or smaller driver.
    "part-larger-than-face": "stop",
    # The flange reaches over the edge of its face (value, negative). Cure: move it.
    "flange-over-edge": "look",
    # A hole cuts into the panel next to its face (value, negative). Cure: move it, larger face.
    "cut-out-breaks-edge": "stop",
    # Between a hole and the next panel is less wood (value) than wanted (limit). Cure: move it.
    "cut-out-near-edge": "look",
    # Wood around the screws (value) is less than wanted (limit). Cure: move it, add a ring behind.
    "screws-off-wood": "stop",
    # A barrel (value) is longer than the wood it is let into (limit). Cure: a shorter one, a ring.
    "barrel-longer-than-wood": "stop",
    # Nobody has read how long the barrel of a fastener is, which hole it asks for, or its thread.
    "barrel-unknown": "look",
    "fastener-hole-unknown": "look",
    "fastener-thread-unknown": "look",
    # A hole was typed (value) and its fastener asks for another (limit). Cure: the part maker's.
    "fastener-hole-differs": "look",
    # A slot from wall to wall cuts a strip (value broad) off its panel. Cure: no rebate there.
    "panel-cut-apart": "look",
    # A round-over (value) is bigger than the thinnest board there (limit). Cure: a smaller bit.
    "round-over-beyond-board": "stop",
    # A flange, recess or opening lies nearer to the edge (value) than its round-over is broad
    # (limit). Cure: a smaller bit, another place.
    "round-over-meets-part": "look",
    # An opening lies where a board is bent over its kerfs. Cure: move it.
    "opening-in-bend": "look",
    # A batten or block stands beside the floor it is to carry, by value. Cure: move it.
    "support-beyond-floor": "stop",
    # A batten or block stands under a hatch or its ledge. Cure: move one of them.
    "support-under-opening": "stop",
    "support-under-hatch": "stop",
    # The middle of the floor's mass lies beyond the hull of its supports (value). Cure: another
    # support on that side.
    "floor-tips": "stop",
    # The floor reaches further (value) beyond that hull than usual (limit). Cure: one more support.
    "floor-overhangs": "look",
    # Under its load a floor bends further (value) than usual (limit). Cure: one more support.
    "floor-sags": "look",
    # Likewise at an edge that nothing carries. Cure: a batten along it, a thicker board.
    "floor-edge-sags": "look",
    # Under its load it is strained (value) beyond a third of its strength (limit). Cure: thicker.
    "floor-may-break": "stop",
    # Nobody knows how strong the sheet is; under the load it is strained by value.
    "floor-strength-unknown": "look",
    # Nobody said what it bears, or how stiff its sheet is; its widest free span is value.
    "floor-load-unknown": "look",
    "floor-stiffness-unknown": "look",
    # Less of a lid (value) lies on its ledge than wanted (limit). Cure: broader ledge.
    "lid-hardly-lies": "look",
    # With the lid off less is open (value) than a hand needs (limit). Cure: larger hatch.
    "hatch-narrow": "look",
    # Something on a board reaches over its rim by value, or over an opening of it. Cure: move it.
    "mount-beyond-board": "stop",
    "mount-over-opening": "stop",
    # Two things on a board stand in each other. Cure: move one.
    "mounts-collide": "stop",
    # Between two of them is less air (value) than one of them asks for (limit). Cure: move one.
    "mounts-crowded": "look",
    # Over the board is less room (value) than a thing on it is high (limit). Cure: lower board.
    "mount-higher-than-room": "stop",
    # Over it is less room (value) than it and its air take (limit). Cure: lower board, a fan.
    "mount-without-air": "look",
    # Nobody knows how much air it asks for, how high it is or how much room is over the board,
    # where its screws go. Cure: read the maker's sheet, measure.
    "mount-air-unknown": "look",
    "mount-height-unknown": "look",
    "mount-holes-unknown": "note",
    # Between face and grille is less room (value) than surround and cone travel take (limit).
    # Cure: higher grille, spacer ring, recess for the flange.
    "grille-hits-cone": "stop",
    # As above with the gap that is to be left. Cure: the same.
    "grille-near-cone": "look",
    # Nobody measured how far the surround stands before its flange. Cure: measure it.
    "grille-not-checked": "look",
    # A recess (value) takes more than half of the panel's thickness (limit). Cure: another layer
    # behind it, a shallower recess.
    "recess-weakens-panel": "look",
    # A recess (value) is as deep as its panel is thick (limit) or deeper. Cure: thicker wood.
    "recess-through-panel": "stop",
    # The screw circle of a part is not known. Cure: measure and enter it.
    "screw-circle-unknown": "note",
    # A port is longer (limit) than the room for it (value), or reaches into a wall beside it
    # (value, negative). Cure: bend it, larger box, smaller port, passive radiator.
    "port-does-not-fit": "stop",
    # The inner mouth of a port is nearer to the wall it faces (value) than its diameter (limit).
    # Cure: bend it, move it, shorter port.
    "port-mouth-near-wall": "look",
    # Two parts, or a part and a brace, are in one place (value ≤ 0). Cure: move one.
    "parts-collide": "stop",
    # Two braces stand in each other; the wood they share (value) is counted twice. Cure: halve
    # them into each other, or move one.
    "braces-cross": "look",
    # A port or a passive radiator opens into a chamber where no driver plays: a closed plate stands
    # between. Cure: cut a window into the plate, or move one of them.
    "opening-shut-off": "stop",
    # As above with a terminal plate: the cable must pass the closed plate. Cure: move it, or seal
    # a gland into the plate.
    "terminal-shut-off": "look",
    # A chamber in which no driver plays; its air (value) is not counted. Cure: a window in the
    # plate, or accept it as dead space.
    "air-shut-off": "look",
    # Drivers that play alike have unlike air: the least (value) and the most (limit) per driver.
    # Cure: move the plate.
    "chambers-unlike": "look",
    # A chamber lacks the port or the radiator it needs, which another has. Cure: give each its own.
    "chamber-without-opening": "stop",
    # Two parts, or a part and a brace, are nearer (value) than the gap to keep (limit). Cure: move.
    "parts-crowded": "look",
    # The first mode of the largest unbraced panel (value) lies below the top of the band (limit).
    # Cure: the brace that is proposed with it, or thicker wood.
    "panel-mode-in-band": "look",
    # Nobody has entered the mass of a part, or the density of the sheet; the rest weighs value.
    # Cure: weigh it, or take it from the maker's sheet.
    "mass-unknown": "note",
    # The stiffness or the density of the sheet is not known, so that no panel mode can be worked
    # out. Cure: enter both from the maker's sheet.
    "board-unknown": "note",
    # The box is nearer to a wall of its cavity or to an obstacle (value, negative when it is in
    # it) than the gap to keep (limit). Cure: smaller box, other place.
    "box-too-near": "stop",
    # The middle one of the box's three dimensions (value) does not go through the longer side of
    # the opening (limit), or the smallest not through the shorter. Cure: smaller or divided box.
    "box-does-not-pass-opening": "stop",
    # A side of a box (value) is longer than the opening (limit); turned in it, it goes through.
    # Cure: turn it, or build it smaller.
    "box-passes-turned": "look",
}


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing a check has to say about a design.

    Attributes:
        code: stable kebab-case key of CODES
        detail: which face, part or figure of the design it is about, in words of the package's
            own; empty for all of it
        value: value found, or None when it is unknown [as named in unit]
        limit: limit it was held against [as named in unit]
        unit: SI unit of value and limit, "" where neither is a figure
        source: where the limit comes from

    Raises:
        KeyError: the code is not in CODES.
    """

    code: str
    detail: tuple[str, ...] = ()
    value: float | str | None = None
    limit: float | str | None = None
    unit: str = ""
    source: tuple[Source, ...] = (Source.COMMON_PRACTICE,)

    def __post_init__(self) -> None:
        """Refuse a code that no sentence can be written for."""
        if self.code not in CODES:
            raise KeyError(self.code)

    @property
    def severity(self) -> str:
        """Severity of the finding: stop, look or note.

        Returns: "stop", "look" or "note"
        """
        return CODES[self.code]
