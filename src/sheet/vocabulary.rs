//! The words that the reader knows, each with its spellings.
//!
//! A word stands here when the grammar of steps or the structure of a sheet depends on it. Words that only
//! occur in names of figures come from the lexicon and are added when it is loaded.

use crate::order::Ordered as _;
use crate::text::lower;
use std::borrow::Cow;

macro_rules! vocabulary {
    ($($name:ident: $($spelling:literal)+;)*) => {
        /// A word of the grammar.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[allow(missing_docs)]
        #[repr(u16)]
        pub enum W { $($name,)* }

        const SPELLINGS: &[(&[&str], W)] = &[$((&[$($spelling),+], W::$name),)*];
    };
}

vocabulary! {
    // Feet and sides.
    R: "r" "right" "rt" "rgt" "rite" "rights";
    L: "l" "left" "lt" "lft" "lefts";
    RF: "rf" "rfoot" "rv" "pd";
    LF: "lf" "lfoot" "lv" "pg";
    Foot: "foot" "foots";
    Feet: "feet";
    Both: "both";
    // Steps with weight.
    Step: "step" "steps" "stepping" "stepped" "st" "stp";
    Walk: "walk" "walks" "walking" "wlk" "wk" "stroll" "strut-walk" "march" "marches" "marching" "strolls" "strolling";
    Run: "run" "runs" "running";
    Rock: "rock" "rocks" "rocking" "rck" "rk" "rkg" "rckg" "breaks" "rockstep";
    Recover: "recover" "recovers" "recovering" "rec" "recov" "rcv" "recvr" "replace" "replaces" "repl" "return" "returns" "returning" "recovered" "ret";
    Press: "press" "presses" "pressing";
    Lunge: "lunge" "lunges" "lunging";
    Sway: "sway" "sways" "swaying";
    Stomp: "stomp" "stomps" "stomping" "stmp" "stamp" "stamps" "stamping";
    Drop: "drop" "drops" "dropping" "lower" "lowers" "lowering" "flatten" "snap-down";
    Grind: "grind" "grinds" "grinding";
    Skate: "skate" "skates" "skating";
    Slide: "slide" "slides" "sliding";
    Ball: "ball" "balls" "bl";
    Change: "change" "changes" "chg" "changing";
    Close: "close" "closes" "closing" "closed" "cl" "join" "joins";
    Shift: "shift" "shifts" "shifting" "transfer" "transfers" "transferring";
    Leap: "leap" "leaps" "leaping";
    // Free-foot actions.
    Touch: "touch" "touches" "touching" "touched" "tch" "tou" "tap" "taps" "tapping" "tp" "toch" "tuch";
    Point: "point" "points" "pointing" "pt" "pnt" "pts";
    Dig: "dig" "digs" "digging";
    Kick: "kick" "kicks" "kicking";
    Flick: "flick" "flicks" "flicking";
    Hook: "hook" "hooks" "hooking";
    Hitch: "hitch" "hitches" "hitching";
    Brush: "brush" "brushes" "brushing";
    Scuff: "scuff" "scuffs" "scuffing";
    Drag: "drag" "drags" "dragging" "pull" "pulls" "pulling" "draw" "draws" "drawing";
    Sweep: "sweep" "sweeps" "sweeping" "ronde" "swing" "swings" "swinging";
    Fan: "fan" "fans" "fanning";
    Pop: "pop" "pops" "popping";
    Lift: "lift" "lifts" "lifting" "raise" "raises" "raising";
    // Both feet, body, hands.
    Split: "split" "splits" "splitting";
    Swivel: "swivel" "swivels" "swiveling" "swivelling" "twist" "twists" "twisting";
    Bounce: "bounce" "bounces" "bouncing";
    Bump: "bump" "bumps" "bumping";
    Roll: "roll" "rolls" "rolling" "circle" "circles" "rotate";
    Jump: "jump" "jumps" "jumping";
    Hop: "hop" "hops" "hopping";
    Scoot: "scoot" "scoots" "scooting" "chug" "chugs";
    Applejack: "applejack" "applejacks";
    Swivet: "swivet" "swivets";
    Shimmy: "shimmy" "shimmies" "shimmying" "shake" "shakes";
    Dip: "dip" "dips" "bend" "bends" "bending";
    Hold: "hold" "holds" "holding" "hld" "pause" "pauses" "pausing" "freeze" "freezes" "freezing" "wait" "waits" "rest" "rests";
    Clap: "clap" "claps" "clapping" "clapped" "snap" "snaps" "snapping" "click" "clicks" "slap" "slaps";
    // Turns.
    Turn: "turn" "turns" "turning" "turned" "trn" "tn";
    Pivot: "pivot" "pivots" "pivoting" "pvt" "piv" "pv";
    Spin: "spin" "spins" "spinning";
    Spiral: "spiral" "spirals";
    Unwind: "unwind" "unwinds" "unwinding" "untwist" "unw";
    Paddle: "paddle" "paddles" "paddling";
    Quarter: "quarter" "quarters" "qtr" "qtrs" "quater" "1qtr";
    Half: "half" "halves" "hlf" "halfturn";
    Full: "full" "whole" "complete" "ft";
    Eighth: "eighth" "eighths";
    Third: "third" "thirds";
    ThreeQuarter: "threequarter" "threequarters";
    Degrees: "degrees" "degree" "deg" "degs";
    Clockwise: "clockwise" "cw";
    Anticlockwise: "anticlockwise" "counterclockwise" "ccw" "acw" "counter-clockwise" "anti-clockwise";
    Shoulder: "shoulder" "shoulders";
    Face: "face" "faces" "facing" "faced";
    // Directions and places.
    Forward: "forward" "forwards" "fwd" "fw" "fwrd" "fwds" "forw" "forwrd" "foward" "f" "ahead" "fd";
    Back: "back" "backward" "backwards" "bk" "bwd" "bkwd" "bck" "bkwds" "rearward";
    Side: "side" "sideways" "sd" "sides" "aside" "s" "sideward";
    Diagonal: "diagonal" "diagonals" "diagonally" "diag" "diags" "corner" "corners" "cnr" "angle" "dia";
    Cross: "cross" "crosses" "crossing" "crossed" "crs" "cr" "x" "crossover" "xover" "xo" "xov";
    Across: "across" "over" "acr" "accross" "ovr";
    Front: "front";
    Behind: "behind" "beh" "bhd" "bh" "bhnd" "bhind" "behnd";
    Lock: "lock" "locks" "locking" "locked" "lk";
    Beside: "beside" "besides" "next" "nxt" "bes" "alongside" "adjacent" "near" "bsd" "nextto";
    Together: "together" "tog" "tgthr" "togeth" "togther" "tgth" "tgr" "togethr";
    Place: "place" "ip" "spot" "situ" "places";
    Home: "home" "centre" "center" "middle" "base";
    Out: "out" "apart" "outward" "outwards" "wide";
    In: "in" "inward" "inwards";
    Up: "up";
    Down: "down" "dn";
    Away: "away";
    Around: "around" "round";
    Off: "off";
    // Parts of the body.
    Heel: "heel" "heels" "hl";
    Toe: "toe" "toes" "tip" "tips";
    Knee: "knee" "knees";
    Hip: "hip" "hips";
    Hand: "hand" "hands" "finger" "fingers" "arm" "arms";
    Body: "body" "chest" "head";
    Leg: "leg" "legs" "shin" "shins" "calf" "ankle" "ankles";
    // Size, speed and manner.
    Long: "long" "big" "large" "wider" "longer" "bigger" "lg" "great";
    Small: "small" "little" "short" "tiny" "sm" "tight";
    Slightly: "slightly" "slight" "bit";
    Low: "low" "lightly" "gently" "soft" "softly" "high";
    Slow: "slow" "slowly" "slows" "slo";
    Quick: "quick" "quickly" "quicks" "q";
    Syncopated: "syncopated" "sync" "syncop";
    Double: "double" "doubles" "dbl";
    Single: "single" "singles";
    Extended: "extended";
    Reverse: "reverse" "reversed" "rev";
    // Weight.
    Weight: "weight" "wt" "wgt" "wght" "weights" "gewicht";
    WeightOnL: "wol";
    WeightOnR: "wor";
    Take: "take" "takes" "taking" "taken" "took" "put" "puts" "putting" "transfert" "get" "gets" "carry" "carries" "bears";
    Keep: "keep" "keeps" "keeping" "stay" "stays" "staying" "kept" "remain" "remains" "still" "leave" "leaves" "leaving";
    End: "end" "ends" "ending" "ended" "finish" "finishes" "finishing" "finale";
    No: "no" "not" "non" "without" "don't" "dont" "never" "w/o" "none" "doesn't" "any";
    // Small words.
    And: "and" "&" "+" "n" "und" "et";
    Then: "then";
    With: "with" "w" "w/" "incl" "plus";
    To: "to" "toward" "towards" "into" "til" "unto";
    On: "on" "onto" "upon";
    Of: "of";
    The: "the" "a" "an" "your" "you" "its" "our" "we" "my" "his" "her" "their" "that" "this" "which" "is" "are" "be" "very" "just" "so" "now" "also" "too" "own" "one";
    It: "it" "them";
    From: "from";
    For: "for" "during" "lasting";
    While: "while" "as" "when" "whilst";
    At: "at";
    By: "by" "past" "along";
    Or: "or";
    Make: "make" "makes" "making" "made" "do" "doing" "does" "dance" "danced" "bring" "brings" "bringing" "move" "moves" "moving" "travel" "travels" "travelling" "traveling" "trav" "go" "goes" "going" "lead" "leads" "leading" "open" "opens" "opening" "set" "sets" "start" "starts" "starting" "begin" "begins" "beginning" "commence" "use" "using";
    // Repeats.
    Repeat: "repeat" "repeats" "repeated" "repeating" "rpt" "redo";
    Same: "same" "likewise" "ditto" "idem";
    Again: "again";
    Twice: "twice";
    Thrice: "thrice";
    Times: "times" "time" "x's";
    Once: "once";
    More: "more";
    Other: "other" "opposite" "mirror" "mirrored" "mirroring" "reversing" "opp";
    Footwork: "footwork";
    Lead: "mirror-image";
    // Numbers in words.
    Two: "two"; Three: "three"; Four: "four"; Five: "five"; Six: "six"; Seven: "seven"; Eight: "eight";
    Nine: "nine"; Ten: "ten"; Eleven: "eleven"; Twelve: "twelve"; Sixteen: "sixteen"; TwentyFour: "twenty-four" "twentyfour"; ThirtyTwo: "thirty-two" "thirtytwo"; FortyEight: "forty-eight" "fortyeight"; SixtyFour: "sixty-four" "sixtyfour";
    Twenty: "twenty"; Thirty: "thirty"; Forty: "forty" "fourty"; Fifty: "fifty"; Sixty: "sixty"; Seventy: "seventy"; Eighty: "eighty";
    First: "first" "1st"; Second: "second" "2nd"; ThirdTh: "3rd"; Fourth: "fourth" "4th"; Fifth: "fifth" "5th"; Sixth: "sixth" "6th"; Seventh: "seventh" "7th"; EighthTh: "8th"; Ninth: "ninth" "9th"; Tenth: "tenth" "10th"; Last: "last" "final";
    // Structure of a sheet.
    Count: "count" "counts" "ct" "cts" "beat" "beats" "cnt" "cnts" "counting";
    Section: "section" "sections" "sec" "sect" "block" "blk" "phrase" "verse";
    Set: "part" "parts" "prt";
    Wall: "wall" "walls" "wl" "wls" "repetition" "repetitions" "rotation" "rotations" "sequence" "sequences";
    Tag: "tag" "tags" "bridge" "bridges";
    Restart: "restart" "restarts" "restarting" "rs" "rst";
    After: "after" "aft" "aftr";
    Before: "before";
    OClock: "o'clock" "oclock" "o'c" "o'clk" "hrs" "uhr";
    Option: "option" "options" "optional" "optionally" "alternative" "alternatively" "variation" "easier" "harder" "easy" "styling" "style" "tip:" "hint";
    Note: "note" "notes" "nb" "ps" "remember" "reminder";
    Music: "music" "song" "track" "tune" "musik";
    Level: "level" "grade" "difficulty" "niveau";
    Intro: "intro" "introduction" "lead-in";
    Choreographer: "choreographer" "choreographers" "choreographed" "choreo" "choreography" "author" "devised" "chor";
    Bpm: "bpm" "tempo";
    Beginner: "beginner" "beginners" "beg" "newcomer" "novice";
    Improver: "improver" "improvers" "imp";
    Intermediate: "intermediate" "int";
    Advanced: "advanced" "adv";
    Waltz: "waltz" "waltzes";
    Enjoy: "enjoy" "smile" "fun";
}

/// Numbers of words: those of the grammar are below [`Vocabulary::FIRST_OWN`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Word(pub u16);

impl W {
    /// As a number.
    #[must_use]
    pub const fn word(self) -> Word {
        Word(self as u16)
    }
}

/// A spelling and what it stands for.
#[derive(Debug, Clone)]
struct Spelling {
    letters: Cow<'static, str>,
    word: Word,
    grammar: Option<W>,
}

/// All words, with their spellings.
///
/// The spellings stand in the order in which they came; a table with open addressing finds them by their letters.
#[derive(Debug, Clone)]
pub struct Vocabulary {
    spellings: Vec<Spelling>,
    /// One more than the index of a spelling, or 0.
    table: Vec<u16>,
    /// Words without their vowels, in the order of the alphabet, with the index of their spelling.
    bones: Vec<(String, u16)>,
    /// Spellings by the number of their letters, in the order in which they came, each with its first letter and its
    /// last.
    by_length: Vec<Vec<(u16, [u8; 2])>>,
    next: u16,
}

impl Default for Vocabulary {
    fn default() -> Self {
        Self::new()
    }
}

/// Places of the table, a power of two; a third of them is used.
const PLACES: usize = 1 << 13;

/// The first byte of a word and its last.
fn ends(word: &str) -> [u8; 2] {
    let bytes = word.as_bytes();
    [bytes.first().copied().unwrap_or(0), bytes.last().copied().unwrap_or(0)]
}

/// A number for some letters, the same on every machine.
fn hash(letters: &[u8]) -> usize {
    let mut h = letters.len() as u64;
    let mut chunks = letters.chunks_exact(8);
    for c in &mut chunks {
        h = mix(h ^ u64::from_le_bytes([c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7]]));
    }
    let rest = chunks.remainder().iter().fold(0, |n, b| n << 8 | u64::from(*b));
    usize::try_from(mix(h ^ rest) >> 40).unwrap_or(0)
}

fn mix(h: u64) -> u64 {
    let h = h.wrapping_mul(0x9e37_79b9_7f4a_7c15);
    (h ^ (h >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9)
}

const VOWELS: [char; 5] = ['a', 'e', 'i', 'o', 'u'];

/// A word without its vowels, except one at its beginning, and without doubled letters.
fn bone(word: &str) -> String {
    let mut out = String::with_capacity(word.len());
    for (i, c) in word.char_indices() {
        if (i == 0 || !VOWELS.contains(&c)) && !out.ends_with(c) {
            out.push(c);
        }
    }
    out
}

impl Vocabulary {
    /// Words from this number on come from the lexicon.
    pub const FIRST_OWN: u16 = 1000;

    /// No words at all.
    #[must_use]
    pub fn empty() -> Self {
        Self {
            spellings: Vec::new(),
            table: vec![0; PLACES],
            bones: Vec::new(),
            by_length: Vec::new(),
            next: Self::FIRST_OWN,
        }
    }

    /// The words of the grammar.
    #[must_use]
    pub fn new() -> Self {
        let mut new = Self::empty();
        new.spellings.reserve(PLACES / 4);
        for (spellings, w) in SPELLINGS {
            for s in *spellings {
                new.put(Cow::Borrowed(s), w.word(), Some(*w));
            }
        }
        new
    }

    /// The place of a spelling in the table, or the free place where it belongs.
    fn place(&self, letters: &[u8]) -> usize {
        let mut at = hash(letters) % PLACES;
        while let Some(s) = usize::from(self.table[at]).checked_sub(1).map(|i| &self.spellings[i]) {
            if s.letters.as_bytes() == letters {
                break;
            }
            at = (at + 1) % PLACES;
        }
        at
    }

    /// Puts a spelling in; the last meaning of one holds. More spellings than half the places are not taken in.
    fn put(&mut self, letters: Cow<'static, str>, word: Word, grammar: Option<W>) {
        let at = self.place(letters.as_bytes());
        if let Some(i) = usize::from(self.table[at]).checked_sub(1) {
            self.spellings[i].word = word;
            self.spellings[i].grammar = grammar;
        } else if self.spellings.len() < PLACES / 2 {
            let length = letters.len();
            if self.by_length.len() <= length {
                self.by_length.resize_with(length + 1, Vec::new);
            }
            self.by_length[length].push((u16::try_from(self.spellings.len()).unwrap_or(0), ends(&letters)));
            self.spellings.push(Spelling { letters, word, grammar });
            self.table[at] = u16::try_from(self.spellings.len()).unwrap_or(0);
        }
    }

    /// The number of a word in lower case, if it is known.
    #[must_use]
    pub fn get(&self, word: &str) -> Option<(Word, Option<W>)> {
        self.spelt(word.as_bytes())
    }

    fn spelt(&self, letters: &[u8]) -> Option<(Word, Option<W>)> {
        let i = usize::from(self.table[self.place(letters)]).checked_sub(1)?;
        Some((self.spellings[i].word, self.spellings[i].grammar))
    }

    /// The same for a word that may have capitals.
    #[must_use]
    pub fn get_any(&self, word: &str) -> Option<(Word, Option<W>)> {
        let mut letters = [0; 32];
        match letters.get_mut(..word.len()) {
            Some(few) if word.is_ascii() => {
                for (small, b) in few.iter_mut().zip(word.bytes()) {
                    *small = b.to_ascii_lowercase();
                }
                self.spelt(few)
            }
            _ => self.get(&lower(word)),
        }
    }

    /// Makes words of steps known without their vowels, too: "shfl", "cstr", "scf".
    pub fn bone(&mut self) {
        let mut bones: Vec<(String, u16)> = Vec::new();
        let mut before = None;
        for (i, s) in self.spellings.iter().enumerate() {
            let first = before != Some(s.word);
            before = Some(s.word);
            let steps = match s.grammar {
                Some(w) => first && super::words::acts(w),
                None => s.letters.len() > 2 && !s.letters.ends_with('s'),
            };
            let bone = bone(&s.letters);
            if steps && bone.len() >= 2 && bone.len() < s.letters.len() {
                bones.push((bone, u16::try_from(i).unwrap_or(u16::MAX)));
            }
        }
        bones.in_order();
        // What two words have in common is neither.
        let word = |b: &(String, u16)| self.spellings[usize::from(b.1)].word;
        let clash: Vec<String> = bones
            .windows(2)
            .filter(|w| w[0].0 == w[1].0 && word(&w[0]) != word(&w[1]))
            .map(|w| w[0].0.clone())
            .collect();
        bones.retain(|b| !clash.contains(&b.0));
        bones.dedup_by(|a, b| a.0 == b.0);
        self.bones = bones;
    }

    /// The word that these letters are without its vowels, if it is a single one.
    #[must_use]
    pub fn boned(&self, letters: &str) -> Option<(Word, Option<W>)> {
        if !(2..=7).contains(&letters.len()) || letters.contains(VOWELS) {
            return None;
        }
        let letters = bone(letters);
        let at = self.bones.binary_search_by(|b| b.0.as_str().cmp(&letters)).ok()?;
        let s = &self.spellings[usize::from(self.bones[at].1)];
        Some((s.word, s.grammar))
    }

    /// The number of a word, which is new if it was not known.
    pub fn learn(&mut self, word: &str) -> Word {
        if let Some((w, _)) = self.get(word) {
            return w;
        }
        let w = Word(self.next);
        self.next += 1;
        self.put(Cow::Owned(word.to_string()), w, None);
        w
    }

    /// Makes a spelling stand for a word that is known already.
    pub fn alias(&mut self, spelling: &str, word: Word) {
        if self.get(spelling).is_none() {
            self.put(Cow::Owned(spelling.to_string()), word, None);
        }
    }

    /// The spellings of so many letters that begin with this one or end with that one, with what they stand for, in
    /// the order in which they came.
    pub fn alike(
        &self,
        length: usize,
        first: u8,
        last: Option<u8>,
    ) -> impl Iterator<Item = (&str, Word, Option<W>)> {
        let of = self.by_length.get(length).map_or(&[][..], Vec::as_slice);
        let alike = of.iter().filter(move |(_, ends)| ends[0] == first || Some(ends[1]) == last);
        alike.map(|(i, _)| &self.spellings[usize::from(*i)]).map(|s| (&*s.letters, s.word, s.grammar))
    }
}
