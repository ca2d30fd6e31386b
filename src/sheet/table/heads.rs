//! The words that stand over columns.

use core::ops::Range;
use std::sync::OnceLock;

use super::Page;
use super::cells::Cell;
use crate::dance::Foot;
use crate::sheet::vocabulary::Vocabulary;

/// What a column is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// When.
    Count,
    /// Which foot.
    Foot,
    /// What one foot does, the other having a column of its own.
    Of(Foot),
    /// What is done.
    Action,
    /// Where to.
    Place,
    /// How far and which way the body turns.
    Turn,
    /// Where the dancers then look.
    Facing,
    /// Words that are called out, or remarks.
    Cue,
    /// The number or letter of the section.
    Section,
    /// Numbers of rows, and anything else that says nothing of steps.
    Left,
}

/// Words over columns, in English and in the languages of neighbours who write English sheets.
const WORDS: &[(Role, &str)] = &[
    (
        Role::Count,
        "count, counts, ct, cts, cnt, cnts, beat, beats, bt, time, times, timing, when, tel, tellen, telling, \
         takt, takte, takter, zeit, zähler, zahler, zählzeit, schläge, temps, compte, comptes, tiempo, \
         tiempos, cuenta, cuentas, conteo, tempo, tempi, conteggio, conta, tælling, slag, räkning, taktslag, \
         tid, music beat, count no, on count, counting, c",
    ),
    (
        Role::Foot,
        "foot, feet, ft, which foot, f, r/l, l/r, voet, voeten, fuß, fuss, füße, fusse, pied, pieds, pie, \
         pies, piede, piedi, pé, fod, fødder, fot, fötter, føtter, leg, bein, been, side, foot used, foot \
         moving, moving foot, working foot, foot that moves, who",
    ),
    (
        Role::Of(Foot::Right),
        "right foot, right, rf, r foot, r, rechter fuß, rechter fuss, rechtervoet, pied droit, pie derecho, \
         piede destro, højre fod, höger fot, høyre fot, right leg, the right foot, what the right foot does, \
         rv, pd",
    ),
    (
        Role::Of(Foot::Left),
        "left foot, left, lf, l foot, l, linker fuß, linker fuss, linkervoet, pied gauche, pie izquierdo, \
         piede sinistro, venstre fod, vänster fot, venstre fot, left leg, the left foot, what the left foot \
         does, lv, pg",
    ),
    (
        Role::Action,
        "step, steps, action, actions, movement, movements, move, moves, what, what to do, what you do, what \
         it does, what they do, what the feet do, what we do, figure, figures, description, step description, \
         do this, footwork, foot work, steps and turns, dance, danced, instruction, instructions, schritt, \
         schritte, bewegung, beschreibung, was, pas, mouvement, mouvements, stap, stappen, beweging, pass, \
         paso, pasos, movimiento, acción, accion, passo, passi, movimento, azione, trin, skridt, bevægelse, \
         steg, rörelse, bevegelse, how, work, execution, technique, the step, we do, you do, does",
    ),
    (
        Role::Place,
        "direction, dir, where, where to, place, position, richtung, richting, wohin, waarheen, dirección, \
         direccion, donde, dónde, direzione, dove, retning, riktning, placement, to, direction of step, which \
         way, way, lieu, où, placering, travel, hvor",
    ),
    (
        Role::Turn,
        "turn, turns, turning, rotation, rotate, drehung, draai, draaiing, giro, giros, tour, tours, vuelta, \
         vridning, drejning, vending, sving, amount of turn, turn amount, spin, body turn, degrees, \
         rotazione, turn by, pivot",
    ),
    (
        Role::Facing,
        "face, facing, clock, wall, faces, you face, looking at, look, looking, turn to, looks, wand, blick, \
         blickrichtung, muur, mur, pared, mirando, parete, væg, vägg, vegg, regard, o'clock, oclock, uhr, \
         klok, reloj, now facing, end facing, you see, we see, facing wall, face wall, ends facing, \
         orientation, hour, heading, front, end, ends, at end, at the end, ends at, end wall, looks at",
    ),
    (
        Role::Cue,
        "call, calls, cue, cues, say, says, shout, shouts, called, i say, i call, i shout, words, remarks, \
         remark, comment, comments, hint, hints, cue words, cue word, teacher says, what i say, voice, \
         caller, spoken, sing, lyrics, note, notes, tip, tips, ansage, zuruf, roep, annonce, voz, voce, \
         grito, råb, rop, styling, style, hands, arms, hände, mains, manos, clap, memory, memo, bemerkung, \
         opmerking, remarque, nota, notas, note to self, the call, prompt, name, name of figure, called out, \
         chant, mnemonic",
    ),
    (
        Role::Section,
        "part, section, block, sec, sect, set, teil, deel, del, blok, partie, bloque, parte, sezione, \
         sección, seccion, phrase, eight, eights, 8s",
    ),
    (Role::Left, "no, nr, #, n°, nº, line, row, zeile, regel, ligne, num, number, bar, weight"),
];

/// Words that tell what a column is for wherever they stand over it, strongest first.
const WITHIN: &[(Role, &str)] = &[
    (
        Role::Cue,
        "call, calls, cue, cues, say, says, shout, voice, caller, spoken, teacher, remark, remarks, comment, \
         comments, hint, words",
    ),
    (Role::Facing, "facing, face, faces, look, looking, see"),
    (Role::Count, "count, counts, beat, beats"),
    (Role::Turn, "turn, turns, rotation"),
    (Role::Foot, "foot"),
    (Role::Place, "direction, where"),
    (Role::Action, "step, steps, action, movement, do, does, feet"),
];

/// Words that stand over facts of the whole dance, not over columns of steps.
const FACTS: &[&str] = &["by", "sheet", "level", "music", "song", "title", "walls", "intro", "starts"];

/// What a word or a few say over a column.
#[derive(Debug, Clone, Copy, Default)]
struct Says {
    /// Alone.
    alone: Option<Role>,
    /// Among others, as a place in the list.
    within: Option<usize>,
    /// It stands over facts of the whole dance.
    fact: bool,
}

/// The words over columns by their spelling, so that a cell is looked up once whatever the lists hold.
struct Heads {
    known: Vocabulary,
    says: Vec<Says>,
    /// Bytes of the longest.
    longest: usize,
}

impl Heads {
    fn of() -> Self {
        let mut heads = Self { known: Vocabulary::empty(), says: Vec::new(), longest: 0 };
        for (role, list) in WORDS {
            for words in list.split(", ") {
                heads.entry(words).alone.get_or_insert(*role);
            }
        }
        for (n, (_, list)) in WITHIN.iter().enumerate() {
            for word in list.split(", ") {
                heads.entry(word).within.get_or_insert(n);
            }
        }
        for word in FACTS {
            heads.entry(word).fact = true;
        }
        heads
    }

    fn entry(&mut self, words: &str) -> &mut Says {
        self.longest = self.longest.max(words.len());
        let n = usize::from(self.known.learn(words).0 - Vocabulary::FIRST_OWN);
        if n >= self.says.len() {
            self.says.resize(n + 1, Says::default());
        }
        &mut self.says[n]
    }

    fn get(&self, words: &str) -> Says {
        if words.is_empty() || words.len() > self.longest {
            return Says::default();
        }
        let word = self.known.get_any(words).map(|(w, _)| usize::from(w.0 - Vocabulary::FIRST_OWN));
        word.and_then(|n| self.says.get(n)).copied().unwrap_or_default()
    }
}

fn heads() -> &'static Heads {
    static HEADS: OnceLock<Heads> = OnceLock::new();
    HEADS.get_or_init(Heads::of)
}

/// The words without the signs around them.
fn bare(words: &str) -> &str {
    words.trim_matches(|c: char| !c.is_alphanumeric() && !matches!(c, '#' | '°' | 'º'))
}

/// What the words over a column say.
pub(super) fn said(words: &str) -> Option<Role> {
    if words.len() > 60 {
        return None;
    }
    exactly(words).or_else(|| {
        let heads = heads();
        let each = bare(words).split(|c: char| !c.is_alphanumeric()).filter(|w| !w.is_empty());
        let mut best: Option<usize> = None;
        for (n, word) in each.enumerate() {
            let Says { within, fact, .. } = heads.get(word);
            if n >= 6 || fact {
                return None;
            }
            best = best.into_iter().chain(within).min();
        }
        best.map(|n| WITHIN[n].0)
    })
}

/// The same for words that are known as they stand.
pub(super) fn exactly(words: &str) -> Option<Role> {
    heads().get(bare(words)).alone
}

/// Whether a row names its columns: counts, and what the feet do.
pub(super) fn header(page: Page<'_>, cells: &[Range<usize>]) -> bool {
    let words = |c: &Range<usize>| &page.text[c.clone()];
    // Hardly any row has two heads, so all else is asked only of those.
    if cells.iter().filter(|c| exactly(words(c)).is_some()).nth(1).is_none() {
        return false;
    }
    let number = |c: &Range<usize>| {
        words(c).contains(|c: char| c.is_ascii_digit()) && said(words(c)).is_none()
            || Cell::counts_of(page, c.clone()).is_some()
    };
    let full = cells.iter().filter(|c| !bare(words(c)).is_empty()).count();
    let roles: Vec<Role> = cells.iter().filter_map(|c| said(words(c))).collect();
    let known = cells.iter().filter(|c| exactly(words(c)).is_some()).count();
    let count = roles.contains(&Role::Count);
    let numbered =
        roles.contains(&Role::Left) || roles.contains(&Role::Section) || roles.contains(&Role::Foot);
    let does = roles.iter().any(|r| matches!(r, Role::Action | Role::Foot | Role::Of(_) | Role::Place));
    does && (count || numbered && known >= 3) && roles.len() * 2 >= full && !cells.iter().any(number)
}
