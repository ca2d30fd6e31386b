//! A page to call from: the song as it goes, then the words, section by section.

use std::fmt::Write as _;

use super::calls::{Call, CallKind};
use super::fit::{Change, Fit, Refusal, Refused, fit, starts};
use super::timeline::{Song, Source, Stretch, What};
use super::walk::eights;
use super::words::{mirrored, wall};
use super::{CallOptions, View};
use crate::dance::{Dance, Foot, Weight};
use crate::figures::lexicon;
use crate::floor::Heading;

/// The page. Each number is the count by which the words beside it must be over.
#[must_use]
pub fn page(dance: &Dance, song: &Song, calls: &[Call], options: &CallOptions) -> String {
    let mut out = head(dance, song);
    if !options.phrases.is_empty() {
        out.push_str(&music(dance, song, &options.phrases));
    }
    let facing = options.view == View::Facing;
    out.push_str("\nTHE SONG\n");
    for stretch in &song.stretches {
        out.push_str(&line(dance, song, stretch));
    }
    out.push_str(&finish(dance, song));
    out.push_str("\nTHE CALLS\nA number is the count of the step; say the words just before it. In brackets: a warning to all.\n");
    if facing {
        out.push_str(
            "You face the class as its mirror image: say the words as they stand and dance what “you” says. Where\n\
             the class has its back to you, go round to the other end or let the words do it.\n",
        );
    }
    let first: Vec<&str> = calls.iter().filter(|c| c.stretch.is_none()).map(|c| c.words.as_str()).collect();
    if !first.is_empty() {
        let _ = write!(out, "\ncount in   {}\n", first.join(" "));
    }
    for (index, stretch) in song.stretches.iter().enumerate() {
        out.push_str(&stretch_calls(dance, song, index, stretch, calls, facing));
    }
    out
}

fn plural(n: u32, word: &str) -> String {
    if n == 1 { format!("1 {word}") } else { format!("{n} {word}s") }
}

fn head(dance: &Dance, song: &Song) -> String {
    let title = if dance.head.title.is_empty() { "A dance without a title" } else { &dance.head.title };
    let mut out = format!("{title}\n");
    let _ =
        write!(out, "{}, {}", plural(dance.head.counts, "count"), plural(dance.head.walls.max(1), "wall"));
    let whose = |source: Source| match source {
        Source::Usual => " (the sheet does not say; a usual value)",
        Source::Caller | Source::Sheet => "",
    };
    let beats = song.tempo.to_string();
    let several = if beats.contains('@') { "; a change as tempo@count of the music" } else { "" };
    let _ = write!(out, "\n{beats} beats a minute{several}{}", whose(song.tempo_from));
    let _ = writeln!(
        out,
        "\n{} of intro{}, first step at {}",
        plural(song.intro, "count"),
        whose(song.intro_from),
        song.moment_of(song.intro)
    );
    let foot = match dance.start {
        Weight::On(foot) => format!("weight on the {} foot", foot.word()),
        Weight::Both => "weight on both feet".to_owned(),
    };
    let _ = writeln!(out, "begin facing the front, {foot}");
    out
}

/// What a stretch is called on the page.
fn name(dance: &Dance, stretch: &Stretch) -> String {
    let several = dance.parts.iter().filter(|p| p.kind == crate::dance::PartKind::Main).count() > 1;
    match stretch.what {
        What::Tag => "tag".to_owned(),
        What::Ending => "ending".to_owned(),
        What::Dance if several => {
            let part = dance.parts.get(stretch.part).map_or("", |p| p.name.as_str());
            format!("{} part {part}", stretch.wall)
        }
        What::Dance => format!("wall {}", stretch.wall),
    }
}

fn line(dance: &Dance, song: &Song, stretch: &Stretch) -> String {
    let mut said = Vec::new();
    let whole = dance.parts.get(stretch.part).map_or(0, crate::dance::Part::counts);
    if stretch.from > 0 {
        said.push(format!("from count {}", stretch.from + 1));
    }
    if stretch.restart.is_some() {
        said.push("then RESTART".to_owned());
    }
    if stretch.cut {
        said.push(format!("the music ends here, after {} of {}", stretch.counts(), plural(whole, "count")));
    }
    let said = if said.is_empty() { String::new() } else { format!("   {}", said.join(", ")) };
    format!(
        "{:>7}  {:<10} faces {:<6} {}{said}\n",
        song.moment_of(stretch.start).to_string(),
        name(dance, stretch),
        stretch.facing.to_string(),
        plural(stretch.counts(), "count")
    )
}

/// Where the song ends, and facing where.
fn finish(dance: &Dance, song: &Song) -> String {
    let mut out = String::new();
    let Some(last) = song.stretches.last() else { return "         nothing is danced\n".to_owned() };
    let end = song.moment_of(song.end());
    let at = format!("{:>7}  ", end.to_string());
    let known = song.counts.is_some();
    let place = match last.what {
        What::Ending => "the ending is over".to_owned(),
        _ => format!("after count {} of {}", last.to, name(dance, last)),
    };
    let how = if known { "the last step" } else { "so far" };
    let _ = write!(out, "{at}{how}: {place}, facing {}", last.facing_end);
    if known || last.what == What::Ending {
        if song.ends_in_front() {
            out.push_str(", the front");
        } else {
            let left = last.facing_end.turn_to(Heading::FRONT);
            let way = super::words::turn(left);
            let said = match (left.0.abs(), way.split_once(' ')) {
                (24, _) => "half a turn away".to_owned(),
                (_, Some((size, side))) => format!("{} turn to the {side}", article(size)),
                _ => way,
            };
            let _ = write!(out, "; the front is {said}");
        }
    } else {
        out.push_str("; give the length of the music (--length 3:30) to see its end");
    }
    out.push('\n');
    if song.danced_out {
        let over = song.counts.map_or(0, |counts| counts.saturating_sub(song.end()));
        let what = if last.what == What::Ending { "ending" } else { "order of parts" };
        let _ = writeln!(
            out,
            "         the sheet's {what} is over {} before the music is",
            plural(over, "count")
        );
    }
    out.push_str(&elsewhere(dance, song));
    out
}

/// `a quarter`, `an eighth`; sizes that are fractions stand alone.
fn article(size: &str) -> String {
    match size {
        "eighth" => "an eighth".to_owned(),
        "quarter" | "third" | "three-quarter" => format!("a {size}"),
        other => other.to_owned(),
    }
}

/// A line for an ending that this music puts on another wall than the sheet says.
fn elsewhere(dance: &Dance, song: &Song) -> String {
    let Some(said) = dance.ending.as_ref().and_then(|e| e.stated) else { return String::new() };
    let Some(last) = song.stretches.iter().rfind(|s| s.what == What::Dance && s.from == 0) else {
        return String::new();
    };
    if said == last.facing || said == last.facing_end {
        return String::new();
    }
    format!(
        "         the sheet has its ending on a wall that faces {said}; with this music {} faces {}\n",
        name(dance, last),
        last.facing
    )
}

/// The calls of one stretch, a line for each section.
fn stretch_calls(
    dance: &Dance,
    song: &Song,
    index: usize,
    stretch: &Stretch,
    calls: &[Call],
    facing: bool,
) -> String {
    let mut out = String::new();
    let _ = write!(out, "\n{}, {}", name(dance, stretch), song.moment_of(stretch.start));
    let _ = write!(out, ", facing {} ({})", stretch.facing, wall(stretch.facing));
    if facing {
        let yours = Heading::new(24 - stretch.facing.units());
        let _ = write!(out, "; you face {yours}");
        if stretch.facing.units() > 12 && stretch.facing.units() < 36 {
            out.push_str(
                ", and they have their backs to you: go round to the other end, or let the words do it",
            );
        }
    }
    out.push('\n');
    for eight in eights(dance, stretch.part, stretch.to, stretch.restart) {
        if eight.before + eight.section.counts <= stretch.from {
            continue;
        }
        let here = |c: &&Call| c.stretch == Some(index) && c.section == eight.number;
        let mut said = Vec::new();
        for call in calls.iter().filter(here) {
            if call.kind == CallKind::Warning {
                said.insert(0, format!("({})", call.words));
                continue;
            }
            let begins = i64::from(stretch.start) - i64::from(stretch.from) + i64::from(eight.before);
            let count = i64::from(call.lands.count()) - begins + 1;
            said.push(format!("{count}{} {}", call.lands.sign(), call.words));
        }
        let words = if said.is_empty() { "let them dance".to_owned() } else { said.join("  ") };
        let _ = writeln!(out, "  {:>2}  {words}", eight.number);
        if facing {
            let yours = mirrored(&words);
            if yours != words {
                let _ = writeln!(out, "  you {yours}");
            }
        }
    }
    out
}

/// Dance and phrases side by side, and what would bring them together.
fn music(dance: &Dance, song: &Song, phrases: &[u32]) -> String {
    let list: Vec<String> = phrases.iter().map(u32::to_string).collect();
    let mut out = format!("\nAGAINST THE MUSIC\nphrases of {} counts after the intro\n", list.join(" "));
    for start in starts(song, phrases) {
        let place = match (start.into, start.phrase) {
            (0, phrase) if phrase <= phrases.len() => format!("with phrase {phrase}"),
            (into, phrase) if phrase <= phrases.len() => {
                format!("{} into phrase {phrase}", plural(into, "count"))
            }
            _ => "after the last phrase".to_owned(),
        };
        let what = repetition(dance, start.wall).unwrap_or_else(|| format!("wall {:<3}", start.wall));
        let _ = writeln!(out, "  {what} starts {place}");
    }
    let Some(found) = fit(dance, phrases) else {
        out.push_str("There are no steps to fit to the music.\n");
        return out;
    };
    out.push_str(if dance.sequence.is_empty() {
        "The dance without its own tags and restarts, with the fewest changes first:\n"
    } else {
        "The parts in their order, without tags and restarts of their own, with the fewest changes first:\n"
    });
    for way in &found.fits {
        let _ = writeln!(out, "  {}", told(dance, way));
    }
    for Refusal { part, after, why } in &found.refused {
        let why = match why {
            Refused::Foot(foot) => {
                let what = if part.is_some() { "what follows" } else { "the dance" };
                format!("the {} foot begins {what} and has the weight there", foot.word())
            }
            Refused::Wall(facing) => format!("it faces {facing}, which is no wall of this dance"),
        };
        let of =
            part.and_then(|p| dance.parts.get(p)).map_or(String::new(), |p| format!(" of part {}", p.name));
        let _ = writeln!(out, "  no restart after {}{of}: {why}", plural(*after, "count"));
    }
    out
}

/// One way to fit, in a sentence.
fn told(dance: &Dance, way: &Fit) -> String {
    let mut pieces = Vec::new();
    for (i, change) in way.changes.iter().enumerate() {
        pieces.push(match change {
            Change::Restart { wall, after } => {
                let tagged = matches!(way.changes.get(i + 1), Some(Change::Tag { wall: w, .. }) if w == wall);
                match (repetition(dance, *wall), tagged) {
                    (Some(part), true) => format!("stop {part} after {after}"),
                    (Some(part), false) => format!("stop {part} after {after} and go on with the next"),
                    (None, true) => format!("stop on wall {wall} after {after}"),
                    (None, false) => format!("restart on wall {wall} after {after}"),
                }
            }
            Change::Tag { wall, counts } => {
                let steps =
                    tag_figure(dance, *counts).map_or(String::new(), |n| format!(" (for example: {n})"));
                match repetition(dance, *wall) {
                    Some(part) => format!("tag of {counts} at the end of {part}{steps}"),
                    None => format!("tag of {counts} in wall {wall}, at its end{steps}"),
                }
            }
        });
    }
    let what = if pieces.is_empty() { "no change".to_owned() } else { pieces.join("; ") };
    let missed = match way.missed {
        0 => "every phrase starts with the dance".to_owned(),
        1 => "1 phrase starts in mid-dance".to_owned(),
        n => format!("{n} phrases start in mid-dance"),
    };
    let mut cost = Vec::new();
    if way.counts > 0 {
        cost.push(format!("{} cut or added", plural(way.counts, "count")));
    }
    if way.rough > 0 {
        cost.push("not at a section's end".to_owned());
    }
    let cost = if cost.is_empty() { String::new() } else { format!(" ({})", cost.join(", ")) };
    format!("{what}: {missed}{cost}")
}

/// A part of a phrased dance by its place in the song: `3 part B`, as the plan of the song writes it.
fn repetition(dance: &Dance, number: u32) -> Option<String> {
    let place = usize::try_from(number).ok()?.checked_sub(1)?.checked_rem(dance.sequence.len())?;
    let part = dance.parts.get(*dance.sequence.get(place)?)?;
    Some(format!("{number} part {}", part.name))
}

/// A figure for beginners that fills so many counts, turns nowhere and gives the weight back.
fn tag_figure(dance: &Dance, counts: u32) -> Option<&'static str> {
    let easy = |level: &str| level == "absolute beginner" || level == "beginner";
    let fits = lexicon().figures.iter().filter(|f| {
        let (after, allowed) = f.weigh();
        f.counts() == counts
            && f.turn().0 == 0
            && allowed
            && after == f.start
            && f.start == Weight::On(Foot::Left)
            && easy(f.level)
            && dance.start != Weight::Both
    });
    fits.max_by_key(|f| (f.level == "absolute beginner", f.name == "Rocking chair")).map(|f| f.name)
}
