"""What stands before the maker: the present view, the messages over it, and the leaf shown of them.

A message stands until an order has been answered by something newer. Whatever is asked for again
while there is more of it to read goes on to its next leaf, so "repeat" reads a long text to its
end by voice, key and switch, and the place stays where it is.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from coach.ports import View
from coach.tui.window import Told

NOTHING_YET = View(sentence="One moment.", headline="", big=())


@dataclass(slots=True)
class Standing:
    """Takes what is shown and told, in acts: an order with all that answers it, or a notice."""

    view: View = NOTHING_YET
    leaf: int = 0
    _told: list[tuple[int, Told]] = field(default_factory=list, init=False)
    _act: int = field(default=0, init=False)
    _ordered: bool = field(default=False, init=False)

    @property
    def told(self) -> list[Told]:
        """The messages that still stand, oldest first."""
        return [told for _, told in self._told]

    def begin_act(self, *, ordered: bool = False) -> None:
        """What comes now is of one act. ordered: the maker has asked for it."""
        self._act += 1
        self._ordered = ordered

    def show(self, view: View, leaves: int) -> None:
        """Take a view. leaves: how many leaves what stands here has come to."""
        if not view.notice and replace(self.view, notice="") == view:
            self._again(leaves, [])
            return
        self._told = self._of_this_act()
        self.view, self.leaf = view, 0

    def tell(self, told: Told, leaves: int) -> None:
        """Take a message."""
        if told.full == self.view.sentence:
            self._again(leaves, [])
        elif told in self.told[-1:]:
            self._again(leaves, [(self._act, told)])
        else:
            self._told = [*(self._of_this_act() if self._ordered else self._told)]
            self._told.append((self._act, told))
            self.leaf = 0

    def turn_leaf(self, step: int, leaves: int) -> None:
        """Go on, or back, to another leaf; from the last one to the first."""
        self.leaf = (self.leaf + step) % leaves

    def _again(self, leaves: int, kept: list[tuple[int, Told]]) -> None:
        if self.leaf + 1 < leaves:
            self.leaf += 1
            return
        self._told = kept or self._of_this_act()
        self.view, self.leaf = replace(self.view, notice=""), 0

    def _of_this_act(self) -> list[tuple[int, Told]]:
        return [(act, told) for act, told in self._told if act == self._act]
