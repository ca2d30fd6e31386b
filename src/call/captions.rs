//! Captions for a practice video: WebVTT with the calls and the counts.
//!
//! Written after W3C WebVTT, the sections on the file and on the cue block.

use std::fmt::Write as _;

use super::calls::{Call, CallKind};
use super::tempo::Moment;
use super::timeline::{Song, What, ticks};
use super::walk::eights;
use crate::dance::Dance;
use crate::order::Ordered as _;
use crate::time::Ticks;

/// How the captions lie on the video.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct CaptionOptions {
    /// Where the music begins in the video, in milliseconds; negative where the video begins later.
    pub offset: i64,
    /// From this moment of the video on.
    pub from: Option<Moment>,
    /// Up to this moment of the video.
    pub to: Option<Moment>,
    /// Leaves the counts out.
    pub no_counts: bool,
}

/// The shortest time that a caption stays, in milliseconds: about what a few words take to read.
const SHORTEST: i64 = 700;

struct Cue {
    id: String,
    start: i64,
    end: i64,
    text: String,
    /// Words that light up at a moment of their own.
    lit: Vec<(i64, String)>,
}

impl Cue {
    /// The cue as it is written, with the moments of its words moved as well.
    fn block(&self, offset: i64) -> String {
        let stamp = |t: i64| timestamp(u64::try_from(t).unwrap_or(0));
        let mut out = format!("{}\n{} --> {}\n{}", self.id, stamp(self.start), stamp(self.end), self.text);
        let mut last = self.start;
        for (at, words) in &self.lit {
            let at = at.saturating_add(offset);
            // A moment inside of a cue lies between its borders, and they rise.
            if at > last && at < self.end {
                let _ = write!(out, "<{}>", stamp(at));
                last = at;
            }
            out.push_str(words);
        }
        out + "\n\n"
    }
}

/// The captions of a song.
#[must_use]
pub fn captions(dance: &Dance, song: &Song, calls: &[Call], options: &CaptionOptions) -> String {
    let time = |moment: Moment| i64::try_from(moment.millis()).unwrap_or(i64::MAX / 2);
    let mut cues = call_cues(song, calls, &time);
    cues.extend(intro_cue(dance, song, calls, &time));
    if !options.no_counts {
        cues.extend(count_cues(dance, song, &time));
    }
    let from = options.from.map_or(0, time);
    let to = options.to.map_or(i64::MAX, time);
    for cue in &mut cues {
        cue.start = cue.start.saturating_add(options.offset).max(from);
        cue.end = cue.end.saturating_add(options.offset).min(to);
    }
    cues.retain(|cue| cue.end > cue.start);
    // The sort is stable, so calls stand before the counts of the same moment.
    cues.in_order_by_key(|cue| cue.start);
    let mut out = String::from("WEBVTT\n\n");
    let title = one_line(&dance.head.title);
    if !title.is_empty() {
        let _ = write!(out, "NOTE {title}\n\n");
    }
    for cue in &cues {
        out.push_str(&cue.block(options.offset));
    }
    out
}

/// A time of a caption from whole milliseconds: `00:09.231`, with hours only where there are some.
#[must_use]
pub fn timestamp(millis: u64) -> String {
    let (hours, minutes, seconds) = (millis / 3_600_000, millis / 60_000 % 60, millis / 1000 % 60);
    let rest = format!("{minutes:02}:{seconds:02}.{:03}", millis % 1000);
    if hours == 0 { rest } else { format!("{hours:02}:{rest}") }
}

/// A cue for each figure from its first word until the next figure's, or until its last step has been danced;
/// the words of its steps light up as they are said.
fn call_cues(song: &Song, calls: &[Call], time: &impl Fn(Moment) -> i64) -> Vec<Cue> {
    let said = calls.iter().filter(|c| c.stretch.is_some() && c.kind != CallKind::Count);
    let mut out: Vec<Cue> = Vec::new();
    for call in said {
        let start = time(song.moment(call.start));
        let end = time(song.moment(call.lands + Ticks::COUNT)).max(start + SHORTEST);
        match out.last_mut() {
            // A step whose figure was not called stands alone.
            Some(cue) if call.kind == CallKind::Step && cue.end >= start => {
                cue.lit.push((start, format!(", {}", escaped(&call.words))));
                cue.end = end;
            }
            last => {
                if let Some(before) = last {
                    before.end = before.end.min(start);
                }
                let id = format!("call-{}", out.len() + 1);
                out.push(Cue { id, start, end, text: escaped(&call.words), lit: Vec::new() });
            }
        }
    }
    out
}

/// What is danced, until the first call.
fn intro_cue(dance: &Dance, song: &Song, calls: &[Call], time: &impl Fn(Moment) -> i64) -> Option<Cue> {
    let first = calls
        .iter()
        .find(|c| c.stretch.is_some())
        .map_or(song.moment_of(song.intro), |c| song.moment(c.start));
    let title = one_line(&dance.head.title);
    let text = if title.is_empty() { "ready".to_owned() } else { escaped(&title) };
    (first > Moment(0)).then(|| Cue { id: "intro".into(), start: 0, end: time(first), text, lit: Vec::new() })
}

/// A cue for each section: its counts, each lit when it is reached.
fn count_cues(dance: &Dance, song: &Song, time: &impl Fn(Moment) -> i64) -> Vec<Cue> {
    let mut out = Vec::new();
    for (index, stretch) in song.stretches.iter().enumerate() {
        for eight in eights(dance, stretch.part, stretch.to, stretch.restart) {
            let last = eight.before + eight.section.counts;
            let (from, to) = (eight.before.max(stretch.from), last.min(stretch.to));
            // A line holds eight counts, however long a section is.
            let mut at = from;
            while at < to {
                let until = (at + 8).min(to);
                let music = |count: u32| time(song.moment(ticks(stretch.start + count - stretch.from)));
                let text = match stretch.what {
                    What::Dance => format!("wall {}: ", stretch.wall),
                    What::Tag => "tag: ".to_owned(),
                    What::Ending => "ending: ".to_owned(),
                };
                let word = |count: u32| {
                    let space = if count > at { " " } else { "" };
                    (music(count), format!("{space}{}", count - eight.before + 1))
                };
                let lit = (at..until).map(word).collect();
                let id = format!("count-{}-{}", index + 1, at + 1);
                out.push(Cue { id, start: music(at), end: music(until), text, lit });
                at = until;
            }
        }
    }
    out
}

/// One line of visible text that holds no arrow of the format.
fn one_line(text: &str) -> String {
    let words: Vec<&str> =
        text.split(|c: char| c.is_whitespace() || c.is_control()).filter(|w| !w.is_empty()).collect();
    words.join(" ").replace("-->", "\u{2192}")
}

/// Text of a caption: the signs of the format are written as references.
fn escaped(text: &str) -> String {
    one_line(text).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_written_as_the_standard_says() {
        // V2, V10, V11 and V13 of the check values.
        assert_eq!(timestamp(500), "00:00.500");
        assert_eq!(timestamp(2813), "00:02.813");
        assert_eq!(timestamp(3_599_999), "59:59.999");
        assert_eq!(timestamp(3_600_000), "01:00:00.000");
        assert_eq!(timestamp(360_000_000), "100:00:00.000");
    }

    #[test]
    fn signs_of_the_format_are_written_as_references() {
        // V4, V6 and V12.
        assert_eq!(escaped("cross & <hold>"), "cross &amp; &lt;hold&gt;");
        assert_eq!(escaped("a --> b\n\nc \u{1F57A}"), "a \u{2192} b c \u{1F57A}");
    }
}
