//! The dancer: what is remembered from move to move, and how each move is put on record.

use crate::body::Body;
use crate::dance::{Action, Dance, Effect, Foot, Place, Weight, Who};
use crate::floor::{Heading, Point, Turn};
use crate::time::Ticks;

use super::contact::support;
use super::paces::{Paces, own_side};
use super::path::{Rest, Way};
use super::play::{Event, Playlist, Stretch};
use super::pose::{FootPose, Sole, Stance, direction};
use super::tape::Tape;
use super::{Moment, Motion};

/// What is remembered of a foot.
#[derive(Debug, Clone, Copy)]
pub(super) struct FootState {
    pub(super) ball: Point,
    /// In 1/48 of a turn, not brought back to one turn.
    pub(super) toe: i32,
    pub(super) sole: Sole,
    /// How far the body's spot is from where it would be over a foot on its own track, in the dancer's frame.
    pub(super) skew: Point,
    /// Where the foot last went.
    pub(super) last: Place,
    /// How far its cross led the body forward.
    pub(super) lead: f64,
    /// How it gets where the present move takes it; `None` while it rests.
    pub(super) way: Option<Way>,
    busy: i32,
}

/// The dancer between two moves.
#[derive(Debug, Clone)]
pub(super) struct Dancer<'a> {
    pub(super) body: &'a Body,
    pub(super) paces: Paces,
    feet: [FootState; 2],
    pub(super) facing: i32,
    pub(super) weight: Weight,
    /// The spot to which a foot goes home.
    pub(super) home: Point,
    /// Stretch and figure of the move before.
    pub(super) figure: Option<(usize, u16)>,
    /// The spot where that figure began.
    pub(super) figure_home: Point,
    /// How far the body has unwound since the legs were crossed.
    pub(super) unwound: i32,
    /// Whether it matters which way feet go round each other.
    pub(super) steered: bool,
}

impl Dancer<'_> {
    pub(super) fn foot(&self, foot: Foot) -> &FootState {
        &self.feet[usize::from(foot == Foot::Right)]
    }

    pub(super) fn foot_mut(&mut self, foot: Foot) -> &mut FootState {
        &mut self.feet[usize::from(foot == Foot::Right)]
    }

    /// A vector of the dancer's frame as seen in the room.
    pub(super) fn to_room(&self, v: Point) -> Point {
        v.turned(Turn(self.facing))
    }

    /// A vector of the room in the dancer's frame.
    pub(super) fn to_dancer(&self, v: Point) -> Point {
        v.turned(Turn(-self.facing))
    }

    /// The body's spot when it stands on this foot.
    pub(super) fn spot(&self, foot: Foot) -> Point {
        let f = self.foot(foot);
        let track = Point::new(-own_side(foot) * self.paces.together / 2.0, 0.0);
        f.ball + self.to_room(track + f.skew)
    }

    /// The body's spot as the weight is now.
    pub(super) fn present_spot(&self) -> Point {
        match self.weight {
            Weight::On(foot) => self.spot(foot),
            Weight::Both => self.foot(Foot::Left).ball.toward(self.foot(Foot::Right).ball, 0.5),
        }
    }

    pub(super) fn heel(&self, foot: Foot) -> Point {
        let f = self.foot(foot);
        f.ball - direction(f64::from(f.toe)) * self.body.ball_to_heel()
    }

    /// Turns a foot about its heel to a direction.
    pub(super) fn turn_on_heel(&mut self, foot: Foot, toe: i32) {
        let heel = self.heel(foot);
        let reach = self.body.ball_to_heel();
        let f = self.foot_mut(foot);
        f.toe = toe;
        f.ball = heel + direction(f64::from(toe)) * reach;
        f.way = Some(Way::OnHeel);
    }

    fn rest(&self, foot: Foot) -> Rest {
        let f = self.foot(foot);
        Rest { ball: f.ball, toe: f64::from(f.toe), sole: f.sole }
    }

    fn share(&self) -> f64 {
        match self.weight {
            Weight::On(Foot::Left) => 1.0,
            Weight::On(Foot::Right) => 0.0,
            Weight::Both => 0.5,
        }
    }

    fn stance(&self) -> Stance {
        let share = self.share();
        let (left, right) = (self.rest(Foot::Left).posed(share), self.rest(Foot::Right).posed(1.0 - share));
        Stance { left, right, facing: f64::from(self.facing), centre: centre(&left, &right, self.body) }
    }

    /// Keeps in mind where the figure began.
    pub(super) fn note_figure(&mut self, e: &Event<'_>) {
        let figure = e.what.figure.map(|f| (e.stretch, f));
        if figure != self.figure {
            self.figure = figure;
            self.figure_home = self.present_spot();
        }
        if e.what.place == Place::Home && figure.is_some() {
            self.home = self.figure_home;
        }
    }

    /// What a change of weight leaves behind: loaded feet are down, and the heel of a foot that is left behind
    /// comes up.
    pub(super) fn settle(&mut self, e: &Event<'_>) {
        let before = self.weight;
        self.weight = e.what.after;
        for foot in [Foot::Left, Foot::Right] {
            let loaded = self.weight == Weight::Both || self.weight == Weight::On(foot);
            let moved = matches!(e.what.who, Who::One(f) if f == foot);
            let was_loaded = before == Weight::Both || before == Weight::On(foot);
            let behind = self.to_dancer(self.foot(foot).ball - self.present_spot()).y;
            let far = -0.5 * self.body.foot_length;
            let f = self.foot_mut(foot);
            if loaded && matches!(f.sole, Sole::Air | Sole::Toe) {
                f.sole = Sole::Flat;
            } else if !loaded && was_loaded && !moved && f.sole == Sole::Flat && behind < far {
                f.sole = Sole::Ball;
            }
        }
        if let (Some(foot), place) = (e.what.takes(), e.what.place) {
            // A heel that comes down ends the step that its toe began.
            let excursion = e.what.action != Action::Drop
                && matches!(
                    place,
                    Place::DiagonalForward | Place::DiagonalBack | Place::Out | Place::InPlace
                );
            if !excursion {
                self.home = self.spot(foot);
            }
        }
    }
}

/// The centre of mass, over what carries it.
fn centre(left: &FootPose, right: &FootPose, body: &Body) -> Point {
    support(right, body).toward(support(left, body), left.share)
}

/// Whether a movement is drawn out over all the time that it has.
const fn is_drawn_out(action: Action) -> bool {
    matches!(
        action,
        Action::Drag
            | Action::Slide
            | Action::Sweep
            | Action::Unwind
            | Action::Spin
            | Action::Spiral
            | Action::Turn
            | Action::Roll
            | Action::Sway
    )
}

/// When a move sets out and arrives.
fn window(e: &Event<'_>, next: Option<i32>, busy: i32) -> (i32, i32) {
    if !is_drawn_out(e.what.action) {
        return ((e.tick - 12).max(busy), e.tick);
    }
    let mut to = e.tick + (e.what.lasts.0 - 24).clamp(0, 24 * 16);
    if let Some(next) = next {
        to = to.min(next.max(e.tick));
    }
    ((e.tick - 24).max(busy), to)
}

/// A dancer who has not begun.
pub(super) fn waiting<'b>(dance: &Dance, body: &'b Body, facing: Heading, steered: bool) -> Dancer<'b> {
    let paces = Paces::of(body);
    let facing = facing.units();
    let foot = |foot: Foot| FootState {
        ball: Point::new(own_side(foot) * paces.together / 2.0, 0.0).turned(Turn(facing)),
        toe: facing,
        sole: Sole::Flat,
        skew: Point::ORIGIN,
        last: Place::Close,
        lead: 0.0,
        way: None,
        busy: 0,
    };
    Dancer {
        body,
        paces,
        feet: [foot(Foot::Left), foot(Foot::Right)],
        facing,
        weight: dance.start,
        home: Point::ORIGIN,
        figure: None,
        figure_home: Point::ORIGIN,
        unwound: 0,
        steered,
    }
}

/// Dances a list; `taped` where somebody will ask for the body between two moves.
pub(super) fn play(dance: &Dance, body: &Body, list: Playlist<'_>, facing: Heading, taped: bool) -> Motion {
    let Playlist { mut stretches, events, counts, .. } = list;
    let mut dancer = waiting(dance, body, facing, taped);
    let start = dancer.stance();
    let (left, right) = (dancer.rest(Foot::Left), dancer.rest(Foot::Right));
    let mut tape = Tape::new(left, right, start.facing, start.left.share, start.centre);
    let mut moments = Vec::with_capacity(events.len());
    let mut begun = 0;
    for (i, e) in events.iter().enumerate() {
        dancer.begin(&mut stretches, &mut begun, e.stretch + 1);
        let rest = &events[i + 1..];
        let begins = if taped {
            let next = rest.iter().map(|n| n.tick).find(|t| *t > e.tick);
            dancer.record(e, rest, next, &mut tape)
        } else {
            dancer.pose(e, rest);
            e.tick
        };
        moments.push(Moment {
            tick: Ticks(e.tick),
            begins: Ticks(begins),
            stretch: e.stretch,
            index: e.index,
            turn: e.what.turn,
            stance: dancer.stance(),
        });
    }
    let all = stretches.len();
    dancer.begin(&mut stretches, &mut begun, all);
    let (spot, facing) = (dancer.present_spot(), dancer.facing);
    Motion { body: *body, start, moments, stretches, counts, spot, facing, tape }
}

impl Dancer<'_> {
    /// Notes where the stretches up to a number begin.
    pub(super) fn begin(&self, stretches: &mut [Stretch], begun: &mut usize, to: usize) {
        while let Some(stretch) = stretches.get_mut(*begun).filter(|_| *begun < to) {
            (stretch.spot, stretch.facing) = (self.present_spot(), self.facing);
            *begun += 1;
        }
    }

    /// Does one move.
    fn pose(&mut self, e: &Event<'_>, rest: &[Event<'_>]) {
        self.note_figure(e);
        self.act(e.what, rest);
        self.settle(e);
        if let Some((foot, toe)) = self.fanned(e) {
            self.turn_on_heel(foot, toe);
        }
    }

    /// Does one move and puts it on the tape; gives the tick at which it sets out.
    fn record(&mut self, e: &Event<'_>, rest: &[Event<'_>], next: Option<i32>, tape: &mut Tape) -> i32 {
        let m = e.what;
        self.note_figure(e);
        let before = (self.facing, self.weight, [self.rest(Foot::Left), self.rest(Foot::Right)]);
        for foot in [Foot::Left, Foot::Right] {
            self.foot_mut(foot).way = None;
        }
        self.act(m, rest);
        self.settle(e);
        let moved = |d: &Self, foot: Foot| {
            let was = before.2[usize::from(foot == Foot::Right)];
            d.foot(foot).way.is_some() || d.rest(foot) != was
        };
        let weighs = before.1 != self.weight;
        let busy = [Foot::Left, Foot::Right]
            .into_iter()
            .filter(|f| moved(self, *f) || weighs)
            .map(|f| self.foot(f).busy)
            .fold(e.tick - 48, i32::max);
        // What happens on the same tick as the move before it joins that move.
        let (from, to) = window(e, next, busy);
        for foot in [Foot::Left, Foot::Right] {
            if moved(self, foot) {
                let was = before.2[usize::from(foot == Foot::Right)];
                let way = self.foot(foot).way.unwrap_or(Way::OnBall(was.sole));
                tape.foot(foot, from, to, self.rest(foot), way);
                self.foot_mut(foot).busy = to;
            } else if weighs {
                self.foot_mut(foot).busy = self.foot(foot).busy.max(e.tick);
            }
        }
        if before.0 != self.facing {
            tape.turn(from, to, f64::from(self.facing));
        }
        let stance = self.stance();
        tape.weigh(from, to, stance.left.share, stance.centre);
        self.fan_out(e, next, tape);
        from
    }

    /// The foot whose heel grinds, and where its toe goes.
    fn fanned(&self, e: &Event<'_>) -> Option<(Foot, i32)> {
        let grinds = e.what.action == Action::Grind && e.what.effect == Effect::Takes;
        let foot = e.what.takes().filter(|_| grinds)?;
        let out = if own_side(foot) > 0.0 { super::acts::SWING } else { -super::acts::SWING };
        Some((foot, self.facing + out))
    }

    /// The toe of a grinding heel goes from inside to outside while the grind lasts.
    fn fan_out(&mut self, e: &Event<'_>, next: Option<i32>, tape: &mut Tape) {
        let Some((foot, toe)) = self.fanned(e) else { return };
        let to = next.unwrap_or(e.tick + 24).min(e.tick + e.what.lasts.0.clamp(1, 24));
        self.turn_on_heel(foot, toe);
        tape.foot(foot, e.tick, to, self.rest(foot), Way::OnHeel);
        self.foot_mut(foot).busy = to;
        let stance = self.stance();
        tape.weigh(e.tick, to, stance.left.share, stance.centre);
    }
}
