"""What the ear must know: command phrases, numbers, trade words, rhymes, names, household talk.

The command phrases come from the coach's one list of commands, with longer twins that were
measured to be heard best. Everything else is chosen here. Knows no sound and no phoneme.
"""

# ruff: noqa: SIM905 - word lists read better as lines of words

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from coach.guide.bindings import BINDINGS

from .numbers import ONES, TENS

COMMON_WORDS_FILE = Path(__file__).with_name("common_words.txt")

# Phrases that the voice study ranked as heard best, and plain synonyms that makers use unprompted.
TWINS = (
    "next|next row|carry on|go on|back|go back|go back one step|repeat|repeat that|say again|"
    "say that again|again please|pause|hold on there|hold on|resume|where am i|which row|how many|"
    "how many left|how many stitches|what is left|what's left|left|explain|explain that|"
    "explain this step|tell me more|what should i see|see|i have|count|ripped back to row|"
    "ripped back to the end of row|rip back|rip back to row|take me to row|go to row|row|"
    "slow down|slower|speed up|faster|louder|speak up|quieter|softer|softly please|undo|undo that|"
    "stop|stop talking|stop listening|quiet time|hello coach|help|help me|help me please|"
    "yes|yes please|no|no thank you|correct|cancel|cancel that|that is right|that is wrong|done|"
    "row done|finished|finish|quit|start|open|close|shelf|show me|ready|wait|begin|end|more|less|"
    "good night coach|teach me your words|mark this|note|remind me|rest|take a rest|"
    "what side|which side|what colour|what stitch|first row|last row|next round|"
    "one stitch at a time|row by row|block by block|stitch by stitch|settings|everyone|"
    "next please|back please|everyone next|everyone back|wake up|good bye|thank you coach"
).split("|")

NUMBER_FRAMES = (
    "row {}|round {}|go to row {}|take me to row {}|i have {}|i have {} stitches|count {}|"
    "ripped back to row {}|ripped back to the end of row {}|rip back {} rows|{} stitches|"
    "i count {}|seat {}|table {}|size {}|block {}|repeat {}|{} left|step {}"
).split("|")

TRADE_PHRASES = (
    "single crochet|double crochet|half double crochet|treble crochet|half treble crochet|"
    "double treble crochet|slip stitch|chain|chain one|chain two|chain three|chain stitch|"
    "chain space|magic ring|skip one|skip two|skip a stitch|turn|turning chain|turn your work|join|"
    "join with a slip stitch|front post|back post|front post double crochet|"
    "back post double crochet|front loop|back loop|back loop only|front loop only|increase|"
    "decrease|fasten off|weave in the ends|change colour|change color|same stitch|next stitch|"
    "each stitch|each stitch around|each stitch across|yarn over|pull up a loop|insert the hook|"
    "draw through|draw through two loops|shell stitch|bobble|bobble stitch|popcorn|popcorn stitch|"
    "puff stitch|cluster|picot|v stitch|crossed stitches|spike stitch|granny square|"
    "foundation chain|foundation row|right side|wrong side|right side facing|stitch marker|"
    "place a marker|move the marker|gauge|swatch|border|edging|corner|corner space|"
    "repeat from star|repeat from the beginning|repeat around|center|centre|motif|skein|ball|"
    "hook size|worsted|lace|cotton|wool|acrylic|blocking|pattern|round|rounds|row|rows|stitch|"
    "stitches|loop|loops|ring|rings|ridge|rib|ribbing|mesh|filet|tail|knot|needle|scissors|yarn|"
    "hook|thread|strand|tension|loose|tight|frog|drape|fringe|tassel|pom pom|sleeve|shawl|hat|"
    "blanket|cushion|scarf|cloth|basket weave|waffle stitch|moss stitch|linen stitch|crab stitch|"
    "reverse single crochet|standing stitch|invisible join|stitch count|multiple|row count"
).split("|")

# Near in sound to a command: the ear must keep them apart. Distances are those of the voice study.
RHYMES = (
    "necks neck nest text texts six nets mixed vexed bag black bake pack bad bat rack track lack "
    "sack tack bank beck bike book receipt ripped repeats repeated deplete complete retreat ripe "
    "delete paws cause pours pores laws jaws porch pulse presume petition positions account "
    "counter mount plain plane complain explained lower low slow blower ladder loader larder "
    "lather ladies chowder and into undue onto under anew held health hell yelp step top "
    "shop drop stoop stock chess guess less yarn yes yet jest know known toe snow go low nose "
    "chose ten pen den men against gain grain rain where wear fair care there hello yellow "
    "fellow bellow cello couch coats roach poach broach queue quite quilt quiz quick liquid "
    "having heaven seven eleven oven given living even fine five nine mine line wine sign "
    "pine vine for four form door fort fore two too to tooth tune tea tree free threw through "
    "won want on fun sun run gun done down town brown crown pound sound ground grown ate hate "
    "late wait weight gate bait sixty sixteen fifty fifteen forty fourteen thirty thirteen "
    "sick sticks fix picks bricks lift loft leaf lest last list lost harry marry ferry "
    "vary carried cherry sorry fast master plaster past pasta rooster softly soften often "
    "coffee loud cloud allowed proud load soft sofa loft help helped kelp felt stops stopped "
    "talk walk chalk stalking walking rest west best test dressed guest vest pest wrist risk "
    "start star stark heart art cart part dart opened open over ocean closer clothes clove "
    "elf shells shelves self finish finnish vanish fish dish wish spinach "
    "rowing road rose rope role robe wrote throw grow bow bowl bone boat"
).split()

NAMES = (
    "ada agnes alice amber amy anna anne arthur audrey barbara beatrice ben betty bill brenda "
    "carol charlie clara daisy daniel david doris dorothy edith edward eileen elizabeth ella emily "
    "emma eric ernest ethel eva fiona florence frances frank fred george gladys grace hannah harold "
    "harry hazel heather helen henry hilda ida irene iris ivy jack james jane janet jean jenny jim "
    "joan joe john joyce judith julia june karen kate katherine kathleen laura leo lily linda lucy "
    "mabel maggie margaret maria marie martha mary maureen max may michael mildred molly nancy nora "
    "norma olive oliver pamela patricia paul pauline pearl peggy peter phyllis rita robert rose ruby "
    "ruth sally sam sandra sarah sheila shirley sophie stella susan sylvia ted theresa thomas tom "
    "vera victor violet walter wendy william winifred"
).split()

SEATS = (
    "seat table chair place window door corner end middle front back left right red blue green "
    "yellow orange purple pink white black brown grey gray silver gold star moon sun circle square "
    "north south east west a b c d everyone group"
).split()

HOUSEHOLD = (
    "would you like a cup of tea|the kettle is boiling|what time is lunch|it is raining again|"
    "my back aches today|she is coming on sunday|put the radio on please|i need my glasses|"
    "where did i leave my glasses|the cat is on the chair|turn the television down|"
    "that looks lovely dear|what a nice color|have you seen the news|my daughter rang last night|"
    "the next bus is at nine|i will be back in a minute|don't repeat that to anyone|"
    "the doctor said i should rest|no i don't take sugar|yes it was very cold|"
    "there were six of us at home|we had soup for dinner|the garden needs some water|"
    "who is at the door|the phone is ringing|my hands are stiff this morning|"
    "is there any more cake|i used to knit for the boys|it was a long time ago|"
    "shall we open the window|mind the step as you go|the post has come|how many biscuits are left|"
    "i can't find the remote|that was on the other side|count me in for bingo|"
    "he went back to work on monday|help yourself to a biscuit|wait for me by the lift|"
    "the weather will be warmer tomorrow|we must start the dinner soon|that is quite all right|"
    "could you pass me the scissors|i dropped my ball of wool|this wool is very soft|"
    "what are you making there|is it a blanket for the baby|i think i made a mistake|"
    "my granddaughter is getting married|did you sleep well last night|pull the curtain across|"
    "there is a draught from that door|i never liked that program|let us have some music|"
    "oh look at the birds outside|it is nearly half past four|the nurse will be here shortly"
).split("|")


def coach_phrases() -> tuple[str, ...]:
    """Return the phrases of the coach's one list of commands."""
    own = [phrase.lower() for binding in BINDINGS for phrase in binding.spoken]
    return tuple(dict.fromkeys(own))


def command_phrases() -> tuple[str, ...]:
    """Return every phrase that is trained as a command: the coach's own, then the twins."""
    return tuple(dict.fromkeys([*coach_phrases(), *TWINS]))


def common_words() -> tuple[str, ...]:
    """Return the common words of everyday English, commonest first."""
    lines = COMMON_WORDS_FILE.read_text(encoding="utf-8").splitlines()
    return tuple(word for word in lines if word and not word.startswith("#"))


def words_of(phrases: Iterable[str]) -> set[str]:
    """Return the words of several phrases."""
    return {word for phrase in phrases for word in phrase.split() if word != "{}"}


def spoken_to_the_coach() -> frozenset[str]:
    """Return the words that may be part of an order or of a maker's trade talk.

    The ear must always hear these as themselves; any other word may be taken as general speech.
    """
    return frozenset(
        words_of(command_phrases())
        | words_of(NUMBER_FRAMES)
        | words_of(TRADE_PHRASES)
        | {*ONES, *TENS, "hundred", "and", "niner", "oh"}
    )


def vocabulary() -> tuple[str, ...]:
    """Return every word of the ear's lexicon, sorted."""
    return tuple(
        sorted(
            spoken_to_the_coach()
            | set(RHYMES)
            | set(NAMES)
            | set(SEATS)
            | words_of(HOUSEHOLD)
            | set(common_words())
        )
    )
