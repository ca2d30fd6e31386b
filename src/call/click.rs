//! The click track: a standard MIDI file of one track, 24 ticks to the count.
//!
//! Written after Standard MIDI Files 1.0 (document revision 1.1, International MIDI Association).

use super::calls::{Call, CallKind};
use super::timeline::{Song, What};
use super::walk::eights;
use crate::dance::Dance;
use crate::order::Ordered as _;
use crate::time::Metre;

/// Side stick on the percussion channel (General MIDI percussion map): the plain click.
const CLICK: u8 = 0x25;
/// High wood block: the click on 1 of a section.
const ACCENT: u8 = 0x4C;
/// How hard a plain click is struck, of 127.
const PLAIN: u8 = 0x64;
/// How hard an accent is struck.
const HARD: u8 = 0x7F;
/// The sound of a click ends half a count after it began.
const SOUND: u32 = 12;
/// Ticks a count; whole, so nothing is rounded.
const DIVISION: u16 = 24;

/// What the click track holds.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
#[non_exhaustive]
pub struct ClickOptions {
    /// How many counts before the first step are clicked; `None` for the whole intro.
    pub count_in: Option<u32>,
    /// Leaves the calls out.
    pub no_lyrics: bool,
}

/// Something at a moment; the order is that in which things of one moment are written.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum Event {
    Off { note: u8 },
    Metre { beats: u8 },
    Tempo { micros: u32 },
    Marker(String),
    Lyric(String),
    On { note: u8, velocity: u8 },
}

/// The click track of a song with its calls.
#[must_use]
pub fn click(dance: &Dance, song: &Song, calls: &[Call], options: &ClickOptions) -> Vec<u8> {
    let mut events: Vec<(u32, Event)> = Vec::new();
    events.push((0, Event::Metre { beats: if song.metre == Metre::Three { 3 } else { 4 } }));
    events.extend(song.tempo.changes().map(|(from, micros)| (from * 24, Event::Tempo { micros })));
    let end = song.counts.unwrap_or(0).max(song.end());
    // Nothing changes after the end.
    events.retain(|(at, _)| *at == 0 || *at < end * 24);
    let mut accents = vec![0; usize::try_from(end).unwrap_or(0)];
    let mut accent = |count: u32| {
        if let Some(there) = usize::try_from(count).ok().and_then(|i| accents.get_mut(i)) {
            *there = 1;
        }
    };
    if song.intro > 0 {
        events.push((0, Event::Marker("intro".into())));
        // The counts before the first step are counted back from it.
        let section = song.metre.section();
        (0..song.intro).filter(|c| (song.intro - c).is_multiple_of(section)).for_each(&mut accent);
    }
    for stretch in &song.stretches {
        for eight in eights(dance, stretch.part, stretch.to, stretch.restart) {
            if eight.before + eight.section.counts <= stretch.from {
                continue;
            }
            let count = stretch.start + eight.before.max(stretch.from) - stretch.from;
            accent(count);
            let what = match stretch.what {
                What::Dance => format!("wall {}", stretch.wall),
                What::Tag => format!("tag after wall {}", stretch.wall),
                What::Ending => "ending".to_owned(),
            };
            let name = if eight.section.name.is_empty() {
                String::new()
            } else {
                format!(": {}", eight.section.name)
            };
            let first = eight.before <= stretch.from;
            let facing = if first { format!(", facing {}", stretch.facing) } else { String::new() };
            let marker = format!("{what}{facing}, section {}{name}", eight.number);
            events.push((count * 24, Event::Marker(marker)));
        }
    }
    if !options.no_lyrics {
        let said = calls.iter().filter(|c| c.kind != CallKind::Count);
        let at = |c: &Call| u32::try_from(c.start.0).unwrap_or(0);
        events.extend(said.map(|c| (at(c), Event::Lyric(c.words.clone()))));
    }
    let silent = options.count_in.map_or(0, |n| song.intro.saturating_sub(n));
    for count in silent..end {
        let hard = usize::try_from(count).ok().and_then(|i| accents.get(i)) == Some(&1);
        let (note, velocity) = if hard { (ACCENT, HARD) } else { (CLICK, PLAIN) };
        events.push((count * 24, Event::On { note, velocity }));
        events.push((count * 24 + SOUND, Event::Off { note }));
    }
    file(events, end * 24)
}

/// A file of one track.
fn file(mut events: Vec<(u32, Event)>, end: u32) -> Vec<u8> {
    events.in_order();
    let mut track = Vec::new();
    let mut now = 0;
    for (at, event) in &events {
        track.extend(variable_length(at - now));
        now = *at;
        match event {
            Event::Off { note } => track.extend([0x99, *note, 0]),
            Event::On { note, velocity } => track.extend([0x99, *note, *velocity]),
            // A quarter note is 24 MIDI clocks and eight thirty-seconds; the beat is a quarter (2 to the power 2).
            Event::Metre { beats } => track.extend([0xFF, 0x58, 4, *beats, 2, 24, 8]),
            Event::Tempo { micros } => {
                let [_, a, b, c] = micros.min(&0x00FF_FFFF).to_be_bytes();
                track.extend([0xFF, 0x51, 3, a, b, c]);
            }
            Event::Marker(text) => words(&mut track, 6, text),
            Event::Lyric(text) => words(&mut track, 5, text),
        }
    }
    track.extend(variable_length(end.max(now) - now));
    track.extend([0xFF, 0x2F, 0]);
    let mut out = b"MThd\0\0\0\x06\0\0\0\x01".to_vec();
    out.extend(DIVISION.to_be_bytes());
    out.extend(b"MTrk");
    out.extend(u32::try_from(track.len()).unwrap_or(u32::MAX).to_be_bytes());
    out.extend(track);
    out
}

/// A text event: one line in UTF-8.
fn words(track: &mut Vec<u8>, kind: u8, text: &str) {
    let text: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    track.extend([0xFF, kind]);
    track.extend(variable_length(u32::try_from(text.len()).unwrap_or(0)));
    track.extend(text.bytes());
}

/// A variable-length quantity: seven bits a byte, the highest first, the top bit set on all but the last.
/// Larger numbers than 28 bits are cut off, as the format has none.
#[must_use]
pub fn variable_length(number: u32) -> Vec<u8> {
    let number = number.min(0x0FFF_FFFF);
    let piece = |shift: u32| u8::try_from(number >> shift & 0x7F).unwrap_or(0);
    let mut out: Vec<u8> =
        [21, 14, 7].into_iter().filter(|s| number >> s > 0).map(|s| piece(s) | 0x80).collect();
    out.push(piece(0));
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hex_of(bytes: &[u8]) -> String {
        let digit = |n: u8| char::from(b"0123456789abcdef"[usize::from(n)]);
        bytes.iter().flat_map(|b| [digit(b >> 4), digit(b & 15)]).collect()
    }

    #[test]
    fn quantities_are_those_of_the_standard() {
        // M1 of the check values: the table of Standard MIDI Files 1.0.
        let table: [(u32, &[u8]); 12] = [
            (0, &[0]),
            (0x40, &[0x40]),
            (0x7F, &[0x7F]),
            (0x80, &[0x81, 0]),
            (0x2000, &[0xC0, 0]),
            (0x3FFF, &[0xFF, 0x7F]),
            (0x4000, &[0x81, 0x80, 0]),
            (0x10_0000, &[0xC0, 0x80, 0]),
            (0x1F_FFFF, &[0xFF, 0xFF, 0x7F]),
            (0x20_0000, &[0x81, 0x80, 0x80, 0]),
            (0x800_0000, &[0xC0, 0x80, 0x80, 0]),
            (0xFFF_FFFF, &[0xFF, 0xFF, 0xFF, 0x7F]),
        ];
        for (number, bytes) in table {
            assert_eq!(variable_length(number), bytes, "{number:x}");
        }
    }

    #[test]
    fn four_clicks_are_the_file_that_another_program_reads_as_two_seconds() {
        // M6 of the check values, read by an independent program as type 0, 24 ticks a beat, 2.0 s.
        let mut events = vec![
            (0, Event::Metre { beats: 4 }),
            (0, Event::Tempo { micros: 500_000 }),
            (0, Event::Marker("A".into())),
            (0, Event::Lyric("right".into())),
        ];
        for count in 0..4 {
            events.push((count * 24, Event::On { note: CLICK, velocity: PLAIN }));
            events.push((count * 24 + SOUND, Event::Off { note: CLICK }));
        }
        let hex = "4d546864000000060000000100184d54726b0000004100ff58040402180800ff510307a12000ff06014100ff0505\
                   726967687400992564 0c992500 0c992564 0c992500 0c992564 0c992500 0c992564 0c992500 0cff2f00";
        let bytes = file(events, 96);
        assert_eq!(hex_of(&bytes), hex.replace(' ', ""));
        assert_eq!(bytes.len(), 87);
    }

    #[test]
    fn metre_and_tempo_are_the_bytes_of_the_standard() {
        // M2 and M3.
        let bytes = file(vec![(0, Event::Metre { beats: 3 }), (0, Event::Tempo { micros: 545_455 })], 0);
        assert_eq!(hex_of(&bytes[22..]), "00ff5804030218080".to_owned() + "0ff51030852af" + "00ff2f00");
    }
}
