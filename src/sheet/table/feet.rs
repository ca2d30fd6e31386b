//! The feet of a cell, and which step each of them takes.

use crate::dance::Foot;
use crate::sheet::vocabulary::W;
use crate::sheet::words::{Kind, Token};
use crate::text::{Span, lower};

/// A foot as a cell names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Named {
    /// Which; nothing for a dash that keeps its place, and for both feet.
    pub foot: Option<Foot>,
    /// The word, as a foot.
    pub token: Token,
}

/// Words for a foot that mean one only in a column of feet.
const ABROAD: &[(Foot, &[&str])] = &[
    (
        Foot::Right,
        &[
            "d", "h", "re", "dx", "der", "dr", "rechts", "rechter", "droit", "droite", "derecho", "derecha",
            "destro", "destra", "direito", "højre", "höger", "høyre", "hf", "hö",
        ],
    ),
    (
        Foot::Left,
        &[
            "g",
            "i",
            "v",
            "li",
            "sx",
            "izq",
            "links",
            "linker",
            "gauche",
            "izquierdo",
            "izquierda",
            "sinistro",
            "sinistra",
            "esquerdo",
            "venstre",
            "vänster",
            "vf",
            "vä",
        ],
    ),
];

/// The foot that a word of a column of feet means.
pub(super) fn foot(text: &str, t: &Token) -> Option<Foot> {
    match t.kind {
        Kind::W(W::R | W::RF) => Some(Foot::Right),
        Kind::W(W::L | W::LF) => Some(Foot::Left),
        Kind::W(_) | Kind::Unknown | Kind::Name(_) => {
            let word = lower(t.span.of(text));
            ABROAD.iter().find(|(_, list)| list.contains(&word.as_str())).map(|(foot, _)| *foot)
        }
        _ => None,
    }
}

fn kind(foot: Foot) -> Kind {
    Kind::W(match foot {
        Foot::Right => W::RF,
        Foot::Left => W::LF,
    })
}

/// The feet of a cell in order: `R`, `R L R`, `RLR`, `R-L-R`, `R, -`, `- R - L`.
pub(super) fn feet(text: &str, t: &[Token]) -> Vec<Named> {
    let mut out = Vec::new();
    for (i, token) in t.iter().enumerate() {
        if token.kind == Kind::Feet {
            for (k, c) in token.span.of(text).char_indices() {
                let foot = if c.eq_ignore_ascii_case(&'r') { Foot::Right } else { Foot::Left };
                let at = token.span.start as usize + k;
                let span = Span::new(at, at + c.len_utf8());
                out.push(Named { foot: Some(foot), token: Token { kind: kind(foot), span, gap: 1 } });
            }
        } else if let Some(foot) = foot(text, token) {
            out.push(Named { foot: Some(foot), token: Token { kind: kind(foot), gap: 1, ..*token } });
        } else if token.sign('-') {
            // Between two feet a dash joins; where a foot would stand it keeps the place.
            let joins = i > 0
                && !t[i - 1].sign('-')
                && t.get(i + 1).is_some_and(|n| !n.sign('-'))
                && (token.gap == 0 || t[i + 1].gap > 0 && t[..i].iter().all(|t| !t.sign(',')))
                && !(token.gap > 0 && t[i + 1].gap > 0 && spaced(t));
            if !joins {
                out.push(Named { foot: None, token: *token });
            }
        }
    }
    out
}

/// Whether feet stand with nothing but blanks between some of them, so that a dash is no sign between them.
fn spaced(t: &[Token]) -> bool {
    let side = |t: &Token| matches!(t.kind, Kind::W(W::R | W::RF | W::L | W::LF));
    t.windows(2).any(|w| side(&w[0]) && side(&w[1]))
        || t.first().is_some_and(|t| t.sign('-'))
        || t.last().is_some_and(|t| t.sign('-'))
}

/// Whether some word of a clause names this foot, and not only a direction.
pub(super) fn names(t: &[Token], foot: Foot) -> bool {
    (0..t.len()).any(|i| {
        let this = match t[i].kind {
            Kind::W(W::R | W::RF) => foot == Foot::Right,
            Kind::W(W::L | W::LF) => foot == Foot::Left,
            _ => return false,
        };
        let mut before = i;
        while before > 0 && t[before - 1].is(W::The) {
            before -= 1;
        }
        let towards = before > 0
            && matches!(
                t[before - 1].kind,
                Kind::W(
                    W::To
                        | W::Across
                        | W::Behind
                        | W::Beside
                        | W::Of
                        | W::Front
                        | W::Turn
                        | W::Quarter
                        | W::Half
                        | W::Full
                        | W::By
                ) | Kind::Fraction(_)
            );
        let side = t.get(i + 1).is_some_and(|t| matches!(t.kind, Kind::W(W::Side | W::Diagonal)));
        this && !towards && !(side && matches!(t[i].kind, Kind::W(W::R | W::L)))
    })
}

/// Whether a clause names the other foot as the one that moves: it stands before the verb or right behind it.
pub(super) fn leads(t: &[Token]) -> Option<Foot> {
    let first = t.iter().find(|t| !matches!(t.kind, Kind::Sign(_) | Kind::W(W::The)))?;
    match first.kind {
        Kind::W(W::R | W::RF) => Some(Foot::Right),
        Kind::W(W::L | W::LF) => Some(Foot::Left),
        _ => None,
    }
}
