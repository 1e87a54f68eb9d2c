"""Where the limits of the wiring checks come from; their words live with the pages."""

from enum import StrEnum


class Source(StrEnum):
    """A standard, a sheet or a habit that a limit is taken from; the value is its stable key."""

    COMMON_PRACTICE = "common-practice"
    # -- sheets of those who make the parts, and what a person has to enter
    AMPLIFIER_SHEET = "amplifier-sheet"
    BATTERY_SHEET = "battery-sheet"
    SOURCE_SHEET = "source-sheet"
    TERMINAL_SHEET = "terminal-sheet"
    TERMINAL_MAKERS = "terminal-makers"  # copper-only lugs exclude aluminium
    FUSE_GUIDE = "fuse-guide"  # 75 % of the rating, 0.5 %/°C above 25 °C
    FUSE_STANDARD = "iso-8820"  # carries 110 % for ever; from memory
    CONTACT_SHEET = "contact-sheet"  # of a switch, relay or isolator
    PART_SHEET = "part-sheet"
    SMALL_CABLE = "small-cable"  # UK guidance for 0.65 mm²; 3 A for 0.5 mm², common practice
    GROUND_LIMIT = "ground-limit"  # 0.5 mΩ above 50 A common practice; AC 43.13-1B 2.5 mΩ
    LUGS = "ac-43-13-1b-11-174"
    COMMANDED_CHARGING = "commanded-charging"  # trade article: 12.5 V or below in the low phase
    HUM = "hum"  # handbook practice
    PARTS_VOLTAGE = "parts-voltage"
    CABLE_MAKER_IF_LARGER = "cable-maker-if-larger"
    VEHICLE_INSTRUCTIONS = "vehicle-instructions"
    ACCESSORY_LIMIT = "accessory-limit"
    TO_BE_ENTERED = "to-be-entered"
    BRIEF = "brief"
    # -- law and standards
    CONDUCTOR_TABLE = "33-cfr-183-425-table-5"
    CONDUCTOR_TABLE_OR_MAKER = "33-cfr-183-425-table-5-or-maker"
    CABLE_EDGES = "33-cfr-183-445"  # and ISO 10133:2012, 7.5
    FUSE_PLACE = "33-cfr-183-455-b"
    FUSE_PLACE_AT_BATTERY = "abyc-e-11-at-battery"  # 72 in, sheathed, on a battery
    FUSE_RATING = "33-cfr-183-455-c"  # allows 150 %, 100 % is kept
    THREE_PERCENT = "abyc-e-11-iso-10133"  # of 12 V
    BREAKING = "abyc-e-11-table-v-a"  # or E/(R_warm + R_out), if larger
    ADIABATIC = "iec-60364-5-54"
    CRANKING = "cranking"  # ISO 16750-2 and VW 80000: up to 10 s
    CODE_A = "iso-16750-2-code-a"  # 16 V in a 12 V system
    IN_PROPORTION = "in-proportion"  # other systems than 12 V
    BEND = "icea-bend"  # 4 × the outer diameter and more
    PULL = "ul-486a"  # copper, 26 AWG to 2/0 AWG
    ORANGE_COVERING = "un-r100-covering"
    ORANGE_CABLES = "un-r100-cables"
    # -- laws of nature and habits of the trade
    KIRCHHOFF = "kirchhoff"
    PEUKERT = "peukert"
    FIVE_PERCENT_RULE = "five-percent-rule"
    REMOTE_OUTPUTS = "remote-outputs"  # trade pages, the lowest of 150 to 300 mA
    SERVICE_TEXTS = "service-texts"  # vehicle makers', the lowest of 50 to 85 mA
