"""Starting values: the voltage to set, the tone to set it with, level, and where a cone beams."""

import pytest

from acoustics.errors import OutOfRangeError
from acoustics.setup.start import (
    beams_from,
    gain_setting,
    in_samples,
    largest_level,
    tone_frequency,
)


def test_the_reading_is_the_amplifiers_voltage_less_the_tones_level():
    """100 W into 4 Ω are 20 V at full scale; a tone 12 dB below reads 5.02 V."""
    setting = gain_setting(amplifier=20.0, load=4.0, bears=150.0)
    assert (setting.full, setting.reading) == pytest.approx((20.0, 5.0238), abs=1e-4)
    assert not setting.held_by_coil


def test_the_coil_says_where_to_stop():
    """A coil that bears 40 W at 4 Ω stops at 12.65 V, whatever the amplifier can give."""
    setting = gain_setting(amplifier=20.0, load=4.0, bears=40.0)
    assert (setting.coil, setting.full) == pytest.approx((12.6491, 12.6491), abs=1e-4)
    assert setting.held_by_coil


def test_what_the_filters_take_is_in_the_reading():
    """A tone at the corner of a Linkwitz-Riley filter reads half."""
    whole = gain_setting(amplifier=20.0, load=4.0, bears=None)
    half = gain_setting(amplifier=20.0, load=4.0, bears=None, passed=0.5)
    assert half.reading == pytest.approx(whole.reading / 2)
    assert half.coil is None


@pytest.mark.parametrize(
    ("lower", "upper", "tone"),
    [
        *((22.0, 70.0, 40.0), (70.0, 380.0, 125.0), (380.0, 3200.0, 800.0)),
        *((3200.0, None, 6300.0), (None, 80.0, 40.0), (None, None, 40.0)),
    ],
)
def test_the_tone_lies_in_the_band(lower, upper, tone):
    """A nominal frequency amid what the channel plays, never far above its lower end."""
    assert tone_frequency(lower, upper) == tone


def test_equal_drivers_add_up_by_how_they_are_connected():
    """Two in parallel are 6 dB louder at one voltage, two in series just as loud."""
    single = largest_level(90.0, 2.83, in_series=1, in_parallel=1)
    assert single == pytest.approx(90.0)
    assert largest_level(90.0, 2.83, in_series=1, in_parallel=2) == pytest.approx(96.02, abs=0.01)
    assert largest_level(90.0, 2.83, in_series=2, in_parallel=1) == pytest.approx(90.0)
    assert largest_level(90.0, 28.3, in_series=1, in_parallel=1) == pytest.approx(110.0)


def test_a_cone_beams_from_where_its_rim_is_two_wavelengths():
    """A 16 cm cone (132 cm²) beams from 1.69 kHz: k a = 2."""
    assert beams_from(0.0132) == pytest.approx(1685.0, abs=2.0)
    assert beams_from(4 * 0.0132) == pytest.approx(beams_from(0.0132) / 2)


def test_a_delay_is_dialled_in_whole_samples():
    """1.4569 ms are 70 samples at 48 kHz and 64 at 44.1 kHz."""
    assert in_samples(1.4569e-3, 48_000.0) == 70
    assert in_samples(1.4569e-3, 44_100.0) == 64
    with pytest.raises(OutOfRangeError):
        in_samples(-1e-3, 48_000.0)
