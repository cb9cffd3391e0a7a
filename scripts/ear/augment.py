"""Rooms, noises, microphones and unsteady voices, laid over clean speech on the GPU.

Shapes: waves are (batch, samples) at 16 kHz, full scale 1. Nothing here moves a sound by more than
a few milliseconds, so labels made on the clean speech stay right.
"""

from __future__ import annotations

import math

import torch
from torch import Tensor

from . import features

RATE = features.RATE
ROOM_SAMPLES = 8000
WARPS = (0.82, 0.86, 0.9, 0.94, 0.97, 1.0, 1.0, 1.0, 1.03, 1.06, 1.1, 1.15)


def _uniform(count: int, low: float, high: float, device: torch.device) -> Tensor:
    return torch.rand(count, device=device) * (high - low) + low


def _chance(count: int, share: float, device: torch.device) -> Tensor:
    return torch.rand(count, device=device) < share


def rooms(count: int, share: float, device: torch.device) -> Tensor:
    """Return impulse responses (count, ROOM_SAMPLES): a direct sound, then a random decay.

    RT60 0.1 to 0.6 s, the span of living rooms (common practice, no source).
    """
    time = torch.arange(ROOM_SAMPLES, device=device) / RATE
    decay = torch.exp(-6.9 * time / _uniform(count, 0.1, 0.6, device)[:, None])
    tail = torch.randn(count, ROOM_SAMPLES, device=device) * decay
    tail[:, :32] *= 0.2
    loudness = _uniform(count, 0.05, 0.9, device) * _chance(count, share, device)
    tail *= (loudness / tail.norm(dim=1))[:, None]
    tail[:, 0] = 1.0
    return tail


def microphones(count: int, bins: int, device: torch.device) -> Tensor:
    """Return gains (count, bins) over 0 to 8 kHz: random tilt, and for some a narrow band."""
    knots = torch.randn(count, 1, 9, device=device) * _uniform(count, 0, 5, device)[:, None, None]
    decibels = torch.nn.functional.interpolate(knots, bins, mode="linear", align_corners=True)
    gains = 10 ** (decibels[:, 0] / 20)
    hertz = torch.linspace(0, RATE / 2, bins, device=device)
    kind = torch.rand(count, device=device)
    telephone, dull = kind < 0.14, (kind >= 0.14) & (kind < 0.28)
    low = torch.where(telephone, _uniform(count, 100, 320, device), torch.full_like(kind, 1.0))
    high = torch.full_like(kind, 1e6)
    high = torch.where(telephone, _uniform(count, 3200, 3900, device), high)
    high = torch.where(dull, _uniform(count, 4200, 7500, device), high)
    band = 1 / (1 + (low[:, None] / hertz.clamp(min=1.0)) ** 8)
    return gains * torch.sqrt(band / (1 + (hertz / high[:, None]) ** 16))


def coloured_noise(count: int, samples: int, device: torch.device) -> Tensor:
    """Return steady noise from hiss (kettle) to rumble, (count, samples)."""
    spectrum = torch.fft.rfft(torch.randn(count, samples, device=device))
    place = torch.arange(1, spectrum.shape[1] + 1, device=device).float()
    slope = place ** (-_uniform(count, -0.4, 1.1, device)[:, None])
    return torch.fft.irfft(spectrum * slope, samples)


def clinks(count: int, samples: int, device: torch.device) -> Tensor:
    """Return short bursts such as cups and needles make, (count, samples)."""
    time = torch.arange(samples, device=device) / RATE
    sound = torch.zeros(count, samples, device=device)
    for _ in range(3):
        start = _uniform(count, 0, samples / RATE, device)[:, None]
        pitch = _uniform(count, 900, 6000, device)[:, None]
        since = (time - start).clamp(min=0)
        ring = torch.exp(-since / _uniform(count, 0.005, 0.06, device)[:, None])
        sound += ring * torch.sin(2 * math.pi * pitch * since) * (time > start)
    return sound


def crowd(sound: Tensor, count: int, samples: int, fewest: int = 1) -> Tensor:
    """Return talk of *fewest* to six people at once, (count, samples): a television, a full room.

    sound: speech on end, 16-bit; each talker is another stretch of it, up to 4 dB softer.
    """
    device = sound.device
    place = torch.arange(samples, device=device)
    talkers = torch.randint(fewest, 7, (count,), device=device)
    total = torch.zeros(count, samples, device=device)
    for talker in range(6):
        start = torch.randint(max(1, sound.numel() - samples), (count,), device=device)
        index = (start[:, None] + place).clamp(max=sound.numel() - 1)
        wave = sound[index].float()
        wave /= wave.pow(2).mean(1, keepdim=True).sqrt().clamp(min=1.0)
        gain = 10 ** (_uniform(count, -4, 0, device) / 20) * (talkers > talker)
        total += wave * gain[:, None]
    return total


def unsteady(waves: Tensor) -> Tensor:
    """Return the waves with tremor for some: 4 to 7 Hz in pitch (up to 3 %) and in loudness."""
    count, samples = waves.shape
    device = waves.device
    time = torch.arange(samples, device=device) / RATE
    rate = _uniform(count, 4, 7, device)[:, None]
    phase = 2 * math.pi * (rate * time + torch.rand(count, 1, device=device))
    chosen = _chance(count, 0.15, device)[:, None]
    reach = _uniform(count, 0.005, 0.03, device)[:, None] / (2 * math.pi * rate) * RATE * chosen
    place = (torch.arange(samples, device=device) + reach * torch.sin(phase)).clamp(0, samples - 2)
    before = place.long()
    part = place - before
    bent = waves.gather(1, before) * (1 - part) + waves.gather(1, before + 1) * part
    depth = _uniform(count, 0.0, 0.5, device)[:, None] * chosen
    return bent * (1 - depth * (0.5 + 0.5 * torch.sin(phase)))


def _level(waves: Tensor) -> Tensor:
    """Return the loudness of the sounding part, (batch, 1): root mean square of loud samples."""
    loud = waves.abs() > 0.02 * waves.abs().amax(1, keepdim=True)
    return ((waves**2 * loud).sum(1, keepdim=True) / loud.sum(1, keepdim=True).clamp(min=1)).sqrt()


def add_noise(waves: Tensor, noise: Tensor, decibels: Tensor) -> Tensor:
    """Return waves with noise at *decibels* (batch,) below the speech."""
    noise_level = noise.pow(2).mean(1, keepdim=True).sqrt().clamp(min=1e-9)
    gain = _level(waves) / noise_level * 10 ** (-decibels[:, None] / 20)
    return waves + noise * gain


def swelling(noise: Tensor, share: float) -> Tensor:
    """Return the noise with, for some, a loudness that comes and goes, as talk and water do."""
    count, samples = noise.shape
    device = noise.device
    knots = torch.randn(count, 1, 3 + samples // 4000, device=device) * 6
    decibels = torch.nn.functional.interpolate(knots, samples, mode="linear", align_corners=True)
    swells = 10 ** (decibels[:, 0] / 20)
    return noise * torch.where(_chance(count, share, device)[:, None], swells, 1.0)


def heard_through(waves: Tensor, share: float) -> Tensor:
    """Return the waves, some of them overdriven, or in the 8-bit steps of a telephone line."""
    count = waves.shape[0]
    kind = torch.rand(count, 1, device=waves.device) / share
    peak = waves.abs().amax(1, keepdim=True).clamp(min=1e-6)
    clipped = waves.clamp(-0.4 * peak, 0.4 * peak)
    # mu-law of ITU-T G.711, mu 255
    folded = torch.sign(waves) * torch.log1p(255 * (waves / peak).abs()) / math.log(256)
    stepped = (folded * 127).round() / 127
    coarse = torch.sign(stepped) * torch.expm1(stepped.abs() * math.log(256)) / 255 * peak
    return torch.where(kind < 0.4, clipped, torch.where(kind < 1, coarse, waves))


def disturb(clean: Tensor, talk: Tensor) -> Tensor:
    """Return clean speech as a far, noisy or unsteady speaker would give it; full scale 1.

    Three in five clips get steady or swelling noise, most of it 0 to 18 dB below the speech; half
    of them *talk*, of the same shape, through a room of its own, most of it 2 to 14 dB below.
    """
    count, samples = clean.shape
    device = clean.device
    padded = samples + ROOM_SAMPLES
    spectrum = torch.fft.rfft(unsteady(clean), padded)
    spectrum *= torch.fft.rfft(rooms(count, 0.5, device), padded)
    microphone = microphones(count, spectrum.shape[1], device)
    waves = torch.fft.irfft(spectrum * microphone, padded)[:, :samples]
    peak = waves.abs().amax(1, keepdim=True).clamp(min=1e-6)
    waves = waves / peak * 10 ** (_uniform(count, -30, -1, device)[:, None] / 20)
    quiet = torch.full((count,), 200.0, device=device)
    loud = torch.where(
        _chance(count, 0.7, device), _uniform(count, 0, 18, device), _uniform(count, 15, 40, device)
    )
    steady = torch.where(_chance(count, 0.58, device), loud, quiet)
    noise = swelling(coloured_noise(count, samples, device), 0.3)
    waves = add_noise(waves, noise, steady)
    far = torch.fft.rfft(talk, padded) * torch.fft.rfft(rooms(count, 0.7, device), padded)
    behind = torch.fft.irfft(far * microphone, padded)[:, :samples]
    near = torch.where(
        _chance(count, 0.7, device), _uniform(count, 2, 14, device), _uniform(count, 12, 28, device)
    )
    waves = add_noise(waves, behind, torch.where(_chance(count, 0.5, device), near, quiet))
    bursts = torch.where(_chance(count, 0.08, device), _uniform(count, 15, 35, device), quiet)
    waves = add_noise(waves, clinks(count, samples, device), bursts)
    waves = heard_through(waves, 0.08)
    floor = 10 ** (_uniform(count, -95, -70, device)[:, None] / 20)
    waves = waves + torch.randn_like(waves) * floor
    return (waves.clamp(-1, 1) * 32767).round() / 32767


def masked(energies: Tensor, share: float) -> Tensor:
    """Return (batch, frames, bands) with a band and two times of some clips at the clip's mean."""
    count, frames, bands = energies.shape
    device = energies.device
    place, band = torch.arange(frames, device=device), torch.arange(bands, device=device)
    width = _uniform(count, 0, 9, device)[:, None]
    start = _uniform(count, 0, bands - 4, device)[:, None]
    hidden = ((band >= start) & (band < start + width))[:, None, :].expand_as(energies)
    for _ in range(2):
        length = _uniform(count, 0, 9, device)[:, None]
        begin = _uniform(count, 0, frames, device)[:, None]
        hidden = hidden | ((place >= begin) & (place < begin + length))[:, :, None]
    hidden = hidden & _chance(count, share, device)[:, None, None]
    return torch.where(hidden, energies.mean((1, 2), keepdim=True), energies)


class Cepstra:
    """The features of `features.py` in torch, with a vocal tract length of choice."""

    def __init__(self, device: torch.device) -> None:
        banks = {warp: features.mel_bank(warp) for warp in WARPS}
        self._banks = {
            warp: torch.as_tensor(bank.T, dtype=torch.float32, device=device)
            for warp, bank in banks.items()
        }
        turn = features.cosine_transform().T
        self._cosine = torch.as_tensor(turn, dtype=torch.float32, device=device)
        self._window = torch.as_tensor(features.window(), dtype=torch.float32, device=device)

    def __call__(
        self, waves: Tensor, warp: float = 1.0, dither: float = 1.0, *, masks: float = 0.0
    ) -> Tensor:
        """Return (batch, frames, 40) of waves at full scale 1.

        masks: the share of clips that lose a band of frequencies and two short times.
        """
        frames = (waves * 32768.0).unfold(1, features.FRAME, features.STEP)
        frames = frames + torch.randn_like(frames) * dither
        frames = frames - frames.mean(2, keepdim=True)
        before = torch.cat([frames[..., :1], frames[..., :-1]], 2)
        shaped = (frames - features.PRE_EMPHASIS * before) * self._window
        power = torch.fft.rfft(shaped, features.FFT).abs() ** 2
        energies = (power @ self._banks[warp]).clamp(min=features.FLOOR).log()
        if masks:
            energies = masked(energies, masks)
        return energies @ self._cosine


def at_speed(waves: Tensor, speed: float) -> Tensor:
    """Return the waves played *speed* times as fast (pitch moves too), (batch, samples / speed)."""
    samples = waves.shape[1]
    wanted = round(samples / speed)
    spectrum = torch.fft.rfft(waves)
    bins = wanted // 2 + 1
    if bins <= spectrum.shape[1]:
        spectrum = spectrum[:, :bins]
    else:
        spectrum = torch.nn.functional.pad(spectrum, (0, bins - spectrum.shape[1]))
    return torch.fft.irfft(spectrum, wanted) * (wanted / samples)
