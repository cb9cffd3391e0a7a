"""Makes the giant screen for a visit, with the maker's own keys, colours, size and switch."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coach.guide.bindings import BINDINGS
from coach.tui.app import CoachApp
from coach.tui.inks import theme_named
from coach.tui.keys import Guard, keymap
from coach.tui.window import Look
from coach.wording.words import Words

if TYPE_CHECKING:
    from coach.wiring.visit import Visit


def make_screen(visit: Visit) -> CoachApp:
    """Return the screen as the settings want it, telling *visit* what is changed on it."""
    settings = visit.settings
    try:
        keys = keymap(BINDINGS, settings.keys)
    except ValueError as fault:
        keys = keymap(BINDINGS)
        visit.notices.append(Words(f"Your own keys are left out: {fault}.", "Keys left out"))
    screen = CoachApp(
        keys=keys,
        guard=Guard(lock_out=settings.lock_out),
        theme=theme_named(settings.colours),
        look=Look(size=settings.size),
        changed=visit.keep,
        offers=visit.say,
        log=visit.log("screen.log"),
    )
    for name in ("letters", "acceptance", "scan_seconds"):  # the rest was given above
        screen.try_on(name, getattr(settings, name))
    return screen
