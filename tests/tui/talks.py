"""A conversation to drive the screen with: it keeps what it was given and answers simply."""

from __future__ import annotations

from coach.guide.commands import Command, Order
from coach.ports import Display, View
from coach.wording.words import Words
from tests.tui.views import RIB


class Talk:
    """Counts steps up and down; answers everything else with a message."""

    def __init__(self, display: Display, views: tuple[View, ...] = (RIB,)) -> None:
        self.display = display
        self.views = views
        self.step = 0
        self.orders: list[Order] = []
        self.lines: list[str] = []
        self.chosen: list[int] = []
        self.over = False

    def begin(self) -> None:
        self.display.show(self.views[0])

    def receive(self, order: Order) -> None:
        self.orders.append(order)
        if order.command is Command.QUIT:
            self.over = True
        elif order.command in (Command.NEXT, Command.BACK):
            self.step += 1 if order.command is Command.NEXT else -1
            self.display.show(self.views[self.step % len(self.views)])
        else:
            self.display.tell(Words(f"You asked: {order.command.value}.", order.command.value))

    def typed(self, line: str) -> None:
        self.lines.append(line)
        self.display.tell(Words(f"You typed {line}.", line))

    def choose(self, number: int) -> None:
        self.chosen.append(number)
        self.display.tell(Words(f"You chose {number}.", str(number)))
