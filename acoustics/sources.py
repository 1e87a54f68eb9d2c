"""Where the limits of the acoustic checks come from; their words live with the pages."""

from enum import StrEnum


class Source(StrEnum):
    """A published work, a sheet or a habit a limit is taken from; the value is its stable key."""

    COMMON_PRACTICE = "common-practice"
    FIVE_PERCENT = "five-percent"  # common practice
    DRIVER_SHEET = "driver-sheet"
    SHEET_SIZE = "sheet-size"
    SMALL_DRIVER = "small-1972-driver"  # JAES 20, 383-395
    SMALL_LEAKAGE = "small-1973-leakage"  # JAES 21, Part III
    SMALL_PORT = "small-1973-port-speed"  # 5 % of the speed of sound, from memory
    SMALL_PORT_AREA = "small-1973-port-area"  # JAES 21, Part II, from memory
    RAYLEIGH_PIPE = "rayleigh-pipe"  # Theory of Sound II, § 255
    SMALL_EVEN_PEAK = "small-1972-even-peak"  # the fitted driver's √(f1·f2); 1 %: common practice
    MORSE_INGARD = "morse-ingard-1968"  # § 9.5
    DRAWS = "draws"  # 2 000 draws of the stated tolerances
    # Tolerances of a comparison: the usual ones, or one that the caller asked for.
    WITHIN_FIVE_PERCENT = "tolerance-5-percent"
    CATALOGUE_FIFTEEN_PERCENT = "catalogue-15-percent"
    TOLERANCE_ASKED = "tolerance-asked"
