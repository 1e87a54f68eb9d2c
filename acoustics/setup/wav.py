"""A signal as the bytes of a WAV file, a second at a time."""

import struct
from collections.abc import Iterator

import numpy as np

from acoustics.errors import COUNT, OutOfRangeError
from acoustics.names import Name
from acoustics.setup.signals import RATES, Signal
from acoustics.values import Floats

BITS = (16, 24)
HEADER = 44


def wav_length(signal: Signal, *, rate: int, bits: int) -> int:
    """Length of the file.

    Args:
        signal: what it holds
        rate: sample rate [Hz]
        bits: bits of a sample [-]

    Returns: bytes [-]

    Raises:
        OutOfRangeError: neither 44.1 nor 48 kHz, neither 16 nor 24 bit.

    Source: definition.
    """
    _require(rate, bits)
    return HEADER + _frames(signal, rate) * signal.channels * bits // 8


def wav(signal: Signal, *, rate: int, bits: int) -> Iterator[bytes]:
    """The file, its header first and then a second of it at a time.

    Full scale is the largest whole number of its bits, upwards.

    Args:
        signal: what it holds
        rate: sample rate [Hz]
        bits: bits of a sample [-]

    Returns: pieces of the file, one after the other [-]

    Raises:
        OutOfRangeError: neither 44.1 nor 48 kHz, neither 16 nor 24 bit.

    Source: RIFF WAVE, format 1 (PCM), Microsoft & IBM, Multimedia Programming Interface (1991),
        from memory.
    """
    length = wav_length(signal, rate=rate, bits=bits)
    return _pieces(signal, rate, bits, length)


def _pieces(signal: Signal, rate: int, bits: int, length: int) -> Iterator[bytes]:
    block = signal.channels * bits // 8
    yield struct.pack(
        "<4sI4s4sIHHIIHH4sI",
        *(b"RIFF", length - 8, b"WAVE", b"fmt ", 16, 1, signal.channels, rate),
        *(rate * block, block, bits, b"data", length - HEADER),
    )
    frames = _frames(signal, rate)
    for first in range(0, frames, rate):
        n = np.arange(first, min(first + rate, frames), dtype=float)
        yield _packed(signal.samples(n, rate), bits)


def _packed(samples: Floats, bits: int) -> bytes:
    whole = np.rint(samples * (2 ** (bits - 1) - 1)).astype("<i4")
    kept = bits // 8
    data: bytes = whole.view(np.uint8).reshape(-1, 4)[:, :kept].tobytes()
    return data


def _frames(signal: Signal, rate: int) -> int:
    return round(signal.seconds * rate)


def _require(rate: int, bits: int) -> None:
    if rate not in RATES:
        raise OutOfRangeError(Name.SAMPLE_RATE, rate, "Hz", one_of=RATES)
    if bits not in BITS:
        raise OutOfRangeError(Name.SAMPLE_BITS, bits, COUNT, one_of=BITS)
