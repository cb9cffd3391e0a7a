"""The written language, group by group, in lines of our own; every sum was done by hand.

The conventions (what is used, what is made, what is a space) are the trade's usual counting:
a counted chain stands over the first stitch, a decrease makes one, chains are no stitches.
"""

from __future__ import annotations

import pytest

from tests.notation.rows import came_to

HEADERS = [
    ("sc 24", "Row 2: Ch 1, sc in each st across. (24 sc)", "ok 24 -> 24"),
    ("sc 24", "ROW 2 (RS) – ch 1, sc in each st across (24)", "ok 24 -> 24"),
    ("round sc 24", "RND 3: sc in each st around (24)", "ok 24 -> 24"),
    ("round sc 24", "Round 5. Sc in each sc around. 24 sc.", "ok 24 -> 24"),
    ("round sc 24", "R4: sc around [24]", "ok 24 -> 24"),
    ("sc 24", "3rd Row. 1 ch, 1 sc in each sc to end. Turn. 24 sc.", "ok 24 -> 24"),
    ("sc 24", "4th and 5th rows: 1 ch, 1 sc in each st to end, turn.", "ok 24 -> 24"),
    ("round sc 24", "Rnds 7 to 12: Sc in each st around. (24 sc)", "ok 24 -> 24"),
    ("round sc 24", "Rnds 11-16 (6 rnds): Sc in each st around (24)", "ok 24 -> 24"),
    ("sc 24", "Rows 8 & 9: Ch 1, sc in each st across, turn. (24 sc)", "ok 24 -> 24"),
    ("round sc 24", "9. (3 sc, inc)*6 (30);", "ok 24 -> 30"),
    ("round sc 24", "12) sc in each st around (24)", "ok 24 -> 24"),
    ("round sc 30", "10.-12. (3 rnds) unchanged (30)", "ok 30 -> 30"),
    ("round sc 24", "Next Rnd: *Sc in next 2 sts, sc2tog; rep from * around. (18)", "ok 24 -> 18"),
    ("round sc 24", "Dec Rnd 3: [Sc in next 4 sts, sc2tog] 4 times. (20)", "ok 24 -> 20"),
    ("chain 21", "Foundation Row (RS): Sc in 2nd ch from hook and in each ch across. (20 sc)", "ok 21 -> 20"),
    ("sc 24", "Inc Row: Ch 1, 2 sc in first st, sc in each st to last st, 2 sc in last st. (26 sc)", "ok 24 -> 26"),
    ("sc 24", "Set-up Row: Ch 1, sc in each st across, turn.", "ok 24 -> 24"),
]  # fmt: skip

PLAIN_RUNS = [
    ("sc 20", "Row 2: Ch 1, sc in next 7 sts, dc in next 6 sts, sc in next 7 sts. (20 sts)", "ok 20 -> 20"),
    ("round sc 20", "Rnd 2: 7 sc, 6 hdc, 7 sc (20)", "ok 20 -> 20"),
    ("round sc 20", "Rnd 2: sc 7, hdc 6, sc 7 (20)", "ok 20 -> 20"),
    ("sc 20", "Row 2: Ch 1, 1 sc in each of the next 20 sc. (20)", "ok 20 -> 20"),
    ("sc 20", "Row 2: Ch 1, sc to end (20)", "ok 20 -> 20"),
    ("sc 20", "Row 2: Ch 1, dc in each st to last 3 sts, sc in last 3 sts. (20 sts)", "ok 20 -> 20"),
    ("sc 20", "Row 2: Ch 1, sc in next st and in each st across. (20 sc)", "ok 20 -> 20"),
    ("round hdc 20", "Rnd 4: Work even in hdc around. (20)", "ok 20 -> 20"),
    ("sc 20", "Row 2: CH 1, SC IN EACH ST ACROSS", "ok 20 -> 20"),
    ("sc 20", "Row 2: Ch 1, sc in next 21 sts.", "too-many-stitches"),
    ("sc 20", "Row 2: Ch 1, sc in next 19 sts.", "stitches-left-over"),
]  # fmt: skip

COUNTS = [
    ("round sc 12", "Rnd 3: [sc, inc] 6 times — 18 sc", "ok 12 -> 18"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times = 18", "ok 12 -> 18"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times. 18 sc.", "ok 12 -> 18"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times {18}", "ok 12 -> 18"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times. Stitch count: 18 sc", "ok 12 -> 18"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times. You should have 18 sc.", "ok 12 -> 18"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times (18 sts in all)", "ok 12 -> 18"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times — 17 sc", "count-mismatch"),
    ("round sc 12", "Rnd 3: [sc, inc] 6 times. You should have 19 sc.", "count-mismatch"),
    ("sc 11", "Row 2: Ch 1, sc in first st, *ch 1, sk 1 st, sc in next st; rep from * across. (6 sc, 5 ch-1 sps)", "ok 11 -> 6/5"),
    ("sc 11", "Row 2: Ch 1, sc in first st, *ch 1, sk 1 st, sc in next st; rep from * across. (6 sc, 6 ch-1 sps)", "count-mismatch"),
    ("sc 11", "Row 2: Ch 1, sc in first st, *ch 1, sk 1 st, sc in next st; rep from * across. (11 sts)", "ok 11 -> 6/5"),
]  # fmt: skip

FOUNDATIONS = [
    ("nothing", "Ch 25.", "ok - -> 25"),
    ("nothing", "With A, ch 40 loosely.", "ok - -> 40"),
    ("nothing", "25ch", "ok - -> 25"),
    ("nothing", "Ch 23 (multiple of 4 + 3).", "ok - -> 23"),
    ("nothing", "Ch 22 (multiple of 4 + 3).", "multiple-mismatch"),
    ("chain 20", "Row 1: Hdc in 3rd ch from hook (2 skipped ch count as hdc) and in each ch across. (19 hdc)", "ok 20 -> 19"),
    ("chain 20", "Row 1: Hdc in 3rd ch from hook (2 skipped ch do not count as a st) and in each ch across. (18 hdc)", "ok 20 -> 18"),
    ("chain 20", "Row 1: Hdc in 3rd ch from hook and in each ch across. (18 hdc)", "ok 20 -> 18"),
    ("chain 20", "Row 1: Hdc in 3rd ch from hook and in each ch across. (19 hdc)", "ok 20 -> 19"),
    ("chain 20", "Row 1: Hdc in 3rd ch from hook and in each ch across.", "unclear"),
    ("chain 23", "Row 1: Tr in 5th ch from hook and in each ch across, turn. (20 tr)", "ok 23 -> 20"),
    ("chain 22", "Row 1: Skip 3 ch (count as 1 dc), 1 dc in next ch, 1 dc in each ch to end. (20 dc)", "ok 22 -> 20"),
    ("nothing", "Rnd 1: Ch 5, join with sl st to form ring; ch 3 (counts as dc), 15 dc in ring; join with sl st in top of ch-3. (16 dc)", "ok - -> 16"),
    ("nothing", "Rnd 1: In an adjustable ring, work 8 hdc. (8)", "ok - -> 8"),
    ("nothing", "Rnd 1: MR, 12 dc (12)", "ok - -> 12"),
    ("nothing", "Rnd 1: Ch 2, 6 sc in 2nd ch from hook. (6 sc)", "ok - -> 6"),
    ("nothing", "Row 1: 61 fdc, turn. (61 dc)", "ok - -> 61"),
    ("nothing", "Ch 8. Rnd 1: Sc in 2nd ch from hook and in next 5 ch, 3 sc in last ch; on other side of chain sc in next 5 ch, 2 sc in last ch. (16 sc)", "ok - -> 16"),
    ("nothing", "Ch 64, join being careful not to twist. Rnd 1: Ch 1, sc in each ch around. (64 sc)", "ok - -> 64"),
    ("chain 15", "Row 1: Sc in 2nd ch from hook, sc in next 12 ch, turn. (13 sc)", "stitches-left-over"),
]  # fmt: skip

REPEATS = [
    ("sc 21", "Row 2: Ch 1, sc in first st, *dc in next 3 sts, sc in next st; rep from * across. (21 sts)", "ok 21 -> 21"),
    ("sc 23", "Row 2: Ch 1, sc in first st, *dc in next 3 sts, sc in next st; rep from * to last 2 sts, sc in last 2 sts.", "ok 23 -> 23"),
    ("sc 20", "Row 2: Ch 1, *dc in next 3 sts, ch 1, sk 1 st; rep from * 4 more times. (15 dc, 5 ch-1 sps)", "ok 20 -> 15/5"),
    ("sc 20", "Row 2: Ch 1, *dc in next 3 sts, ch 1, sk 1 st; rep from * 4 times more.", "ok 20 -> 15/5"),
    ("sc 20", "Row 2: Ch 1, *dc in next 3 sts, ch 1, sk 1 st; rep from * 5 times. (15 dc, 5 ch-1 sps)", "ok 20 -> 15/5"),
    ("sc 12", "Row 2: Ch 1, *sc in next 3 sts, ch 1, sk 1 st; rep from * twice. (9 sc, 3 ch-1 sps)", "ok 12 -> 9/3"),
    ("sc 21", "Row 2: Ch 1, sc in next st, *sk 1 st, 3 dc in next st, sk 1 st, sc in next st*; rep from * to * across. (15 dc, 6 sc)", "ok 21 -> 21"),
    ("sc 20", "Row 2: Ch 1, *sc in next 3 sts, ch 1, sk 1 st* repeat 5 times. (15 sc, 5 ch-1 sps)", "ok 20 -> 15/5"),
    ("sc 16", "Row 2: Ch 1, *ch 2, sk 2 sts, sc in next 2 sts*; rep *-* across. (8 sc, 4 ch-2 sps)", "ok 16 -> 8/4"),
    ("round sc 24", "Rnd 2: Ch 1, *5 dc in next st, sk 2 sts**, sc in next st, sk 2 sts; rep from * around, ending last rep at **, sc in next 3 sts; join.", "ok 24 -> 26"),
    ("sc 20", "Row 2: Ch 1, †sc in next 3 sts, ch 1, sk 1 st†; repeat from † to † across.", "ok 20 -> 15/5"),
    ("round sc 18", "Rnd 4: (2 sc, inc) x6 (24)", "ok 18 -> 24"),
    ("round sc 18", "Rnd 4: (2 sc, inc) × 6 (24)", "ok 18 -> 24"),
    ("round sc 18", "Rnd 4: [Sc in next 2 sts, 2 sc in next st] around. (24)", "ok 18 -> 24"),
    ("round sc 18", "Rnd 4: (2 sc, inc) rep 6 times (24)", "ok 18 -> 24"),
    ("sc 30", "Row 2: Ch 1, *[FPdc around next st, BPdc around next st] twice, sc in next st; rep from * across. (30 sts)", "ok 30 -> 30"),
    ("sc 22", "Row 4: Ch 1, turn, *sc in next 2 sts, [dc in next st, ch 1] 3 times; rep from * 3 times more, sc in last 2 sts. (22 sts, 12 ch-1 sps)", "ok 22 -> 22/12"),
    ("sc 19", "Row 2: Ch 1, *sc in next 3 sts, ch 1, sk 1 st; rep from * across.", "repeat-does-not-fit"),
    ("sc 20", "Row 2: Ch 1, *sc in next 3 sts, ch 1, sk 1 st; rep from * 5 more times.", "too-many-stitches"),
    ("round sc 18", "Rnd 4: [Sc in next 2 sts, inc 6 times. (24)", "broken-notation"),
    ("sc 20", "Row 2: Ch 1, *sc in next 3 sts, ch 1, sk 1 st across.", "broken-notation"),
    ("sc 26", "Row 2: Ch 1, sc in first st, *ch 3, sk 3 sts, sc in next st; rep from *, ending with sc in last 2 sts. (8 sc, 6 ch-3 sps)", "ok 26 -> 8/6"),
]  # fmt: skip

TURNING_CHAINS = [
    ("dc 20, counted 3", "Row 2: Ch 3 (counts as first dc here and throughout), dc in next 18 sts, dc in top of tch. (20 dc)", "ok 20 -> 20"),
    ("dc 20, counted 3", "Row 2: Ch 3 (counts as dc), dc in same st, dc in each st across. (21 dc)", "ok 20 -> 21"),
    ("dc 20, not counted 3", "Row 2: Ch 3 (does not count as a st), dc in each st across. (20 dc)", "ok 20 -> 20"),
    ("dc 20, counted 3", "Row 2: Ch 3, sk first st, dc in next dc and in each dc across, working last dc in 3rd ch of turning ch. (20 dc)", "ok 20 -> 20"),
    ("hdc 20", "Row 2: Ch 2, hdc in each st across. (20 hdc)", "ok 20 -> 20"),
    ("hdc 20", "Row 2: Ch 2, turn, hdc in each st across.", "ok 20 -> 20"),
    ("dc 20, counted 3", "Row 2: Ch 4 (counts as dc and ch 1), sk next st, dc in next st, *ch 1, sk next st, dc in next st; rep from * across to last st, dc in top of tch. (11 dc, 9 ch-1 sps)", "ok 20 -> 11/9"),
    ("dc 20, counted 3", "Row 2: Ch 3 (counts as dc), dc in next 20 sts.", "too-many-stitches"),
    ("dc 20, counted 3", "Row 2: Ch 3 (counts as dc), dc in next 18 sts.", "stitches-left-over"),
    ("dc 20, counted 3 made", "Row 2: Dc in next 18 sts, dc in top of tch, ch 3, turn. (20 dc)", "ok 20 -> 20"),
    ("sc 20", "Row 2: Sc in each st across, ch 1, turn. (20 sc)", "ok 20 -> 20"),
]  # fmt: skip

SHAPING = [
    ("round sc 6", "Rnd 2: inc in each st (12)", "ok 6 -> 12"),
    ("round sc 12", "Rnd 3: (sc, inc) x 6 (18)", "ok 12 -> 18"),
    ("sc 20", "Row 2: Ch 1, 2 dc in each of next 3 sts, sc in next 17 sts. (23 sts)", "ok 20 -> 23"),
    ("sc 20", "Row 2: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog. (18 sc)", "ok 20 -> 18"),
    ("round sc 24", "Rnd 9: (2 sc, inv dec) x 6 (18)", "ok 24 -> 18"),
    ("round sc 24", "Rnd 9: dec 12 times (12)", "ok 24 -> 12"),
    ("dc 12", "Row 3: Ch 1, dc3tog over next 3 sts, dc in next 6 sts, dc3tog over next 3 sts. (8 sts)", "ok 12 -> 8"),
    ("sc 8", "Row 5: Ch 1, sk 1, sc in next 7 sts. (7)", "ok 8 -> 7"),
    ("sc 10", "Row 5: Ch 1, sc next 2 tog, sc in next 6 sts, sc next 2 together. (8)", "ok 10 -> 8"),
    ("round sc 30", "Rnd 6: 2 sc, inc, (4 sc, inc) x 5, 2 sc (36)", "ok 30 -> 36"),
    ("round hdc 16", "Rnd 9: hdc2tog 8 times; join. (8)", "ok 16 -> 8"),
    ("round sc 24", "Rnd 9: (2 sc, dec) x 5 (15)", "stitches-left-over"),
]  # fmt: skip

SPACES = [
    ("10 x (dc, ch2), dc", "Row 3: Ch 1, sc in first dc, *2 sc in next ch-2 sp, sc in next dc; rep from * across. (31 sc)", "ok 11/10 -> 31"),
    ("10 x (dc, ch2), dc", "Row 3: Ch 1, sc in each dc and 2 sc in each ch-2 sp across. (31 sc)", "ok 11/10 -> 31"),
    ("5 x (sc, ch3), sc", "Row 3: Ch 1, sc in first sc, *3 sc under 3 chain, sc in next sc; rep from * across. (21 sc)", "ok 6/5 -> 21"),
    ("5 x (sc, ch3), sc", "Row 3: Ch 1, sc in first sc, *5 dc in next ch-3 lp, sc in next sc; rep from * across. (6 sc, 25 dc)", "ok 6/5 -> 31"),
    ("5 x (sc, ch3), sc", "Row 3: Ch 1, sc in first sc, *ch 3, sc in next arch; rep from * across, ch 3, sc in last sc. (7 sc, 6 ch-3 sps)", "ok 6/5 -> 7/6"),
    ("5 x (dc, ch1), dc", "Row 3: Ch 1, sc in each st and ch-1 sp across. (11 sc)", "ok 6/5 -> 11"),
    ("5 x (dc, ch1), dc", "Row 3: Ch 4 (counts as dc and ch 1), dc in next dc, *ch 1, dc in next dc; rep from * across. (6 dc, 5 ch-1 sps)", "ok 6/5 -> 6/5"),
    ("5 x (dc, ch1), dc", "Row 3: Ch 1, sc in first dc, *sc in next ch-2 sp, sc in next dc; rep from * across.", "no-such-place"),
    ("sc 9", "Row 2: Ch 1, sc in first st, *ch 2, pass over 1 st, sc in next st; rep from * across. (5 sc, 4 ch-2 sps)", "ok 9 -> 5/4"),
]  # fmt: skip

GROUPS = [
    ("sc 11", "Row 2: Ch 1, sc in first st, *sk 1 st, (2 dc, ch 1, 2 dc) in next st, sk 1 st, sc in next 2 sts; rep from * across. (5 sc, 8 dc, 2 ch-1 sps)", "ok 11 -> 13/2"),
    ("sc 9", "Row 2: Ch 1, sc in first st, *sk 1 st, in next st work 3 dc, ch 2, 3 dc, sk 1 st, sc in next st; rep from * across. (3 sc, 12 dc, 2 ch-2 sps)", "ok 9 -> 15/2"),
    ("round 4 x (dc 3, ch2)", "Rnd 2: Sl st in next 2 dc and in ch-2 sp, (ch 3, 2 dc, ch 2, 3 dc) in same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * around; join with sl st in top of ch-3. (24 dc, 4 ch-2 sps, 4 ch-1 sps)", "ok 12/4 -> 24/8"),
    ("round 4 x (dc 5, ch2)", "Rnd 3: Ch 3 (counts as dc), dc in each of next 4 dc, *(2 dc, ch 2, 2 dc) in next ch-2 sp, dc in each of next 5 dc; rep from * 2 more times, (2 dc, ch 2, 2 dc) in last ch-2 sp; join. (36 dc, 4 ch-2 sps)", "ok 20/4 -> 36/4"),
    ("sc 10", "Row 2: Ch 1, 3 dc, ch 2, 3 dc all in same st, sc in next 9 sts. (15 sts, 1 ch-2 sp)", "ok 10 -> 15/1"),
]  # fmt: skip

JOINS = [
    ("round sc 18", "Rnd 4: Ch 1, sc in same st as join and in each st around, join with sl st in first sc. (18 sc)", "ok 18 -> 18"),
    ("round sc 18", "Rnd 4: Ch 1, sc in each st around, do not join; mark first st. (18)", "ok 18 -> 18"),
    ("round dc 18", "Rnd 4: Ch 3 (counts as dc), dc in next dc and in each dc around; join in 3rd ch. (18 dc)", "ok 18 -> 18"),
    ("round 6 x (sc, ch4)", "Rnd 3: *Sc in next ch-4 sp, ch 4; rep from * 4 more times, sc in last sp, close with ch 1, dc in first sc. (6 sc)", "ok 6/6 -> 6/6"),
    ("sc 18", "Row 4: Ch 1, sc in each st across. Fasten off. (18 sc)", "ok 18 -> 18"),
    ("sc 18", "Row 4: Ch 1, sc in next 9 sts, pm, sc in next 9 sts, turn. (18)", "ok 18 -> 18"),
    ("sc 18", "Row 4: Ch 1, sc in next 9 sts, twc, sc in next 9 sts, turn. (18)", "unknown-word"),
]  # fmt: skip

POSTS = [
    ("dc 14, counted 3", "Row 3: Ch 3 (counts as dc), *fpdc around next st, bpdc around next st; rep from * to last st, dc in top of tch. (14 sts)", "ok 14 -> 14"),
    ("dc 14, counted 3", "Row 3: Ch 3 (counts as dc), *1 dcfp around post of next st, 1 dcbp around post of next st; rep from * to last st, dc in tch.", "ok 14 -> 14"),
    ("dc 12", "Row 3: Ch 1, BPtr around each of next 2 sts, sc in each of next 10 sts. (12)", "ok 12 -> 12"),
    ("sc 16", "Row 3: Ch 1, BLO: sc across (16)", "ok 16 -> 16"),
    ("sc 16", "Row 3: Ch 1, sc blo in each st across (16)", "ok 16 -> 16"),
    ("sc 16", "Row 3: Ch 1, working in back loops only, sc in each st across (16)", "ok 16 -> 16"),
    ("sc 16", "Row 3: Ch 1, sc through back loop of each st across (16)", "ok 16 -> 16"),
    ("dc 14", "Row 3: Ch 1, sc in first st, *sk next 2 sts, FPtr around each of next 2 sts, working in front of sts just made FPtr around 2 skipped sts; rep from * 2 more times, sc in last st. (14 sts)", "ok 14 -> 14"),
    ("sc 13", "Row 4: Ch 1, sc in first st, *FPdc around st 2 rows below (sk sc behind it), sc in next 3 sts; rep from * across. (13 sts)", "ok 13 -> 13"),
]  # fmt: skip

SEVERAL_KINDS = [
    ("sc 13", "Row 4: With A, ch 1, sc in first 3 sts, change to B in last yo, sc in next 10 sts. (13 sc)", "ok 13 -> 13"),
    ("round sc 12", "Rnd 4: (A) 3 sc, (B) 1 sc, (A) 3 sc, (B) 1 sc, (A) 4 sc (12)", "ok 12 -> 12"),
    ("round sc 12", "Rnd 4: sc 4 MC, sc 2 CC, sc 6 MC (12)", "ok 12 -> 12"),
    ("sc 12", "Row 4 should read: Ch 1, sc in each st across. (12 sc)", "ok 12 -> 12"),
    ("sc 12", "Row 4: Ch\u00a01,\u00a0s\u0441 in each st a\u0441ross, turn. (12\u00a0s\u0441)", "ok 12 -> 12"),
    ("sc 12", "Row 4: Ch1, sc in next 6sts, 6sc, turn. (12)", "ok 12 -> 12"),
    ("round sc l2", "Rnd 2: (sc, ınc) x 6 (l8)", "ok 12 -> 18"),
    ("sc 12", "Row 4: Ch 1, sc in each st across, tu\u00adrn. (12)", "ok 12 -> 12"),
    ("sc 12", "Row 4: Ch 1, * 1 sc in next st, 1 se in next st; repeat from * across.", "unknown-word"),
    ("sc 20", "So for row two you're going to chain one and turn, then single crochet in every stitch across; that's twenty.", "ok 20 -> 20"),
    ("dc 11, counted 3", "Three chain (counts as first double), one double into each of the next nine stitches, one double in the top of the turning chain; turn.", "ok 11 -> 11"),
]  # fmt: skip

UK = [
    ("sc 20", "Row 2: 1ch, 1dc in each dc to end, turn. [20dc]", "ok 20 -> 20"),
    ("dc 20, counted 3", "Row 2: 3ch (counts as 1tr), 1tr in each of next 18tr, 1tr in top of 3ch, turn. (20 tr)", "ok 20 -> 20"),
    ("dc 21, counted 3", "Row 2: 4ch (counts as 1tr, 1ch), miss 1tr, 1tr in next tr, *1ch, miss 1tr, 1tr in next tr; rep from * to end. (11 tr, 10 1-ch sps)", "ok 21 -> 11/10"),
    ("hdc 20", "Row 2: 2ch (does not count), 1htr in each htr to end. (20 htr)", "ok 20 -> 20"),
    ("sc 20", "Row 2: 1ch, 1dc in first dc, dc2tog, 1dc in each dc to last 3dc, dc2tog, 1dc in last dc. (18dc)", "ok 20 -> 18"),
    ("round 4 x (dc 3, ch2)", "Rnd 2: ss in next 2tr and 2ch-sp, (3ch, 2tr, 2ch, 3tr) in same sp, [(3tr, 2ch, 3tr) in next 2ch-sp] 3 times, ss in top of 3ch. (24tr, 4 2ch-sps)", "ok 12/4 -> 24/4"),
    ("sc 20", "Row 2: 1ch, 1sc in each st to end.", "term-clash"),
    ("sc 20", "Row 2: 1ch, 1hdc in each st to end.", "term-clash"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("below", "text", "right"),
    [
        *HEADERS, *PLAIN_RUNS, *COUNTS, *FOUNDATIONS, *REPEATS, *TURNING_CHAINS, *SHAPING,
        *SPACES, *GROUPS, *JOINS, *POSTS, *SEVERAL_KINDS,
    ],
)  # fmt: skip
def test_a_line_in_us_terms_comes_to_its_sum(below: str, text: str, right: str) -> None:
    assert came_to(below.replace("l2", "12"), text) == right


@pytest.mark.parametrize(("below", "text", "right"), UK)
def test_a_line_in_uk_terms_comes_to_its_sum(below: str, text: str, right: str) -> None:
    assert came_to(below, text, "UK") == right
