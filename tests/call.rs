//! The dance to music: what must hold for the calls, the captions and the clicks of every sheet.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;
use std::sync::OnceLock;

use halfcount::call::{
    self, Call, CallKind, CallOptions, CaptionOptions, Change, ClickOptions, Length, Moment, Song, Tempo,
    View, What,
};
use halfcount::dance::Dance;
use halfcount::time::Ticks;
use midly::{MetaMessage, MidiMessage, Smf, Timing, TrackEventKind};

fn dance(text: &str) -> Dance {
    halfcount::report(text, &halfcount::Options::default()).expect("a sheet under 1 MiB").dance
}

fn demo(name: &str) -> Dance {
    let file = format!("{}/www/demo/{name}.txt", env!("CARGO_MANIFEST_DIR"));
    dance(&fs::read_to_string(file).expect("a demo sheet"))
}

/// Every sheet of the tests and the demo, read once.
fn all() -> &'static [(String, Dance)] {
    static SHEETS: OnceLock<Vec<(String, Dance)>> = OnceLock::new();
    SHEETS.get_or_init(|| {
        let mut files: Vec<PathBuf> = Vec::new();
        for folder in ["tests/sheets", "www/demo"] {
            let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(folder);
            let entries = fs::read_dir(folder).expect("a folder of sheets").flatten();
            files.extend(entries.map(|e| e.path()).filter(|p| p.extension().is_some_and(|e| e == "txt")));
        }
        files.sort();
        assert!(files.len() > 60, "the sheets were found");
        let read = |p: PathBuf| (p.display().to_string(), dance(&fs::read_to_string(&p).expect("UTF-8")));
        files.into_iter().map(read).collect()
    })
}

fn four_minutes(bpm: &str) -> CallOptions {
    let mut options = CallOptions::default();
    options.tempo = Some(bpm.parse().expect("a tempo"));
    options.length = Some(Length::Time(Moment::of_millis(240_000)));
    options
}

fn planned(dance: &Dance, options: &CallOptions) -> (Song, Vec<Call>) {
    let song = call::song(dance, options);
    let calls = call::calls(dance, &song);
    (song, calls)
}

#[test]
fn no_two_calls_are_said_at_once_and_each_is_over_before_its_step() {
    for (name, dance) in all() {
        for bpm in ["66", "112", "180"] {
            let (song, calls) = planned(dance, &four_minutes(bpm));
            assert!(!calls.is_empty(), "{name}");
            for call in &calls {
                assert!(call.start < call.end && !call.words.is_empty(), "{name} {call:?}");
                if call.kind != CallKind::Count {
                    assert!(call.end < call.lands, "{name} {call:?}");
                }
                assert!(call.stretch.is_none_or(|i| i < song.stretches.len()), "{name}");
            }
            for pair in calls.windows(2) {
                assert!(pair[0].end <= pair[1].start, "{name} {pair:?}");
            }
        }
    }
}

#[test]
fn words_grow_fewer_from_one_repetition_to_the_next() {
    for name in ["lantern-on-pier-five", "tidewatchers-waltz"] {
        let dance = demo(name);
        let (song, calls) = planned(&dance, &four_minutes("104"));
        let words = |wall: u32| -> usize {
            let here = |c: &&Call| c.stretch.is_some_and(|i| song.stretches[i].wall == wall);
            calls.iter().filter(here).map(|c| c.words.split(' ').count()).sum()
        };
        assert!(words(1) > words(2) && words(2) > words(3) && words(3) == words(5), "{name}");
        assert!(words(3) > 0, "{name}");
    }
}

#[test]
fn the_song_is_laid_without_gaps_and_facings_carry_on() {
    for (name, dance) in all() {
        let (song, _) = planned(dance, &four_minutes("120"));
        assert_eq!(song.counts, Some(480), "{name}");
        let mut at = song.intro;
        for (i, stretch) in song.stretches.iter().enumerate() {
            assert_eq!(stretch.start, at, "{name}");
            at = stretch.end();
            if let Some(next) = song.stretches.get(i + 1) {
                assert_eq!(stretch.facing_end, next.facing, "{name}");
            }
        }
        // A sheet that names the wall of its ending closes the song there, however long the music goes on.
        let last = song.stretches.last().expect("a song is danced");
        let closed = dance.ending.as_ref().is_some_and(|e| e.part == last.part && e.wall == Some(last.wall));
        assert!(song.danced_out || closed || at == 480, "{name}: {at}");
    }
}

#[test]
fn the_runs_of_the_reader_and_the_song_agree() {
    for (name, dance) in all() {
        let mut options = CallOptions::default();
        options.length = Some(Length::Counts(20_000));
        let (song, _) = planned(dance, &options);
        for (run, stretch) in dance.runs.iter().filter(|r| r.to > r.from).zip(&song.stretches) {
            // The music ends here, or the dance does, as the sheet's ending has it.
            let last = dance.ending.as_ref().is_some_and(|e| e.wall == Some(run.wall));
            if stretch.cut || last {
                break;
            }
            assert_eq!(
                (run.wall, run.part, run.from, run.to),
                (stretch.wall, stretch.part, stretch.from, stretch.to),
                "{name}"
            );
            assert_eq!(run.facing_end, stretch.facing_end, "{name} wall {}", run.wall);
            assert_eq!(run.weight_end, stretch.weight_end, "{name} wall {}", run.wall);
        }
    }
}

#[test]
fn restarts_are_warned_of_a_section_ahead() {
    let sheet = "Slipway Shuffle\nCount: 32 Wall: 4\nRestart on wall 2 after 16 counts\n\n\
        Section 1\n1-4 Vine right, touch\n5-8 Vine left, touch\n\
        Section 2\n1-4 Vine right, touch\n5-8 Vine left, touch\n\
        Section 3\n1-4 Rocking chair\n5-8 Rocking chair\n\
        Section 4\n1-4 Rocking chair\n5-8 Jazz box 1/4 turn right\n";
    let dance = dance(sheet);
    assert_eq!(dance.restarts.iter().map(|r| (r.wall, r.after_counts)).collect::<Vec<_>>(), [(2, 16)]);
    let (song, calls) = planned(&dance, &four_minutes("100"));
    let warning = calls.iter().find(|c| c.kind == CallKind::Warning).expect("a warning");
    assert_eq!(warning.words, "eight more, then restart");
    let second = &song.stretches[1];
    assert_eq!((second.wall, second.counts()), (2, 16));
    // It is over before the last eight counts of the repetition begin.
    assert!(warning.end <= Ticks::of_count(i32::try_from(second.start + 8).expect("small")));
    let next = calls.iter().find(|c| c.stretch == Some(2)).expect("a call");
    assert!(next.words.starts_with("restart"), "{}", next.words);
    // Sixteen counts less, so the third repetition starts at 16 + 32 + 16.
    assert_eq!(song.stretches[2].start - song.intro, 48);
}

#[test]
fn the_end_of_the_song_is_known() {
    let dance = demo("lantern-on-pier-five");
    let mut options = CallOptions::default();
    options.length = Some(Length::Counts(16 + 4 * 32 + 12));
    let (song, _) = planned(&dance, &options);
    let last = song.stretches.last().expect("a stretch");
    assert_eq!((last.wall, last.to, last.cut, song.ends_in_front()), (5, 12, true, true));
    let page = call::page(&dance, &song, &[], &options);
    assert!(page.contains("the last step: after count 12 of wall 5, facing 12:00, the front"), "{page}");
}

#[test]
fn phrases_ask_for_the_restart_that_a_choreographer_would_make() {
    let dance = demo("lantern-on-pier-five");
    let phrases = [32, 64, 32, 16, 64, 32];
    let mut options = CallOptions::default();
    options.phrases = phrases.to_vec();
    let song = call::song(&dance, &options);
    let starts: Vec<(u32, usize, u32)> =
        call::starts(&song, &phrases).iter().map(|s| (s.wall, s.phrase, s.into)).collect();
    let expected =
        [(1, 1, 0), (2, 2, 0), (3, 2, 32), (4, 3, 0), (5, 4, 0), (6, 5, 16), (7, 5, 48), (8, 6, 16)];
    assert_eq!(starts, expected);
    let fitting = call::fit(&dance, &phrases).expect("a dance of one part");
    // The weight is on the left after 16 counts, and all walls of the dance are quarters.
    assert_eq!(
        fitting.fits.last().map(|f| f.changes.clone()),
        Some(vec![Change::Restart { wall: 5, after: 16 }])
    );
    assert!(fitting.refused.is_empty());
}

#[test]
fn a_place_where_the_foot_is_not_free_is_refused() {
    // After eight counts of vine, touch; vine, step the right foot has the weight, and it begins the dance.
    let sheet = "Wrong Foot Wharf\nCount: 16 Wall: 1\n\nSection 1\n1-4 Vine right, touch\n5-7 Vine left\n8 Step R beside L\n\
        Section 2\n1-4 Step L forward, touch R, step R back, touch L\n5-8 Step L to side, touch R beside L, hold, hold\n";
    let dance = dance(sheet);
    let fitting = call::fit(&dance, &[16, 8, 16]).expect("a dance of one part");
    assert!(fitting.refused.iter().any(|r| r.after == 8 && matches!(r.why, call::Refused::Foot(_))));
    let cuts = fitting.fits.iter().flat_map(|f| &f.changes);
    assert!(cuts.clone().all(|c| !matches!(c, Change::Restart { after: 8, .. })));
}

#[test]
fn a_phrased_dance_keeps_its_order_and_is_broken_off_where_a_phrase_is_short() {
    let text = std::fs::read_to_string("tests/sheets/form-04.txt").expect("a phrased samba: A A B");
    let dance = dance(&text);
    let fitting = call::fit(&dance, &[32, 16, 16, 32, 32, 16]).expect("a dance with steps");
    let last = fitting.fits.last().expect("a way");
    // Part A has 32 counts, the second phrase 16; after 16 counts of A the right foot is free and faces 6:00 from
    // where it began, which is a wall of the dance.
    assert_eq!(last.changes, [Change::Restart { wall: 2, after: 16 }]);
    assert_eq!(last.missed, 0);
    let mut options = CallOptions::default();
    options.phrases = vec![32, 16, 16, 32, 32, 16];
    let (song, calls) = planned(&dance, &options);
    let page = call::page(&dance, &song, &calls, &options);
    assert!(page.contains("stop 2 part A after 16 and go on with the next"), "{page}");
}

// Endings: common practice, the walls worked out by hand.
const LAST_WALL: &str = "Gull on the Railing\nCount: 16 Wall: 4\n120 bpm, intro 16 counts\n\nS1\n1-2 Walk forward R, L\n\
    3&4 Shuffle forward R\n5-6 Rock L forward, recover R\n7&8 L coaster step\n\nS2\n1-4 Vine right, touch\n5-6 Step L to \
    left, touch R beside L\n7-8 Step R forward, pivot 1/4 left\n\n";

/// The stretches from the last repetition on: wall, counts, facing at the start and at the end.
fn close(sheet: &str, length: Option<u32>) -> Vec<(u32, u32, String, String)> {
    let dance = dance(sheet);
    let mut options = CallOptions::default();
    options.length = length.map(call::Length::Counts);
    let song = call::song(&dance, &options);
    let from = song.stretches.len().saturating_sub(2);
    song.stretches[from..]
        .iter()
        .map(|s| (s.wall, s.counts(), s.facing.to_string(), s.facing_end.to_string()))
        .collect()
}

#[test]
fn an_ending_breaks_off_the_wall_that_the_sheet_names() {
    // Walls turn a quarter left, so the fourth begins at 3:00, and a quarter left from there is the front.
    let sheet = format!(
        "{LAST_WALL}ENDING: on wall 4 (facing 3:00) dance to count 8 of section 1, then turn 1/4 left stepping R \
         to right side.\n"
    );
    let front = "12:00".to_owned();
    let three = "3:00".to_owned();
    let expected = [(4, 8, three.clone(), three.clone()), (4, 1, three, front)];
    assert_eq!(close(&sheet, None), expected);
    assert_eq!(close(&sheet, Some(16 + 48 + 9)), expected);
}

#[test]
fn an_ending_without_a_wall_closes_the_last_one_that_the_music_leaves_room_for() {
    let sheet = format!(
        "{LAST_WALL}Ending: dance the last wall up to count 4 of section 2, then\n1-2 Step L forward, pivot 1/2 right\n"
    );
    // 16 counts of intro, four walls of 16, 12 counts of the fifth, which begins at the front, and two of the ending.
    let expected =
        [(5, 12, "12:00".to_owned(), "12:00".to_owned()), (5, 2, "12:00".to_owned(), "6:00".to_owned())];
    for more in [0, 5, 15] {
        assert_eq!(close(&sheet, Some(16 + 64 + 14 + more)), expected, "{more} counts of music more");
    }
    let page_of = |length| {
        let dance = dance(&sheet);
        let mut options = CallOptions::default();
        options.length = Some(call::Length::Counts(length));
        let (song, calls) = planned(&dance, &options);
        call::page(&dance, &song, &calls, &options)
    };
    assert!(page_of(16 + 64 + 14 + 5).contains("the sheet's ending is over 5 counts before the music is"));
    assert!(page_of(16 + 64 + 14).contains("the ending is over, facing 6:00; the front is half a turn away"));
}

#[test]
fn an_ending_that_cannot_be_read_stays_a_remark() {
    let sheet = format!("{LAST_WALL}Ending: wave to the tea ladies and wiggle home.\n");
    let dance = dance(&sheet);
    assert!(dance.ending.is_none());
    assert!(dance.parts.iter().all(|p| p.kind == halfcount::dance::PartKind::Main));
}

#[test]
fn a_teacher_who_faces_the_class_mirrors_the_feet_and_not_the_words() {
    let dance = demo("lantern-on-pier-five");
    let mut options = CallOptions::default();
    let (song, calls) = planned(&dance, &options);
    let same = call::page(&dance, &song, &calls, &options);
    options.view = View::Facing;
    let facing = call::page(&dance, &song, &calls, &options);
    assert!(facing.contains("1 vine right") && facing.contains("you 1 vine left"), "{facing}");
    // The front is behind the teacher; the side walls are the same for all.
    assert!(facing.contains("facing 12:00 (front wall); you face 6:00"));
    assert!(facing.contains("facing 3:00 (three o'clock); you face 3:00"));
    // Whatever the pupils hear stands on both pages.
    for line in same.lines().filter(|l| l.starts_with("   ")) {
        assert!(facing.contains(line), "{line}");
    }
}

/// What a file says, read by `midly`: ticks of the clicks, markers, lyrics, and the last tick.
struct Read {
    clicks: Vec<u32>,
    accents: Vec<u32>,
    markers: Vec<(u32, String)>,
    lyrics: Vec<(u32, String)>,
    tempi: Vec<(u32, u32)>,
    metre: Option<(u8, u8)>,
    end: u32,
}

fn read(bytes: &[u8]) -> Read {
    let file = Smf::parse(bytes).expect("a MIDI file");
    assert_eq!(file.header.timing, Timing::Metrical(24.into()));
    assert_eq!(file.tracks.len(), 1);
    let mut out = Read {
        clicks: Vec::new(),
        accents: Vec::new(),
        markers: Vec::new(),
        lyrics: Vec::new(),
        tempi: Vec::new(),
        metre: None,
        end: 0,
    };
    let mut at = 0;
    let text = |b: &[u8]| String::from_utf8(b.to_vec()).expect("UTF-8");
    for event in &file.tracks[0] {
        at += event.delta.as_int();
        match event.kind {
            TrackEventKind::Midi { channel, message: MidiMessage::NoteOn { key, vel } } if vel > 0 => {
                assert_eq!(channel.as_int(), 9, "percussion");
                out.clicks.push(at);
                if key.as_int() != 0x25 {
                    out.accents.push(at);
                }
            }
            TrackEventKind::Meta(MetaMessage::Marker(b)) => out.markers.push((at, text(b))),
            TrackEventKind::Meta(MetaMessage::Lyric(b)) => out.lyrics.push((at, text(b))),
            TrackEventKind::Meta(MetaMessage::Tempo(t)) => out.tempi.push((at, t.as_int())),
            TrackEventKind::Meta(MetaMessage::TimeSignature(n, d, _, _)) => out.metre = Some((n, d)),
            TrackEventKind::Meta(MetaMessage::EndOfTrack) => out.end = at,
            _ => {}
        }
    }
    out
}

#[test]
fn another_reader_finds_clicks_markers_and_calls_where_they_belong() {
    for (name, dance) in all() {
        let (song, calls) = planned(dance, &four_minutes("110, 96@65"));
        let read = read(&call::click(dance, &song, &calls, &ClickOptions::default()));
        let counts = song.counts.expect("a length");
        assert_eq!(read.clicks, (0..counts).map(|c| c * 24).collect::<Vec<_>>(), "{name}");
        assert_eq!(read.end, counts * 24, "{name}");
        assert_eq!(read.tempi, [(0, 545_455), (64 * 24, 625_000)], "{name}");
        assert_eq!(read.metre.map(|m| u32::from(m.0)), Some(song.metre.beats()), "{name}");
        // Each section begins with a marker and an accent.
        for (at, marker) in read.markers.iter().skip(usize::from(song.intro > 0)) {
            assert!(read.accents.contains(at), "{name} {marker}");
        }
        let said = calls.iter().filter(|c| c.kind != CallKind::Count);
        let said: Vec<(u32, String)> = said
            .map(|c| (u32::try_from(c.start.0).expect("not before the music"), c.words.clone()))
            .collect();
        assert_eq!(read.lyrics, said, "{name}");
    }
}

#[test]
fn times_of_a_four_minute_song_are_within_a_millisecond() {
    // 440 counts at 110 are four minutes; the file's microseconds a count are rounded.
    let dance = demo("lantern-on-pier-five");
    let (song, calls) = planned(&dance, &four_minutes("110"));
    assert_eq!(song.counts, Some(440));
    let micros = u64::from(read(&call::click(&dance, &song, &calls, &ClickOptions::default())).tempi[0].1);
    for count in 0..=440_u32 {
        // Exact in picoseconds: 60e12 / 110 a count.
        let exact = u64::from(count) * 60_000_000_000_000 / 110;
        assert!(song.moment_of(count).0.abs_diff(exact) <= 1, "{count}");
        assert!((u64::from(count) * micros * 1_000_000).abs_diff(exact) < 1_000_000_000, "{count}");
        assert!((song.moment_of(count).millis() * 1_000_000_000).abs_diff(exact) <= 500_000_000, "{count}");
    }
}

#[test]
fn only_the_last_counts_of_the_intro_are_clicked_on_request() {
    let dance = demo("lantern-on-pier-five");
    let (song, calls) = planned(&dance, &CallOptions::default());
    let mut options = ClickOptions::default();
    options.count_in = Some(4);
    options.no_lyrics = true;
    let read = read(&call::click(&dance, &song, &calls, &options));
    assert_eq!(read.clicks[0], 12 * 24);
    assert!(read.lyrics.is_empty());
    assert_eq!(read.clicks.len(), 4 + 4 * 32);
}

/// The rules of the file form, V1 to V7 of the check values; gives the times of the cues in milliseconds.
fn cues(file: &str) -> Vec<(u64, u64, String)> {
    let millis = |t: &str| -> u64 {
        let (clock, rest) = t.rsplit_once('.').expect("a full stop");
        assert_eq!(rest.len(), 3, "{t}");
        let pieces: Vec<&str> = clock.split(':').collect();
        assert!(pieces.iter().all(|p| p.len() >= 2), "{t}");
        pieces.iter().fold(0, |sum, p| sum * 60 + p.parse::<u64>().expect("a number")) * 1000
            + rest.parse::<u64>().expect("a number")
    };
    let mut blocks = file.split("\n\n");
    assert_eq!(blocks.next(), Some("WEBVTT"));
    let mut out: Vec<(u64, u64, String)> = Vec::new();
    let mut ids = BTreeSet::new();
    for block in blocks.filter(|b| !b.is_empty()) {
        let lines: Vec<&str> = block.lines().collect();
        if block.starts_with("NOTE") {
            assert!(!block.contains("-->") && lines.len() == 1, "{block}");
            continue;
        }
        assert_eq!(lines.len(), 3, "{block}");
        assert!(ids.insert(lines[0].to_owned()) && !lines[0].contains("-->"), "{block}");
        let (start, end) = lines[1].split_once(" --> ").expect("an arrow");
        let (start, end) = (millis(start), millis(end));
        assert!(start < end, "{block}");
        assert!(out.last().is_none_or(|last| last.0 <= start), "{block}");
        assert!(!lines[2].contains("-->"), "{block}");
        for after in lines[2].split('&').skip(1) {
            assert!(["amp;", "lt;", "gt;"].iter().any(|r| after.starts_with(r)), "{block}");
        }
        let mut last = start;
        for after in lines[2].split('<').skip(1) {
            let inside = millis(after.split('>').next().expect("a moment"));
            assert!(inside > last && inside < end, "{block}");
            last = inside;
        }
        out.push((start, end, lines[2].to_owned()));
    }
    out
}

#[test]
fn captions_keep_the_rules_of_their_format() {
    for (name, dance) in all() {
        let (song, calls) = planned(dance, &four_minutes("128, 90@33"));
        let captions = call::captions(dance, &song, &calls, &CaptionOptions::default());
        assert!(cues(&captions).len() > 20, "{name}");
    }
}

#[test]
fn captions_move_with_the_video() {
    let dance = demo("lantern-on-pier-five");
    let (song, calls) = planned(&dance, &four_minutes("120"));
    let plain = cues(&call::captions(&dance, &song, &calls, &CaptionOptions::default()));
    // V10 and V11 in place: sixteen counts at 120 are eight seconds.
    assert!(plain.iter().any(|c| c.0 == 8000 && c.2.starts_with("wall 1: 1<00:08.500> 2")), "{plain:?}");
    let mut options = CaptionOptions::default();
    options.offset = 2500;
    let later = cues(&call::captions(&dance, &song, &calls, &options));
    let moved: Vec<(u64, u64)> = later.iter().map(|c| (c.0 - 2500, c.1 - 2500)).collect();
    assert_eq!(moved, plain.iter().map(|c| (c.0, c.1)).collect::<Vec<_>>());
    assert!(later.iter().any(|c| c.0 == 10_500 && c.2.starts_with("wall 1: 1<00:11.000> 2")));
    options.offset = -30_000;
    options.to = Some(Moment::of_millis(10_000));
    let some = cues(&call::captions(&dance, &song, &calls, &options));
    assert!(!some.is_empty() && some.iter().all(|c| c.1 <= 10_000));
}

#[test]
fn strange_titles_and_headings_stay_valid() {
    let sheet = "Q & A <b>--> \u{1F57A}\u{1F3FD} fin\nCount: 8 Wall: 1\n\nSection 1: <i> --> & \u{1F389}\n1-4 Vine right, touch\n5-8 Vine left, touch\n";
    let mut dance = dance(sheet);
    dance.head.title = "one -->\n\ntwo & <three>\r\n\u{1F57A}".into();
    dance.parts[0].sections[0].name = "a\n\nb --> <c> & d".into();
    let (song, calls) = planned(&dance, &four_minutes("120"));
    assert!(cues(&call::captions(&dance, &song, &calls, &CaptionOptions::default())).len() > 10);
    let read = read(&call::click(&dance, &song, &calls, &ClickOptions::default()));
    assert!(read.markers.iter().all(|(_, m)| !m.contains('\n')));
    let _ = call::page(&dance, &song, &calls, &CallOptions::default());
}

#[test]
fn nothing_written_makes_nothing_fall_over() {
    for text in ["", "x", "Count: 32", "1-8", "Tag: 4 counts\n1-4 hold", "Ending\n1 stomp"] {
        let dance = dance(text);
        for options in [CallOptions::default(), four_minutes("400"), four_minutes("20, 400@2")] {
            let (song, calls) = planned(&dance, &options);
            let _ = call::page(&dance, &song, &calls, &options);
            let _ = call::click(&dance, &song, &calls, &ClickOptions::default());
            cues(&call::captions(&dance, &song, &calls, &CaptionOptions::default()));
            let _ = call::fit(&dance, &[32, 0, 64, 7]);
            let _ = call::lesson(&dance);
        }
    }
}

#[test]
fn tags_stand_between_repetitions() {
    let dance = demo("ropewalk-reckoning");
    let (song, calls) = planned(&dance, &four_minutes("112"));
    let tag = song.stretches.iter().position(|s| s.what == What::Tag).expect("a tag");
    assert_eq!(song.stretches[tag].counts(), 4);
    let first = calls.iter().find(|c| c.stretch == Some(tag)).expect("a call");
    assert!(first.words.starts_with("tag"), "{}", first.words);
    assert_eq!(song.tempo, Tempo::steady(112));
}

#[test]
fn a_lesson_plan_names_figures_joins_and_traps() {
    let plan = call::lesson(&demo("lantern-on-pier-five"));
    for piece in [
        "Grapevine with touch",
        "1 side, 2 behind, 3 side, 4 touch",
        "to both sides",
        "mirror image of its first",
        "4 (left touch)",
    ] {
        assert!(plan.contains(piece), "{piece}\n{plan}");
    }
}
