//! Sheets that write pairs of counts in one number: `12`, `34`.

use super::lines::{Line, weigh};
use super::vocabulary::W;
use super::words::{Kind, Token};

/// How many numbers are counts in pairs, such as 12 and 34.
pub(super) fn pair_numbers(t: &[Token]) -> usize {
    t.iter().filter(|t| matches!(t.kind, Kind::Number(12 | 34 | 56 | 78))).count()
}

/// Marks the lines of a sheet that writes pairs of counts in one: `12`, `34`, in brackets too.
pub(super) fn pack(text: &str, lines: &mut [Line]) {
    let bracketed = |t: &[Token]| {
        let pair = |w: &[Token]| {
            matches!(w[0].kind, Kind::Sign('(' | '[')) && matches!(w[1].kind, Kind::Number(12 | 34 | 56 | 78))
        };
        t.windows(2).filter(|w| pair(w)).count()
    };
    // "(12)" may be an hour, but hardly anything else has 34 or 56.
    let odd = |t: &Token| matches!(t.kind, Kind::Number(34 | 56 | 78));
    let several = lines.iter().map(|l| bracketed(&l.tokens)).sum::<usize>() >= 4
        && lines.iter().filter(|l| bracketed(&l.tokens) > 0 && l.tokens.iter().any(odd)).count() >= 2;
    // "right heel twice 34", "left behind right to side left across &56": at the end of lines.
    let ends = |l: &Line| match l.tokens.as_slice() {
        [.., before, last] => {
            odd(last) && last.gap == 1 && weigh(before.kind).0 || odd(last) && before.is(W::And)
        }
        _ => false,
    };
    let ends = lines.iter().filter(|l| ends(l)).count() >= 2;
    // "34 heel R twice" between "2& heel L, close L" and "&5 close R, cross L"
    let between = |i: usize| {
        let l = &lines[i];
        let Some(Kind::Number(n @ (34 | 56 | 78))) = l.tokens.get(l.first).map(|t| t.kind) else {
            return false;
        };
        let above = lines[..i].iter().rev().find(|l| !l.tokens.is_empty());
        above.and_then(|l| l.leading(text)).is_some_and(|m| u32::try_from(m.last() + 1) == Ok(n / 10))
    };
    let between = (0..lines.len()).any(between);
    if several
        || ends
        || between
        || pairs(lines)
        || lines.iter().filter(|l| pair_numbers(&l.tokens) >= 2).count() >= 2
    {
        for line in lines {
            line.packed = true;
        }
    }
}

/// Whether lines begin with 12 and another such pair, and with none of the counts that stand around them where counts
/// run on through the dance.
fn pairs(lines: &[Line]) -> bool {
    let starts =
        |n: u32| lines.iter().any(|l| l.tokens.get(l.first).is_some_and(|t| t.kind == Kind::Number(n)));
    // "1) 12 R side, L behind", "S2: 12 L rock": behind the sign of a label.
    let labelled = |l: &Line| {
        l.tokens[l.first.min(l.tokens.len())..].windows(2).take(3).any(|w| {
            let sign = matches!(w[0].kind, Kind::Sign(')' | ':' | '.' | ']' | '-' | '='));
            sign && w[1].gap > 0 && w[1].kind == Kind::Number(12)
        })
    };
    (starts(12) || lines.iter().any(labelled))
        && [34, 56, 78].iter().any(|n| starts(*n))
        && ![9, 10, 11, 13, 14, 33, 35, 55, 57].iter().any(|n| starts(*n))
}
