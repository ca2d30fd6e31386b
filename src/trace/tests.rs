use super::*;
use crate::body::Body;
use crate::check::{Finding, Severity, Sureness};
use crate::dance::{Action, Foot, Head, Place, Reach, Restart, Run, TurnWhen};
use crate::floor::{Heading, Turn};
use crate::text::{Edit, Span};
use crate::time::Metre;

const L: Foot = Foot::Left;
const R: Foot = Foot::Right;

fn act(at: i32, who: Who, action: Action, effect: Effect) -> Move {
    let after = match (effect, who) {
        (Effect::Takes, Who::One(foot)) => Weight::On(foot),
        _ => Weight::Both,
    };
    Move {
        at: Ticks(at),
        lasts: Ticks(1),
        who,
        action,
        place: Place::InPlace,
        reach: Reach::Usual,
        turn: Turn::NONE,
        turn_when: TurnWhen::Before,
        effect,
        before: Weight::Both,
        after,
        broken: None,
        span: Span::default(),
        figure: None,
    }
}

fn step(at: i32, foot: Foot) -> Move {
    act(at, Who::One(foot), Action::Step, Effect::Takes)
}

fn touch(at: i32, foot: Foot) -> Move {
    act(at, Who::One(foot), Action::Touch, Effect::Free)
}

fn some_section(counts: u32, moves: Vec<Move>) -> Section {
    Section {
        name: String::new(),
        counts,
        moves,
        figures: Vec::new(),
        span: Span::default(),
        facing_start: Heading::FRONT,
        facing_end: Heading::new(12),
        weight_start: Weight::On(L),
        weight_end: Weight::On(L),
    }
}

#[track_caller]
fn check(moves: &[Move], counts: u32, expected: &str) {
    assert_eq!(positions(moves, counts), expected);
}

#[test]
fn whole_counts_are_filled_up() {
    check(&[], 4, "1- 2- 3- 4-");
    check(&[step(24, R), step(48, L)], 4, "1R 2L 3- 4-");
    check(&[touch(24, R), step(36, R), step(48, L)], 2, "1- &R 2L");
}

#[test]
fn weight_wins_at_its_position() {
    check(&[touch(24, L), step(24, R)], 1, "1R");
    check(&[touch(24, L), touch(24, R)], 1, "1-");
    check(&[step(24, R), step(24, L)], 1, "1R 1L");
    check(&[step(24, R), step(36, R), step(36, L)], 1, "1R &R &L");
    check(&[act(24, Who::Both, Action::Jump, Effect::Shares)], 1, "1B");
    check(&[act(24, Who::One(R), Action::Hop, Effect::Keeps)], 1, "1-");
}

#[test]
fn quarters_and_thirds_have_their_signs() {
    check(&[step(24, R), step(30, L), step(36, R), step(42, L), step(48, R)], 2, "1R eL &R aL 2R");
    check(&[step(24, R), step(32, L), step(40, R), step(48, L)], 2, "1R &L aR 2L");
}

#[test]
fn a_leading_half_count_stands_first_and_counts_over_are_kept() {
    check(&[step(12, R), step(24, L), touch(72, R)], 2, "&R 1L 2- 3-");
}

fn run(wall: u32, facing: i32, facing_end: i32) -> Run {
    Run {
        wall,
        part: 0,
        from: 0,
        to: 4,
        restart: None,
        tag: None,
        facing: Heading::new(facing),
        weight: Weight::On(L),
        facing_end: Heading::new(facing_end),
        weight_end: Weight::On(L),
    }
}

/// Four counts and four walls, a restart in the second repetition with a tag before the new beginning.
fn some_report() -> Report {
    let mut main = some_section(4, vec![step(24, R), step(48, L)]);
    main.figures.push(FigureUse {
        name: "jazz box".into(),
        lead: Some(R),
        turn: Turn::QUARTER,
        span: Span::default(),
        named: true,
    });
    let tag = [some_section(2, vec![step(24, R), step(48, L)]), some_section(1, vec![touch(24, R)])];
    let part = |name: &str, kind, sections: &[Section]| Part {
        name: name.into(),
        kind,
        sections: sections.to_vec(),
    };
    let mut runs = vec![run(1, 0, 12), run(2, 12, 18), run(2, 18, 30), run(3, 30, 42)];
    runs[1].restart = Some(0);
    runs[2].tag = Some(0);
    Report {
        dance: Dance {
            head: Head {
                title: "Lamp at the Quay".into(),
                counts: 4,
                walls: 4,
                level: "beginner".into(),
                start_foot: Some(R),
                metre: Metre::Three,
                ..Head::default()
            },
            parts: vec![part("main", PartKind::Main, &[main]), part("tag 1", PartKind::Tag, &tag)],
            sequence: Vec::new(),
            tags: vec![TagUse {
                part: 1,
                wall: 2,
                after_counts: Some(2),
                then_restart: true,
                stated: None,
                span: Span::default(),
            }],
            restarts: vec![Restart {
                wall: 2,
                after_counts: 2,
                changed: Some(some_section(2, vec![step(24, R), touch(48, L)])),
                stated: None,
                span: Span::default(),
            }],
            ending: None,
            start: Weight::On(L),
            runs,
        },
        findings: vec![Finding {
            rule: "weight-not-free",
            severity: Severity::Error,
            span: Span::new(6, 8),
            part: "main".into(),
            section: Some(1),
            at: Some(Ticks(84)),
            message: "The right foot is to step and carries the weight.".into(),
            related: Vec::new(),
            fixes: vec![Fix {
                title: "step on the left foot".into(),
                sureness: Sureness::Choice,
                edits: vec![Edit { span: Span::new(6, 7), text: "L".into() }],
            }],
        }],
        unread: vec![Unread { span: Span::new(3, 5) }],
        body: Body::default(),
    }
}

#[test]
fn a_tag_and_a_restart_face_where_the_song_has_them() {
    let traced = trace(&some_report(), "½\nab R", "lamp.txt");
    let tag = &traced.tags[0];
    assert_eq!((tag.after_wall, tag.counts, tag.trace.as_str()), (2, 3, "1R 2L 3-"));
    assert_eq!((tag.facing.as_deref(), tag.facing_end.as_deref()), (Some("4:30"), Some("7:30")));
    let restart = &traced.restarts[0];
    assert_eq!((restart.wall, restart.after_counts), (2, 2));
    assert_eq!(restart.facing.as_deref(), Some("7:30"));
    assert_eq!(restart.changed_trace.as_deref(), Some("1R 2-"));
    assert_eq!(traced.figures, ["jazz box right 1/4 right"]);
}

#[test]
fn places_are_lines_and_columns_of_characters() {
    let traced = trace(&some_report(), "½\nab R", "lamp.txt");
    assert_eq!((traced.unread[0].line, traced.unread[0].column), (2, 1));
    assert_eq!(traced.unread[0].text, "ab");
    assert_eq!((traced.findings[0].line, traced.findings[0].column), (2, 4));
    assert_eq!(traced.findings[0].count.as_deref(), Some("3&"));
}

#[cfg(feature = "cli")]
#[test]
fn the_line_has_its_fields_in_the_published_order() {
    let line = serde_json::to_string(&trace(&some_report(), "½\nab R", "lamp.txt")).expect("a plain value");
    assert_eq!(
        line,
        concat!(
            r#"{"file":"lamp.txt","title":"Lamp at the Quay","counts":4,"walls":4,"level":"beginner","#,
            r#""start_foot":"R","beats_per_bar":3,"#,
            r#""sections":[{"counts":4,"trace":"1R 2L 3- 4-","facing_end":"3:00","weight_end":"L"}],"#,
            r#""tags":[{"after_wall":2,"counts":3,"trace":"1R 2L 3-","facing":"4:30","facing_end":"7:30","#,
            r#""weight_end":"L"}],"restarts":[{"wall":2,"after_counts":2,"facing":"7:30","#,
            r#""changed_trace":"1R 2-"}],"figures":["jazz box right 1/4 right"],"#,
            r#""findings":[{"rule":"weight-not-free","severity":"error","part":"main","section":1,"#,
            r#""count":"3&","line":2,"column":4,"start":6,"end":8,"#,
            r#""message":"The right foot is to step and carries the weight.","#,
            r#""fixes":[{"title":"step on the left foot","sureness":"choice","#,
            r#""edits":[{"start":6,"end":7,"text":"L"}]}]}],"#,
            r#""unread":[{"line":2,"column":1,"text":"ab"}],"#,
            r#""floor":{"width_cm":59,"depth_cm":35,"right_cm":0,"forward_cm":0,"song_right_cm":0,"#,
            r#""song_forward_cm":0,"farthest_cm":0,"song_walls":3,"beside_cm":44,"behind_cm":35}}"#
        )
    );
}
