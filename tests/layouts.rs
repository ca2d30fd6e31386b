//! Where counts, titles and remarks may stand around steps: the same eight counts in many layouts. The habits are
//! common practice among writers of sheets; the dances are invented.

mod small;

use small::{said, weights};

/// Layouts of the same steps: what all of them must be read as, and the ways of writing.
struct Group {
    name: &'static str,
    trace: &'static str,
    bodies: &'static [&'static str],
}

const GROUPS: &[Group] = &[
    Group {
        name: "a closing step that turns leaves room for the other foot",
        trace: "1L 2R 3L 4R 5L 6R 7L 8R",
        bodies: &[
            "1-3 Step L forward turning 1/4 L, step R beside L turning 1/4 L, step L together\n4-8 Walk R, L, R, L, R",
        ],
    },
    Group {
        name: "bars of three, each counted from one",
        trace: "1L 2R 3L 4R 5- 6- 7L 8R 9L 10R 11- 12-",
        bodies: &[
            "Waltz, 3/4 time\n\nBars 1 and 2: twinkle, point\n bar 1 | 1 cross L over R | 2 R to side | 3 L in place\n \
             bar 2 | 1 cross R over L | 2, 3 point L to side\nBars 3 and 4: the same\n bar 3 | 1 cross L over R | 2 R to \
             side | 3 L in place\n bar 4 | 1 cross R over L | 2, 3 point L to side",
            "Waltz, 3/4 time\n\nSection 1: twinkle, point\n1-2-3 Cross L over R, R to side, L in place\n1-2-3 Cross R over \
             L, point L to side, hold\nSection 2: twinkle, point\n1-2-3 Cross L over R, R to side, L in place\n1-2-3 Cross R \
             over L, point L to side, hold",
            "Waltz, 3/4 time\n\nBars 1-2 twinkle, point\n123 Cross L over R, R to side, L in place\n123 Cross R over L, \
             point L to side, hold\nBars 3-4\n123 Cross L over R, R to side, L in place\n123 Cross R over L, point L to \
             side, hold",
        ],
    },
    Group {
        name: "a row of counts that the page breaks",
        trace: "1R 2- 3L 4- 5R 6L 7R 8-",
        bodies: &[
            "1 step right to the side, 2 touch left beside right, 3 step left to the side\nand clap, 4 touch right beside \
             left, 5 step right forward, 6 step left forward, 7 step right forward, 8 kick left.",
        ],
    },
    Group {
        name: "a stomp that is told how often, and where the weight stays",
        trace: "1R 2L 3R 4L 5R 6L 7- 8-",
        bodies: &[
            "1-4 Walk R, L, R, L\n5-6 Rock R back, recover L\n7-8 Stomp R beside L twice, weight stays on L",
            "1-4 Walk R, L, R, L\n5-6 Rock R back, recover L\n7-8 Stomp R twice (weight on L)",
            "1-4 Walk R, L, R, L\n5-6 Rock R back, recover L\n7-8 Stomp right foot twice (no weight)",
        ],
    },
    Group {
        name: "bare counts before the feet in one line",
        trace: "1L 2- 3- 4R 5L 6R 7L 8-",
        bodies: &[
            "A  1 LF fwd  2 RF point side  3 hold\n   4 RF back  5 LF fwd  6 RF fwd  7 LF fwd  8 hold",
            "A: 1 LF fwd 2 RF point side 3 hold 4 RF back 5 LF fwd 6 RF fwd 7 LF fwd 8 hold",
            "A. 1 LF fwd, 2 RF point side, 3 hold\n   4 RF back, 5 LF fwd, 6 RF fwd, 7 LF fwd, 8 hold",
            "1 LF fwd 2 RF point side 3 hold 4 RF back\n5 LF fwd 6 RF fwd 7 LF fwd 8 hold",
        ],
    },
    Group {
        name: "counts without anything between them",
        trace: "1R 2L 3R &L 4R 5L 6R 7L &R 8L",
        bodies: &[
            "12   Walk R, L\n3&4  Shuffle fwd R\n56   Rock L fwd, recover R\n7&8  Coaster step L",
            "12 Walk R, L 3&4 Shuffle fwd R 56 Rock L fwd, recover R 7&8 Coaster step L",
            "S1 walks, shuffle, rock, coaster\n12   Walk R, L\n3&4  Shuffle fwd R\n56   Rock L fwd, rec R\n7&8  Coaster L",
            "1-2  Walk R, L\n3&4  Shuffle fwd R\n5-6  Rock L fwd, recover R\n7&8  Coaster step L",
        ],
    },
    Group {
        name: "where one faces in brackets before the next counts",
        trace: "1L 2R &L 3R 4L 5R 6L 7R &L 8R",
        bodies: &[
            "2: 12 L fwd, piv 1/2 R (6) / &34 L sd, R x, L sd / 56 R fwd rk, rec L / 7&8 R cstr",
            "2: 1-2 L fwd, piv 1/2 R (6), &3-4 L sd, R x, L sd, 5-6 R fwd rk, rec L, 7&8 R cstr",
            "1-2 L fwd, piv 1/2 R (6)\n&3-4 L sd, R x, L sd\n5-6 R fwd rk, rec L\n7&8 R cstr",
        ],
    },
    Group {
        name: "names of figures in shorthand",
        trace: "1R 2L 3R 4- 5L &R 6L 7R &L 8R",
        bodies: &[
            "1) R gv, L tch 1-4, L shf 5&6, R cst 7&8",
            "1) R gvine, L tch 1-4, L shuf 5&6, R cstr 7&8",
            "1) R grpvn, L tch 1-4, L chs 5&6, R cst 7&8",
            "1) R grapevine, L touch 1-4, L shuffle 5&6, R coaster 7&8",
        ],
    },
    Group {
        name: "small numerals before several rows in one line",
        trace: "1R 2L 3R 4- 5L 6R 7L 8- 9R 10L 11R 12- 13L 14R 15L 16- 17R 18L 19R 20- 21L 22R 23L 24-",
        bodies: &[
            "i    1234 Vine R, touch L      5678 Vine L, touch R\n\
             ii   1234 Walk R L R, touch L  5678 Walk back L R L, touch R\n\
             iii  1234 Vine R, touch L      5678 Vine L, touch R",
            "i.   1-4 Vine R, touch L.      5-8 Vine L, touch R.\n\
             ii.  1-4 Walk R L R, touch L.  5-8 Walk back L R L, touch R.\n\
             iii. 1-4 Vine R, touch L.      5-8 Vine L, touch R.",
        ],
    },
    Group {
        name: "a half-count told before the words and behind them",
        trace: "1R 2L &R 3L 4R 5L 6R 7L 8R",
        bodies: &[
            "1 | R sd . L bhd (1-2) | &R sd . L x . R sd (&3-4) | walk L, R, L, R (5-8)",
            "1 | R sd . L bhd (1-2) | R sd . L x . R sd (&3-4) | walk L, R, L, R (5-8)",
        ],
    },
    Group {
        name: "a cross before the counts",
        trace: "1R 2L 3R 4L 5R 6L 7R 8-",
        bodies: &[
            "#1  Weave R: sd, bhd, sd, x 1-4, R sd rock, rec L, R x, hold 5-8",
            "#1  Weave R: sd, bhd, sd, cross 1-4, R sd rock, rec L, R cross, hold 5-8",
        ],
    },
    Group {
        name: "what lasts over counts that are told",
        trace: "1R 2L 3- 4R 5L 6R 7- 8-",
        bodies: &[
            "S1\nWalk R, L (1-2), hold (3), step R forward (4)\nStep L forward, step R forward, drag L to R over counts 7, 8",
            "1-2 Walk R, L\n3-4 Hold, step R forward\n5-8 Step L forward, step R forward, drag L to R over counts 7-8",
        ],
    },
    Group {
        name: "counts at the head of their clauses, behind a sentence that announces them",
        trace: "1L 2R 3L 4R 5L 6R 7L 8-",
        bodies: &[
            "First section. Now the walks. On one step forward on the left foot, on two bring the right foot beside it, \
             and on three step forward on the left. On four step back on the right foot, on five bring the left beside \
             it, and on six step back on the right. On seven step forward left, and stay there for eight.",
            "First section. On 1 step forward on the left foot, on 2 bring the right foot beside it, on 3 step forward on \
             the left. On 4 step back on the right foot, on 5 bring the left beside it, on 6 step back on the right. On \
             7 step forward left, on 8 hold.",
        ],
    },
    Group {
        name: "a list of counts whose last word only joins",
        trace: "1R 2L 3R 4L 5R 6L 7R 8-",
        bodies: &[
            "Section one. A jazz box on 1, 2, 3 and 4: cross the right foot over the left, step the left foot back, \
             step the right foot to the side, step the left foot together. Walk forward right, left, right on 5, 6 and \
             7, and stay there for count 8.",
            "Section one. Cross the right foot over the left on 1, step the left foot back on 2, step the right foot to \
             the side on 3, step the left foot together on 4. Walk forward right, left, right on 5, 6 and 7, and hold \
             on count 8.",
        ],
    },
    Group {
        name: "full stops between counts",
        trace: "1R 2L 3R &L 4R 5L 6R 7L &R 8L",
        bodies: &[
            "1.2.    Skate R, skate L\n3.&.4.  Step R fwd, step L tog, step R fwd\n\
             5.6.    Skate L, skate R\n7.&.8.  Step L fwd, step R tog, step L fwd",
            "1,2     Skate R, skate L\n3.&.4   Step R fwd, step L tog, step R fwd\n\
             5,6     Skate L, skate R\n7.&.8   Step L fwd, step R tog, step L fwd",
            "1 2 Skate R, skate L\n3 & 4 Step R fwd, step L tog, step R fwd\n\
             5 6 Skate L, skate R\n7 & 8 Step L fwd, step R tog, step L fwd",
        ],
    },
    Group {
        name: "counts in a sentence, and words that go on with a step",
        trace: "1R 2L &R 3L 4R &L 5R 6L 7R 8L",
        bodies: &[
            "The first eight. Step back with the right on 1 and let the left sweep round from front to back. Step the \
             left behind the right on 2, the right to the side on \"and\", and cross the left over the right on 3 \
             while the right sweeps round from back to front. Cross the right over the left on 4, step the left to \
             the side on \"and\". Walk forward right on 5, left on 6, right on 7 and left on 8.",
            "1   Step R back\n2&3 Step L behind, R to side, cross L over\n4&  Cross R over, L to side\n5-8 Walk R, L, R, L",
        ],
    },
    Group {
        name: "cells of steps above cells of counts",
        trace: "1R 2- 3L 4- 5R 6L 7R 8L",
        bodies: &[
            "I.  R fwd, L kick | L back, R touch back      1 2 | 3 4\n    R fwd, 1/2 L onto L | R walk, L walk      5 6 | 7 8",
            "I.  R fwd, L kick, L back, R touch back       1 2 3 4\n    R fwd, 1/2 L onto L, R walk, L walk       5 6 7 8",
            "I.  R fwd, L kick; L back, R touch back (1-4)\n    R fwd, 1/2 L onto L; R walk, L walk (5-8)",
        ],
    },
    Group {
        name: "a sign that closes the foot that touched",
        trace: "1- &R 2- &L 3R 4L 5R 6L 7R 8L",
        bodies: &[
            "S1 R heel & L heel & in 1&2&, step R forward, half pivot L on 3 4. Walk R, L, R, L (5-8)",
            "1&2& R heel & L heel &\n3-4 Step R forward, half pivot L\n5-8 Walk R, L, R, L",
            "1&2& R heel fwd & L heel fwd &\n3-4 Step R forward, half pivot L\n5-8 Walk R, L, R, L",
            "1&2& Heel switches R, L\n3-4 Step R forward, half pivot L\n5-8 Walk R, L, R, L",
        ],
    },
    Group {
        name: "dashes without blanks between steps",
        trace: "1R 2L 3- &R 4L 5R 6L 7R &L 8R",
        bodies: &[
            "A | RF bk rk (1) rec LF (2) RF kick-RF ball tog-LF X over (3&4) RF sd rk (5) rec LF (6) RF beh-LF sd-RF X over (7&8)",
            "A | R bk rk (1) rec L (2) R kick-R ball tog-L x over (3&4) R sd rk (5) rec L (6) R beh-L sd-R x over (7&8)",
            "A | RF bk rk (1) rec LF (2) RF kick, RF ball tog, LF x-over (3&4) RF sd rk (5) rec LF (6) RF beh, LF sd, RF x-over (7&8)",
        ],
    },
    Group {
        name: "how often, said before the steps",
        trace: "1R 2L 3R 4L 5R 6L 7R 8L",
        bodies: &[
            "S1 4x paddle: R fw, 1/4 L onto L - 12 / 34 / 56 / 78",
            "S1\n1-8 4x paddle: R fwd, 1/4 L onto L",
            "S1\n1-8 Four times: step R fwd, turn 1/4 L onto L",
            "S1\n1-8 R fwd, 1/4 L onto L (x4)",
        ],
    },
    Group {
        name: "positions inside a mark",
        trace: "1R 2L 3R 4- 5L 6R 7L 8-",
        bodies: &[
            "S1\n1-2 Step R to side (1), step L beside R (2)\n3-4 Step R fwd (3), hold (4)\n\
             5-6 Step L to side (5), step R beside L (6)\n7-8 Step L back (7), hold (8)",
            "S1\n1-4 Step R to side (1), step L beside R (2), step R fwd (3), hold (4)\n\
             5-8 Step L to side (5), step R beside L (6), step L back (7), hold (8)",
            "S1\n1,2 Step R to side [1], step L beside R [2]\n3,4 Step R fwd [3], hold [4]\n\
             5,6 Step L to side [5], step R beside L [6]\n7,8 Step L back [7], hold [8]",
        ],
    },
    Group {
        name: "so many steps, and their feet",
        trace: "1R 2L 3R 4- 5L 6R 7L 8-",
        bodies: &[
            "S1 Walk forward three times, right, left, right, and kick the left; then walk back three times, left, right, \
             left, and touch the right beside the left.",
            "S1\nWalk forward 3 steps R, L, R, kick L, walk back 3 steps L, R, L, touch R",
            "S1\nThree walks forward R, L, R, kick L, three walks back L, R, L, touch R",
            "1) walk fwd R L R kick L, walk back L R L touch R",
        ],
    },
    Group {
        name: "counts left out before a mark",
        trace: "1R 2L 3R &L 4R 5L 6R 7L &R 8L",
        bodies: &[
            "part one\nStep R, pivot 1/2 L. Cross shuffle R 3&4. Side rock L, recover. Behind-side-cross L 7&8.",
            "part one\nStep R, pivot 1/2 L, cross shuffle R 3&4, side rock L, recover, behind-side-cross L 7&8.",
            "part one\n1-2 Step R, pivot 1/2 L\n3&4 Cross shuffle R\n5-6 Side rock L, recover\n7&8 Behind-side-cross L",
            "part one\nside rock R / recover / R behind, side, cross (3&4) / side rock L / recover / L behind, side, cross (7&8)",
            "part one\nside rock R, recover, R behind side cross (3&4), side rock L, recover, L behind side cross (7&8)",
        ],
    },
    Group {
        name: "pairs of counts in brackets, only where they are needed",
        trace: "1R 2L &R 3L 4R &L 5R 6L 7R &L 8R",
        bodies: &[
            "S1\nDorothy R (12&), dorothy L (34&), rock R fwd, recover, R coaster (7&8)",
            "S1\n1-2& Dorothy R\n3-4& Dorothy L\n5-6 Rock R fwd, recover\n7&8 R coaster",
        ],
    },
    Group {
        name: "the way of several steps behind the last one",
        trace: "1R 2- 3L 4- 5R 6L 7R 8-",
        bodies: &[
            "S1 Step R to the side, touch L, step L to the side, touch R, then side, together, side, touch going right.",
            "S1 Step R to the side, touch L, step L to the side, touch R, then R side, L together, R side, touch L.",
        ],
    },
    Group {
        name: "a turn in a direction",
        trace: "1R 2L 3R &L 4R 5L &R 6L 7R 8L",
        bodies: &[
            "S1\n1-2 Rock RF to side, recover LF\n3&4 RF behind, LF to side, RF cross\n5&6 LF to side, RF together, \
             quarter turn in left LF forward\n7-8 Walk RF, walk LF",
            "S1\n1-2 Rock RF to side, recover LF\n3&4 RF behind, LF to side, RF cross\n5&6 LF to side, RF together, \
             quarter turn left LF forward\n7-8 Walk RF, walk LF",
        ],
    },
    Group {
        name: "a sentence that tells a name again",
        trace: "1- &R 2L 3- &R 4L 5R 6L 7R 8L",
        bodies: &[
            "S1\nKick ball change R, x2. Kick, ball, change. Rocking chair R. (8)",
            "S1\nKick ball change R, twice (kick, ball, change). Rocking chair R. (8)",
            "S1\nKick ball change R x2, rocking chair R (8)",
        ],
    },
    Group {
        name: "how a figure ends",
        trace: "1R 2L 3R 4L 5R 6L 7R 8L",
        bodies: &[
            "S1\nJazz box R, close with L, rocking chair R (8)",
            "S1\nJazz box R, close left at the end. Rocking chair R. (8)",
            "S1\nJazz box R, rocking chair R (8)",
        ],
    },
    Group {
        name: "a quick ball step where no counts are given",
        trace: "1R 2L 3R 4L 5R 6- &L 7R 8-",
        bodies: &[
            "S1\nStep R, pivot 1/2 L, step R, pivot 1/2 L, side R, hold, ball, side R, touch L (8)",
            "S1\n1-4 Step R, pivot 1/2 L, step R, pivot 1/2 L\n5-6&7-8 Side R, hold, ball, side R, touch L",
        ],
    },
    Group {
        name: "titles and remarks before the steps",
        trace: "1R 2L 3R 4- 5L 6R 7L 8-",
        bodies: &[
            "Round 1  LOCK AND GO.  R forward, L lock behind, R forward, scuff L. L forward, R lock behind, L forward, scuff R.",
            "Round 1 LOCK AND GO - R forward, L lock behind, R forward, scuff L. L forward, R lock behind, L forward, scuff R.",
            "UNO (8). R forward, L lock behind, R forward, scuff L. L forward, R lock behind, L forward, scuff R.",
            "ONE (only 8, as the song has it). R forward, L lock behind, R forward, scuff L. L forward, R lock behind, L forward, scuff R.",
            "* Lock & go *  R forward, L lock behind, R forward, scuff L. L forward, R lock behind, L forward, scuff R.",
            "Paragraph the First, the locks (1 to 8). R forward, L lock behind, R forward, scuff L (1-4). L forward, R lock \
             behind, L forward, scuff R (5-8).",
        ],
    },
    Group {
        name: "first counts of a section that are not written",
        trace: "1- 2R 3- 4L 5R 6L 7- 8-",
        bodies: &[
            "Section 1\nHeel R, together, heel L, together\n5-8 stomp R, stomp L, clap, clap",
            "last 8\nR heel forward, step R together, L heel forward, step L together\n5-8 stomp R, stomp L, clap, clap",
        ],
    },
    Group {
        name: "a half-count that leads a row whose counts stand behind its steps once more",
        trace: "1L 2R &L 3R 4L 5R &L 6- &R 7L &R 8- &L",
        bodies: &[
            "1 - 2   Rock L fwd (1), recover R (2)\n&3 - 4  L next to R (&), R fwd (3), turn 1/2 L onto L (4)\n\
             5&6     Cross R over L (5), L to L side (&), touch R heel fwd (6)\n\
             &7&8&   R next to L (&), cross L over R (7), R to R side (&), touch L heel fwd (8), L next to R (&)",
        ],
    },
    Group {
        name: "how far the dance has come at the end of a row",
        trace: "1- 2R 3- 4L 5R 6L 7R 8-",
        bodies: &[
            "§1  Side toe strut R, cross toe strut L over R (1-4). Rock R to the side, recover L, cross R over L, hold (5-8)          [8]",
            "§ 1. Toe strut R, toe strut L (1-4). Rock R fwd, recover L, R together, hold (5-8)          [32]",
        ],
    },
    Group {
        name: "rows under bullets that begin with small letters",
        trace: "1- &R 2- &L 3- 4- 5R &L 6R 7L &R 8L",
        bodies: &[
            "Bit 1 - Heels (8)\n- heel switches: R heel, & together, L heel, & together, R heel, clap (1&2&3-4). The R foot stays in the air!\n\
             - shuffle forward R, shuffle forward L\n\nP.S. whoever took home the blue umbrella ...",
        ],
    },
    Group {
        name: "rows that count from one each in a section that says its length",
        trace: "1L 2R 3L 4R 5L 6R 7L 8R 9L 10R 11L 12R",
        bodies: &[
            "Waltz.\n\nBlock 1 - basics and twinkles ............ 12\n   L basic forward (1-3), R basic back (4-6)\n\
             \x20  L twinkle (1-3), R twinkle (4-6)\n",
        ],
    },
    Group {
        name: "pairs of counts without a sign, led by a half-count",
        trace: "1R 2- &L 3R 4- 5L 6R 7L &R 8L",
        bodies: &[
            "12    RF side, hold\n&34   LF tog, RF side, LF touch tog\n56    LF fwd, RF fwd\n7&8   LF fwd, RF tog, LF fwd",
            "12: R side, hold\n&34: L together, R side, touch L\n56: walk L, R\n7&8: shuffle forward L, R, L",
        ],
    },
    Group {
        name: "a figure with its counts, and what it is made of",
        trace: "1R &L 2R 3L 4- 5R 6L 7R 8L",
        bodies: &[
            "THE FIRST EIGHT. A right coaster step on 1&2, that is right foot back, left foot together, right foot forward. Step the left foot forward on 3 and scuff the right foot on 4. Walk right, left on 5 and 6, right, left on 7 and 8.",
            "THE FIRST EIGHT. A right coaster step on 1&2, which is right foot back, left foot together, right foot forward. Step the left foot forward on 3 and scuff the right foot on 4. Walk right, left on 5 and 6, right, left on 7 and 8.",
            "THE FIRST EIGHT. A right coaster step on 1&2, i.e. right foot back, left foot together, right foot forward. Step the left foot forward on 3 and scuff the right foot on 4. Walk right, left on 5 and 6, right, left on 7 and 8.",
            "THE FIRST EIGHT. A right coaster step on 1&2: right foot back, left foot together, right foot forward. Step the left foot forward on 3 and scuff the right foot on 4. Walk right, left on 5 and 6, right, left on 7 and 8.",
            "THE FIRST EIGHT. A right coaster step on 1&2, that means right foot back, left foot together, right foot forward. Step the left foot forward on 3 and scuff the right foot on 4. Walk right, left on 5 and 6, right, left on 7 and 8.",
        ],
    },
    Group {
        name: "short words for crossing in front and behind",
        trace: "1- 2- 3R &L 4R 5L 6R 7L &R 8L",
        bodies: &[
            "1,2   kick R fw, kick R sd\n3&4   R bh L, L sd, R sd\n5,6   L cr R, R sd\n7&8   L bh R, R sd, L cr R",
            "1-2 kick R fwd, kick R side\n3&4 R bhd L, L side, R side\n5-6 L crs R, R side\n7&8 L bhd R, R side, L crs R",
        ],
    },
    Group {
        name: "a row that tells those who do not turn what to do",
        trace: "1R 2L &R 3L 4R &L 5R 6L 7R 8L",
        bodies: &[
            "1 2 &   R side, rock L behind R, recover R\n3 4 &   L fwd, 1/2 L R back, 1/2 L L fwd\n\
             \x20       Non-turners: run fwd L, R, L\n5-8     Walk R, L, R, L",
            "1 2 &   R side, rock L behind R, recover R\n3 4 &   L fwd, 1/2 L R back, 1/2 L L fwd\n\
             \x20       No turn: run fwd L, R, L\n5-8     Walk R, L, R, L",
        ],
    },
    Group {
        name: "a foot that comes home beside the other one",
        trace: "1- 2R 3- 4L 5R 6L 7R 8L",
        bodies: &[
            "S1\nPoint the right toe to the side, turn half right and bring the right foot home beside the left (you are at \
             the back now), point the left toe to the side, and bring the left foot home. Now cross the right over the left, \
             step back on the left, step the right to the side and close the left beside it.",
            "S1\nPoint right to the side, half turn right and bring it home, point left to the side, bring the left foot \
             back in place next to the right, jazz box R.",
            "S1\n1-4 Point R to side, bring R home beside L, point L to side, bring L home next to R\n5-8 Jazz box R",
        ],
    },
    Group {
        name: "sentences of which only the last count is told",
        trace: "1R 2L 3R 4- 5L 6R 7L 8-",
        bodies: &[
            "Section 1\nWalk forward on the right, the left and the right, and kick the left foot forward on count four. \
             Then walk back on the left, the right and the left, and touch the right toe beside the left on count eight.",
            "Section 1\nWalk forward right, left, right and kick the left foot forward (4). Walk back left, right, left \
             and touch the right toe beside the left (8).",
            "The first eight. Walk forward right, left, right and kick the left foot forward on 4. Then walk back left, right, \
             left and touch the right toe beside the left on 8.",
        ],
    },
    Group {
        name: "a half-count behind the last count of a sheet without sections",
        trace: "1R 2L 3R 4L 5- &R 6- &L 7- &R 8- &L",
        bodies: &[
            "1-4 Walk R, L, R, L\n5&6& Heel R, together, heel L, together\n7&8& Heel R, together, heel L, together",
            "1-4 Walk R, L, R, L\n5&6&7&8& Heel switches R, L, R, L",
            "1-4 Walk R, L, R, L\nHeel switches R L R L (5&6&7&8&)",
        ],
    },
    Group {
        name: "counts behind for",
        trace: "1R 2L 3R &L 4R 5- 6L 7- 8R",
        bodies: &[
            "Rock right to side and recover left for 1 and 2. For 3&4 step right behind left, left to side, cross right over \
             left. Point left to side for 5, cross left over right for 6. Point right to side for 7 and cross right over left \
             for 8.",
            "Rock right to side and recover left on 1 and 2. On 3&4 step right behind left, left to side, cross right over \
             left. Point left to side on 5 and cross left over right on 6. Point right to side on 7 and cross right over left \
             on 8.",
        ],
    },
];

/// Two rows of eight counts, each under a number in brackets, with single counts among pairs.
#[test]
fn numbers_in_brackets_over_bare_counts_head_sections() {
    let rows = "1, 2&   Long step R to right, rock L behind R, recover R\n3, 4&   Long step L to left, rock R behind L, \
                recover L\n5       Step R forward\n6&7     Cross L over R, step R to right, step L behind R\n8&      Step R \
                behind L, step L to left\n";
    for (a, b) in [("[1]", "[2]"), ("(1)", "(2)"), ("[1]:", "[2]:"), ("Section 1:", "Section 2:")] {
        let sheet = format!("{a} BASICS, SWEEP\n{rows}\n{b} R BASIC, L BASIC\n{rows}");
        let report = halfcount::report(&sheet, &halfcount::Options::default()).expect("a small sheet");
        let sections = &report.dance.parts[0].sections;
        assert_eq!(sections.len(), 2, "{sheet}");
        assert!(sections.iter().all(|s| s.counts == 8), "{sheet}");
    }
}

/// Titles in capitals with bare numbers, over counts with commas.
#[test]
fn numbers_before_capital_titles_head_sections() {
    let rows = "  1,2 R pt side, 1/2 R R tog (6:00); 3,4 L pt side, L tog\n  5,6 R xover, L back; 7,8 R side, L fwd\n";
    let sheet =
        format!("Trial\n1 KICK BALL CHANGE x2\n{rows}2 MONTEREY 1/2, JAZZ\n{rows}3 PIVOT 1/2, WALKS\n{rows}");
    let report = halfcount::report(&sheet, &halfcount::Options::default()).expect("a small sheet");
    let sections = &report.dance.parts[0].sections;
    assert_eq!(sections.iter().map(|s| s.counts).collect::<Vec<_>>(), [8, 8, 8], "{sheet}");
}

/// What stands beside the counts of a row: a wall in brackets, a teacher's cue below, weight that both feet take in turn.
#[test]
fn remarks_beside_counts() {
    let plain = "1R 2L 3R &L 4R 5L 6R 7L &R 8L";
    let last = "1R 2L 3R 4- 5L 6R 7L 8R";
    for (body, trace) in [
        (
            "R walk, L walk ...... 1 2 (back wall)\nshuffle fwd R ...... 3&4 (the long way)\nrock fwd L, recover R ...... 5 \
             6\nL coaster ...... 7&8 (home wall)",
            plain,
        ),
        (
            "1 2   Walk R, walk L\n3&4   Shuffle fwd R\n   Cue: step, close, step AND go\n5 6   Rock fwd L, recover R\n7&8   L \
             coaster (back, together, fwd)\n   Teach: \"step lock AND\", don't rush",
            plain,
        ),
        (
            "Walk forward three steps, right, left, right, and kick the left foot on the fourth count. Walk back three \
             steps, left, right, left, and stomp the right foot beside it on the eighth.",
            last,
        ),
        (
            "Walk right (1), left (2), right (3), kick left (4). Step left back, then right back. Stomp left, stomp \
             right with weight.",
            last,
        ),
        (
            "Walk right (1), left (2), right (3), kick left (4). Walk back left (5), right (6). Stomp the left foot (7) and \
             stomp the right foot beside it (8), both of them with weight.",
            last,
        ),
    ] {
        let sheet = format!("QUAY STEPS\n8 counts, start on the right foot\n\n{body}\n");
        assert_eq!(weights(&said(&sheet, 0).trace), weights(trace), "{body}");
    }
}

#[test]
fn the_same_steps_in_every_layout() {
    let mut told = String::new();
    for group in GROUPS {
        for body in group.bodies {
            let lead = if group.trace.starts_with("1L") { "left" } else { "right" };
            let sheet = format!("QUAY STEPS\n8 counts, start on the {lead} foot\n\n{body}\n");
            let said = said(&sheet, 0);
            if weights(&said.trace) != weights(group.trace) {
                told.push_str(&format!("{}: {body}\n    {}\nfor {}\n", group.name, said.trace, group.trace));
            }
            for rule in [
                "count-twice",
                "weight-not-free",
                "two-on-one-count",
                "count-missing",
                "count-without-step",
                "feet-overlap",
            ] {
                if said.loud.contains(&rule) {
                    told.push_str(&format!("{}: {body}\n    {rule}\n", group.name));
                }
            }
        }
    }
    assert!(told.is_empty(), "{told}");
}

#[test]
fn headings_in_words_are_no_counts_where_the_total_is_wrong() {
    let sheet = "QUAY STEPS\n24 counts, start on the left foot, waltz\n\nOne: Basics\n- L fwd, R beside, L on the spot \
                 (1-2-3)\n- R back, L beside, R on the spot (4-5-6)\n\nTwo: Twinkles\n- L twinkle (1-2-3)\n- R twinkle \
                 (4-5-6)\n\nThree: Points\n- Step L fwd, point R to the side, hold (1-2-3)\n- Step R back, point L to the \
                 side, hold (4-5-6)\n";
    let four = format!(
        "{sheet}\nFour: Basics again\n- L fwd, R beside, L on the spot (1-2-3)\n- R back, L beside, R on \
                        the spot (4-5-6)\n"
    );
    assert_eq!(said(&four, 0).loud, Vec::<&str>::new());
    assert_eq!(said(&four.replace("24 counts", "36 counts"), 0).loud, ["total-differs"]);
}
