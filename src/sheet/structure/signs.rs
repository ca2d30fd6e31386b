//! Signs at the end of step lines that footnotes take up: `7-8 Step R, touch L **` and `** Wall 5: restart`.

use super::{Build, Kind, Line, PartKind, Token, Topic};

/// A sign that a writer puts where something happens.
fn sign(t: &Token) -> Option<char> {
    match t.kind {
        Kind::Sign(c @ ('*' | '#' | '^' | '+' | '†' | '‡' | '~' | '@' | '§' | '¤' | '$' | '%' | '•')) => {
            Some(c)
        }
        _ => None,
    }
}

/// Rows of one sign: where each begins and ends, and the sign as often as it stands there.
fn rows(t: &[Token]) -> impl Iterator<Item = (core::ops::Range<usize>, String)> + '_ {
    let mut k = 0;
    core::iter::from_fn(move || {
        while k < t.len() {
            let Some(c) = sign(&t[k]) else {
                k += 1;
                continue;
            };
            let from = k;
            while k < t.len() && sign(&t[k]) == Some(c) && (k == from || t[k].gap == 0) {
                k += 1;
            }
            return Some((from..k, core::iter::repeat_n(c, k - from).collect()));
        }
        None
    })
}

impl Build<'_, '_> {
    /// Keeps the sign at the end of a step line, behind its words: "touch R beside L **", "(*)".
    pub(super) fn keep_sign(&mut self, line: &Line, from: usize, place: (usize, usize)) {
        if self.parts[place.0].kind != PartKind::Main {
            return;
        }
        let t = line.tokens.get(from..).unwrap_or_default();
        let closing = |t: &Token| matches!(t.kind, Kind::Sign(')' | ']' | '.'));
        let end = t.len() - t.iter().rev().take_while(|t| closing(t)).count();
        if let Some((_, sign)) = rows(t).find(|(at, _)| at.end == end && at.start > 0) {
            self.signs.push((sign, (place.0, place.1, self.last_count)));
        }
    }

    /// Restarts that a footnote tells happen where its sign stands.
    pub(super) fn footnotes(&mut self) {
        let bare = |m: &&mut super::Mention| {
            m.topic == Topic::Restart && m.after_counts.is_none() && m.after_section.is_none()
        };
        for m in self.mentions.iter_mut().filter(bare) {
            let place = rows(&m.tokens)
                .find_map(|(_, sign)| self.signs.iter().find(|(s, _)| *s == sign).map(|(_, place)| *place));
            m.placed = place.or(m.placed);
        }
    }
}
