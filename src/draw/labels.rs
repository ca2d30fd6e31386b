//! Where labels go: beside their prints, never on another print, and with a line to it where they stand off.
//!
//! Nothing is measured: a label is as wide as its letters could be. Places are tried in a fixed order from near
//! to far, so the same drawing always comes out the same.

use super::plan::Rect;

/// What keeps labels away: a disc.
#[derive(Debug, Clone, Copy)]
pub(super) struct Disc {
    pub(super) at: (f64, f64),
    pub(super) r: f64,
    /// How bad it is to cover it; paths may be crossed, prints not.
    pub(super) weight: f64,
}

/// A label that wants a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted {
    /// The point that it is about.
    pub(super) at: (f64, f64),
    pub(super) w: f64,
    pub(super) h: f64,
    /// Where it would rather be: a vector from the point.
    pub(super) rather: (f64, f64),
    /// Its nearest distance from the point.
    pub(super) clear: f64,
}

/// Sixteen directions of the compass.
const COMPASS: [(f64, f64); 16] = [
    (1.0, 0.0),
    (0.924, 0.383),
    (0.707, 0.707),
    (0.383, 0.924),
    (0.0, 1.0),
    (-0.383, 0.924),
    (-0.707, 0.707),
    (-0.924, 0.383),
    (-1.0, 0.0),
    (-0.924, -0.383),
    (-0.707, -0.707),
    (-0.383, -0.924),
    (0.0, -1.0),
    (0.383, -0.924),
    (0.707, -0.707),
    (0.924, -0.383),
];

/// Finds a place for each, in order: within the frame, and rather within the core of the drawing, so that the
/// drawing stays small.
pub(super) fn place(wanted: &[Wanted], discs: &[Disc], frame: Rect, core: Rect) -> Vec<Rect> {
    let mut placed: Vec<Rect> = Vec::with_capacity(wanted.len());
    for w in wanted {
        let mut best: Option<(f64, Rect)> = None;
        for ring in 0..7 {
            for (dx, dy) in COMPASS {
                let out = w.clear + f64::from(ring) * 7.0;
                // The box touches the ring with its nearer side.
                let centre = (w.at.0 + dx * (out + w.w / 2.0), w.at.1 + dy * (out + w.h / 2.0));
                let rect = Rect::about(centre, w.w, w.h);
                let away = 1.0 - (dx * w.rather.0 + dy * w.rather.1);
                let cost = f64::from(ring) * 1.6
                    + away * 1.2
                    + crowding(&rect, &placed, discs, frame, w)
                    + beyond(&rect, core) * 0.035;
                if best.is_none_or(|(least, _)| cost < least - 1e-9) {
                    best = Some((cost, rect));
                }
            }
            // Nothing farther off can be better than what is free here.
            if best.is_some_and(|(least, _)| least < f64::from(ring + 1) * 1.6) {
                break;
            }
        }
        placed.push(best.map_or(Rect::about(w.at, w.w, w.h), |(_, rect)| rect));
    }
    placed
}

/// How far a rectangle stands out of another, in units of the paper.
fn beyond(rect: &Rect, core: Rect) -> f64 {
    let over = |low: f64, high: f64, from: f64, to: f64| (from - low).max(0.0) + (high - to).max(0.0);
    over(rect.x, rect.x + rect.w, core.x, core.x + core.w)
        + over(rect.y, rect.y + rect.h, core.y, core.y + core.h)
}

fn crowding(rect: &Rect, placed: &[Rect], discs: &[Disc], frame: Rect, w: &Wanted) -> f64 {
    let mut cost = 0.0;
    if !frame.holds(rect) {
        cost += 60.0;
    }
    let roomy = Rect::new(rect.x - 1.5, rect.y - 1.5, rect.w + 3.0, rect.h + 3.0);
    for other in placed {
        cost += roomy.common(other) * 0.5;
        // A leader line must not run through a label either.
        let middle = rect.middle();
        let half = (middle.0.midpoint(w.at.0), middle.1.midpoint(w.at.1));
        if other.common(&Rect::about(half, 2.0, 2.0)) > 0.0 {
            cost += 6.0;
        }
    }
    for disc in discs {
        let (x, y) = rect.nearest(disc.at);
        let (dx, dy) = (x - disc.at.0, y - disc.at.1);
        let gap = (dx * dx + dy * dy).sqrt();
        if gap < disc.r {
            cost += disc.weight * (disc.r - gap) / disc.r.max(1.0);
        }
    }
    cost
}

/// How broad words of a size are at most, drawn in the bold letters of the labels.
pub(super) fn breadth(words: &str, size: f64) -> f64 {
    words.chars().map(|c| if c == ',' || c == '/' { 0.36 } else { 0.64 }).sum::<f64>() * size
}

/// Words in lines of at most so many letters; a longer word stands alone.
pub(super) fn lines(words: &str, letters: usize) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let room = out.last().is_some_and(|l| l.chars().count() + 1 + word.chars().count() <= letters);
        if let Some(line) = out.last_mut().filter(|_| room) {
            line.push(' ');
            line.push_str(word);
        } else {
            let mut rest: &str = word;
            while rest.chars().count() > letters.max(1) {
                let cut = rest.char_indices().nth(letters.max(1)).map_or(rest.len(), |(i, _)| i);
                out.push(rest[..cut].to_owned());
                rest = &rest[cut..];
            }
            out.push(rest.to_owned());
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_cut_into_lines() {
        assert_eq!(lines("rock forward, recover", 14), ["rock forward,", "recover"]);
        assert_eq!(lines("abcdefghij k", 4), ["abcd", "efgh", "ij k"]);
        assert!(lines("  ", 4).is_empty());
    }

    #[test]
    fn labels_keep_off_prints_and_each_other() {
        let frame = Rect::new(0.0, 0.0, 200.0, 200.0);
        let one = Wanted { at: (100.0, 100.0), w: 20.0, h: 14.0, rather: (1.0, 0.0), clear: 8.0 };
        let disc = Disc { at: (118.0, 100.0), r: 8.0, weight: 20.0 };
        let placed = place(&[one, one], &[disc], frame, frame);
        assert!(placed[0].common(&placed[1]) == 0.0);
        for rect in &placed {
            assert!(frame.holds(rect));
            let (x, y) = rect.nearest(disc.at);
            assert!((x - disc.at.0).abs().max((y - disc.at.1).abs()) > 4.0);
        }
    }
}
