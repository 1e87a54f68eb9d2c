"""A signal as the bytes of a WAV file, a second at a time, or of a FLAC file."""

import io
import struct
import wave
from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
import soundfile

from acoustics.errors import COUNT, OutOfRangeError, Quantity, RecordingError
from acoustics.names import Name
from acoustics.setup.signals import RATES, Signal
from acoustics.values import Floats

BITS = (16, 24)
LOWEST_RATE = 20_000  # half of what a recording of the sweep needs [Hz]
LONGEST = 120.0  # of a recording that is read [s]
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


def flac(signal: Signal, *, rate: int, bits: int) -> bytes:
    """The same samples as in the WAV file, packed without loss.

    Args:
        signal: what it holds
        rate: sample rate [Hz]
        bits: bits of a sample [-]

    Returns: the file [-]

    Raises:
        OutOfRangeError: neither 44.1 nor 48 kHz, neither 16 nor 24 bit.

    Source: RFC 9639, Free Lossless Audio Codec, as libsndfile writes it.
    """
    _require(rate, bits)
    packed = io.BytesIO()
    with soundfile.SoundFile(
        packed, "w", rate, signal.channels, format="FLAC", subtype=f"PCM_{bits}"
    ) as file:
        for samples in _seconds(signal, rate):
            # The library takes numbers of 32 bits and keeps the upper ones.
            file.write(_whole(samples, bits) << (32 - bits))
    return packed.getvalue()


def read_wav(content: bytes) -> tuple[Floats, int]:
    """What a recorder wrote: of several channels the loudest, full scale 1.

    Args:
        content: the file

    Returns: the samples and their rate [-, Hz]

    Raises:
        RecordingError: no WAV file of whole numbers, longer than two minutes, or of a sample rate
            that holds no treble.

    Valid: PCM with 16, 24 or 32 bit.

    Source: as `wav`.
    """
    try:
        with wave.open(io.BytesIO(content)) as file:
            width, count, rate = file.getsampwidth(), file.getnchannels(), file.getframerate()
            if file.getnframes() > LONGEST * rate:
                seconds = Quantity(file.getnframes() / rate, "s")
                limit = Quantity(LONGEST, "s")
                raise RecordingError(code="recording-long", value=seconds, limit=limit)
            raw = np.frombuffer(file.readframes(file.getnframes()), np.uint8)
    except (wave.Error, EOFError, struct.error, ZeroDivisionError) as error:
        raise RecordingError(code="recording-not-wav") from error
    if width not in (2, 3, 4) or not len(raw):
        raise RecordingError(code="recording-not-wav")
    if rate < 2 * LOWEST_RATE:
        limit = Quantity(2.0 * LOWEST_RATE, "Hz")
        raise RecordingError(code="recording-slow", value=Quantity(rate, "Hz"), limit=limit)
    frames = raw[: len(raw) // (width * count) * width * count].reshape(-1, width)
    # The bytes of a number stand at the top of four, so that its sign is theirs.
    four = np.zeros((len(frames), 4), np.uint8)
    four[:, 4 - width :] = frames
    samples: Floats = four.view("<i4").reshape(-1, count) / 2.0**31
    return samples[:, int((samples**2).sum(axis=0).argmax())], rate


def _pieces(signal: Signal, rate: int, bits: int, length: int) -> Iterator[bytes]:
    block = signal.channels * bits // 8
    yield struct.pack(
        "<4sI4s4sIHHIIHH4sI",
        *(b"RIFF", length - 8, b"WAVE", b"fmt ", 16, 1, signal.channels, rate),
        *(rate * block, block, bits, b"data", length - HEADER),
    )
    for samples in _seconds(signal, rate):
        yield _whole(samples, bits).view(np.uint8).reshape(-1, 4)[:, : bits // 8].tobytes()


def _seconds(signal: Signal, rate: int) -> Iterator[Floats]:
    frames = _frames(signal, rate)
    for first in range(0, frames, rate):
        yield signal.samples(np.arange(first, min(first + rate, frames), dtype=float), rate)


def _whole(samples: Floats, bits: int) -> npt.NDArray[np.int32]:
    whole: npt.NDArray[np.int32] = np.rint(samples * (2 ** (bits - 1) - 1)).astype("<i4")
    return whole


def _frames(signal: Signal, rate: int) -> int:
    return round(signal.seconds * rate)


def _require(rate: int, bits: int) -> None:
    if rate not in RATES:
        raise OutOfRangeError(Name.SAMPLE_RATE, rate, "Hz", one_of=RATES)
    if bits not in BITS:
        raise OutOfRangeError(Name.SAMPLE_BITS, bits, COUNT, one_of=BITS)
