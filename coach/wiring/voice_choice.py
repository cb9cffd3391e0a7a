"""The maker's choice of voice and devices, as the adapters want it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from coach.app.settings import Settings

if TYPE_CHECKING:
    from coach.adapters.voice_settings import VoiceSettings


def voice_settings_of(settings: Settings) -> VoiceSettings:
    """Return how the maker wants to be spoken to, and through which loudspeaker."""
    from coach.adapters.voice_settings import VoiceSettings  # noqa: PLC0415 - only if wanted

    natural = settings.natural_voice
    return VoiceSettings(
        words_per_minute=settings.rate,
        loudness=settings.loudness,
        voice=settings.voice,
        device=settings.loudspeaker or None,
        natural=Path(natural).expanduser() if natural else None,
    )
