"""WAV and AIFF files taken apart by their content; no numbers made of the samples yet.

Engines name files as they please: macOS writes AIFF into a file called .wav. Loads nothing but
the standard library, for it also runs where a speech engine must start fast.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass


class NotSoundError(ValueError):
    """The bytes are no finished sound file that can be read."""


@dataclass(frozen=True, slots=True)
class RawSound:
    """Raw samples as they stand in a file; *order* is "<" or ">" as in `struct`.

    floating: the samples are floating-point numbers from -1 to 1, not whole numbers.
    """

    data: bytes
    channels: int
    rate: int
    bits: int
    order: str
    floating: bool = False


def take_apart(content: bytes) -> RawSound:
    """Return the raw sound in *content*, a whole WAV or AIFF file.

    Raises:
        NotSoundError: not such a file, not yet closed by its writer, or without one sample.
    """
    if content[:4] == b"RIFF" and content[8:12] == b"WAVE":
        raw = _from_wav(_chunks(content, "<"))
    elif content[:4] == b"FORM" and content[8:12] in {b"AIFF", b"AIFC"}:
        raw = _from_aiff(_chunks(content, ">"), compressed=content[8:12] == b"AIFC")
    else:
        raise NotSoundError("the sound file is neither WAV nor AIFF")
    known = {32, 64} if raw.floating else {8, 16, 24, 32}
    if raw.bits not in known or raw.channels < 1 or raw.rate < 1:
        raise NotSoundError("the sound file is coded in a way that can't be read")
    if len(raw.data) < raw.bits // 8 * raw.channels:
        raise NotSoundError("the sound file is empty")
    return raw


def _chunks(content: bytes, order: str) -> dict[bytes, bytes]:
    (length,) = struct.unpack(f"{order}I", content[4:8])
    if length + 8 > len(content):
        raise NotSoundError("the sound file is cut short")
    found: dict[bytes, bytes] = {}
    at = 12
    while at + 8 <= len(content):
        name = content[at : at + 4]
        (size,) = struct.unpack(f"{order}I", content[at + 4 : at + 8])
        if at + 8 + size > len(content):
            raise NotSoundError("the sound file is cut short")
        found[name] = content[at + 8 : at + 8 + size]
        at += 8 + size + size % 2
    return found


def _from_wav(chunks: dict[bytes, bytes]) -> RawSound:
    described = chunks.get(b"fmt ", b"")
    if len(described) < 16 or b"data" not in chunks:
        raise NotSoundError("the sound file has no sound in it")
    coding, channels, rate, _, _, bits = struct.unpack("<HHIIHH", described[:16])
    if coding == 0xFFFE and len(described) >= 26:  # "see below": the true coding comes later
        (coding,) = struct.unpack("<H", described[24:26])
    if coding not in {1, 3}:  # whole numbers, floating-point numbers
        raise NotSoundError("the sound file is coded in a way that can't be read")
    return RawSound(chunks[b"data"], channels, rate, bits, "<", floating=coding == 3)


def _from_aiff(chunks: dict[bytes, bytes], *, compressed: bool) -> RawSound:
    common, sound = chunks.get(b"COMM", b""), chunks.get(b"SSND", b"")
    if len(common) < 18 or len(sound) < 8:
        raise NotSoundError("the sound file has no sound in it")
    channels, _, bits = struct.unpack(">hIh", common[:8])
    exponent, mantissa = struct.unpack(">HQ", common[8:18])  # an 80-bit extended float
    rate = int(mantissa * 2.0 ** ((exponent & 0x7FFF) - 16383 - 63))
    coding = common[18:22] if compressed else b"NONE"
    if coding not in {b"NONE", b"twos", b"sowt"}:
        raise NotSoundError("the sound file is coded in a way that can't be read")
    return RawSound(sound[8:], channels, rate, bits, "<" if coding == b"sowt" else ">")
