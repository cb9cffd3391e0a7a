"""Words that an ear may take for one another, and the words of everyday talk.

Short lists chosen by hand; knows no phrase and no command.
"""

from __future__ import annotations

# Phrase of one word: words near to it in sound that come up while crafting or in talk, by
# weighted phone distance on the CMU pronouncing dictionary, 0.35 and nearer. Those that sound
# the same ("paws", "know") are left out: nobody could tell them apart, and the command would
# be lost for good. "Necks" is left out too: many voices swallow the last sound of "next", and then
# the two tie exactly; a false "next" costs one "back". Phrases of several words need none: their
# parts may be mixed with anything.
NEIGHBOURS = {
    "next": "neck text nest texts vexed mixed max",
    "back": "bag pack black bake bat bad rack",
    "repeat": "receipt repeats ripped complete retreat",
    "pause": "cause because boss",
    "resume": "presume",
    "explain": "plain complain plane",
    "help": "held health felt",
    "undo": "and into under onto",
    "yes": "yarn chess guess yet",
    "no": "now nose",
    "count": "account counter town",
    "louder": "ladder loader",
    "softer": "after often",
    "faster": "after master",
    "slower": "lower slow",
    "hello": "yellow hollow",
    "quit": "quick quilt kit",
    "correct": "collect direct",
}
# The commonest words of talk at the table, so that a sentence is heard as a sentence.
TALK = (
    "the a and to of i you it in is was for me my we he she they this what have do not be your "
    "yarn coffee tea table home dinner kitchen today morning daughter please thank come got get "
    "like think well oh just want said would could about there then when week coast over again"
)


def sounds_like(one: str, other: str) -> bool:
    """Return whether one word may be taken for the other: the same, or near in sound."""
    near = (*NEIGHBOURS.get(one, "").split(), *NEIGHBOURS.get(other, "").split())
    return one == other or one in near or other in near
