//! The whole way: text, findings, motion, score, calls, drawings.

use halfcount::body::Body;
use halfcount::call::{self, CallOptions, CaptionOptions, ClickOptions};
use halfcount::check::Finding;
use halfcount::dance::Dance;
use halfcount::difficulty::{ScoreOptions, score, unread};
use halfcount::draw::{self, DrawOptions, Paper};
use halfcount::motion::{Motion, simulate, simulate_song};
use halfcount::text::Span;
use halfcount::tidy::mirrored;
use halfcount::time::Ticks;
use halfcount::{Report, trace};

use super::{must, report};
use crate::markup;

pub(super) fn holds(text: &str) -> Result<(), String> {
    let report = report(text)?;
    found(&report, text)?;
    let traced = trace::trace(&report, text, "a.txt");
    serde_json::to_string(&traced).map_err(|error| format!("json: {error}"))?;
    let plain = |dance: &Dance| {
        let mut dance = dance.clone();
        // Headings say left for right as well, and lose odd capitals and odd clocks by it.
        dance.parts.iter_mut().flat_map(|p| &mut p.sections).for_each(|s| s.name.clear());
        dance.restarts.iter_mut().filter_map(|r| r.changed.as_mut()).for_each(|s| s.name.clear());
        dance
    };
    let twice = mirrored(&mirrored(&report.dance));
    must(plain(&twice) == plain(&report.dance), || "mirror: twice is another dance".to_owned())?;
    let body = Body::default();
    let motion = simulate(&report.dance, &body, 1);
    moved("motion", &motion)?;
    moved("song", &simulate_song(&report.dance, &body))?;
    scored(&report, &motion)?;
    called(&report)?;
    drawn(&report, text)
}

fn found(report: &Report, text: &str) -> Result<(), String> {
    let inside = |span: Span, what: &str| {
        must(span.start <= span.end && text.get(span.range()).is_some(), || {
            format!("span of {what}: {span:?} is no place in the text")
        })
    };
    for f in &report.findings {
        inside(f.span, f.rule)?;
        must(!f.message.is_empty() && !f.message.contains(['\n', '\r', '\0']), || {
            format!("message of {}: {:?}", f.rule, f.message)
        })?;
        for related in &f.related {
            inside(related.span, f.rule)?;
        }
        for edit in f.fixes.iter().flat_map(|x| &x.edits) {
            inside(edit.span, "edit")?;
        }
        for fix in &f.fixes {
            let apart = fix.edits.windows(2).all(|w| w[0].span.end <= w[1].span.start);
            must(apart, || format!("edits of {}: they meet", f.rule))?;
        }
    }
    must(report.findings.is_sorted_by_key(|f: &Finding| (f.span, f.rule)), || {
        "order: findings do not stand in the order of the text".to_owned()
    })?;
    report.unread.iter().try_for_each(|u| inside(u.span, "unread"))
}

fn moved(what: &str, motion: &Motion) -> Result<(), String> {
    for row in motion.frames(2) {
        let numbers = [
            row.tick,
            row.facing,
            row.left_x,
            row.left_y,
            row.left_toe,
            row.right_x,
            row.right_y,
            row.right_toe,
        ];
        must(numbers.iter().all(|n| n.is_finite() && n.abs() < 1e6), || {
            format!("number in {what}: {numbers:?} at {}", row.count)
        })?;
        let (l, r) = (row.left_weight, row.right_weight);
        must((l + r - 1.0).abs() < 1e-6 && l >= 0.0 && r >= 0.0, || {
            format!("weight in {what}: {l} and {r} at {}", row.count)
        })?;
    }
    Ok(())
}

fn scored(report: &Report, motion: &Motion) -> Result<(), String> {
    let mut options = ScoreOptions::default();
    options.unread = unread(&report.findings, &report.unread);
    let score = score(&report.dance, motion, &options);
    let ends = [score.low, score.high, score.total.unwrap_or(score.low)];
    must(ends.iter().all(|n| (0.0..=100.0).contains(n)), || format!("score: {ends:?}"))?;
    must(ends[0] <= ends[2] && ends[2] <= ends[1], || format!("range of the score: {ends:?}"))?;
    must(score.profile.iter().all(|n| n.is_finite() && *n >= 0.0), || format!("profile: {:?}", score.profile))
}

fn called(report: &Report) -> Result<(), String> {
    let options = CallOptions::default();
    let dance = &report.dance;
    let song = call::song(dance, &options);
    let calls = call::calls(dance, &song);
    must(calls.windows(2).all(|w| w[0].start <= w[1].start), || "calls: they do not rise".to_owned())?;
    let page = call::page(dance, &song, &calls, &options);
    must(!page.is_empty(), || "calls: the page is empty".to_owned())?;
    markup::captions(&call::captions(dance, &song, &calls, &CaptionOptions::default()))?;
    let clicks = call::click(dance, &song, &calls, &ClickOptions::default());
    must(clicks.starts_with(b"MThd"), || "clicks: no header".to_owned())?;
    must(!call::lesson(dance).is_empty(), || "lesson: it is empty".to_owned())
}

fn drawn(report: &Report, text: &str) -> Result<(), String> {
    let options = DrawOptions::default();
    let dance = &report.dance;
    // Drawings take longest, so each text gets one kind of them.
    match text.len() % 4 {
        0 => markup::svg(&draw::sheet(dance, text, &options)),
        1 => markup::svg(&draw::strip_sheet(dance, text, &options)),
        2 => draw::panels(dance, text, &options)
            .iter()
            .chain(&draw::moment(dance, text, Ticks(36), &options))
            .try_for_each(|picture| markup::svg(&picture.svg)),
        _ => markup::page(&draw::page(dance, text, Paper::A4, &options)),
    }
}
