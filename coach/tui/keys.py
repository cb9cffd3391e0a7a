"""Keys, pedals and touches turned into commands: one list, no chords, a held key counts once.

Nothing here reads a clock: the time of each press comes in with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from coach.guide.commands import Binding, Command

# Two pedals are keyboards that send one of these pairs; a single pedal sends one of the first row.
PEDALS: Mapping[str, Command] = {
    "space": Command.NEXT,
    "enter": Command.NEXT,
    "right": Command.NEXT,
    "down": Command.NEXT,
    "pagedown": Command.NEXT,
    "f13": Command.NEXT,
    "left": Command.BACK,
    "up": Command.BACK,
    "pageup": Command.BACK,
    "f14": Command.BACK,
    "f15": Command.REPEAT,
    "f16": Command.WHERE,
    "f17": Command.HOW_MANY,
    "f18": Command.LEFT,
    "f19": Command.EXPLAIN,
    "f20": Command.SEE,
    "f21": Command.PAUSE,
    "f22": Command.UNDO,
    "f23": Command.HELP,
    "f24": Command.STOP_TALKING,
    "ctrl+c": Command.QUIT,
}


_NEVER = float("-inf")
_LONGEST_DELAY = 0.7  # seconds before a held key first sends itself again, on usual systems


def keymap(
    bindings: Iterable[Binding], changes: Mapping[str, str] | None = None
) -> dict[str, Command]:
    """Return which key gives which command.

    changes: the maker's own keys, key name to command; "nothing" frees a key. They win.
    Raises ValueError with the name that isn't a command.
    """
    keys = dict(PEDALS)
    for binding in bindings:
        keys.update(dict.fromkeys(binding.keys, binding.command))
    for key, name in (changes or {}).items():
        if name == "nothing":
            keys.pop(key, None)
        else:
            keys[key] = Command(name)
    return keys


@dataclass(slots=True)
class Guard:
    """Lets one press through where a held key, a bounce or a trembling hand sends many.

    A key held down sends itself again after a delay and then many times a second; a terminal
    never tells that it was let go. So a press counts only if *lock_out* seconds have passed since
    the last of the same key that counted, and *held* seconds since the last of it at all.
    acceptance: seconds that a key must be held until it counts; 0 counts at once. (It shows only
    by the key sending itself again, so a keyboard without that can't be used with it.)
    EN 301 549, 5.7 and 5.8, asks for a guard adjustable to at least half a second.

    The default is 0.7 s and no less: a held key first sends itself again after 0.25 to 0.66 s on
    usual systems (common practice, no source), and a terminal can't tell that from a second press.
    With 0.35 s a pedal held down would take two steps. So a deliberate second press within 0.7 s
    is dropped too; the help and the settings say so, and it can be set from 0 to 5 s.
    """

    lock_out: float = 0.7
    held: float = 0.15
    acceptance: float = 0.0
    _counted: dict[str, float] = field(default_factory=dict, init=False)
    _pressed: dict[str, float] = field(default_factory=dict, init=False)
    _since: dict[str, float] = field(default_factory=dict, init=False)

    def counts(self, key: str, at: float) -> bool:
        """Return whether the press of *key* at time *at* (seconds) is one the maker meant."""
        since_last = at - self._pressed.get(key, _NEVER)
        self._pressed[key] = at
        if self.acceptance:
            return self._held_long_enough(key, at, since_last)
        if since_last < self.held or at - self._counted.get(key, _NEVER) < self.lock_out:
            return False
        self._counted[key] = at
        return True

    def _held_long_enough(self, key: str, at: float, since_last: float) -> bool:
        if since_last > _LONGEST_DELAY:  # pressed anew
            self._since[key] = at
            return False
        start = self._since.get(key, at)
        if at - start < self.acceptance or self._counted.get(key, _NEVER) >= start:
            return False
        self._counted[key] = at
        return True
