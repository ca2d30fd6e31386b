//! What each action does to the feet.

use crate::dance::{Action, Effect, Foot, Move, Place, TurnWhen, Weight, Who};
use crate::floor::{Point, Turn};

use super::contact::{sole_after, sole_in_passing};
use super::dancer::Dancer;
use super::paces::{Situation, landing, own_side, share_of_step};
use super::path::{Obstacle, Rest, Round, Way, bend_round};
use super::play::Event;
use super::pose::Sole;

/// How far heels and toes swing in fans, swivels, splits and applejacks, in 1/48 of a turn: 30 degrees, which
/// hips allow in both directions (Kouyoumdjian and others 2012: 41.8 outward, 35.2 inward on average).
pub(super) const SWING: i32 = 4;

/// The side of a foot as a whole number.
const fn side(foot: Foot) -> i32 {
    match foot {
        Foot::Left => -1,
        Foot::Right => 1,
    }
}

/// The foot that takes the weight next, and where it goes.
fn next_steps<'e>(rest: &'e [Event<'e>]) -> impl Iterator<Item = (Foot, Place)> + 'e {
    rest.iter().take(16).filter_map(|e| e.what.takes().map(|foot| (foot, e.what.place)))
}

impl Dancer<'_> {
    /// Does a move.
    pub(super) fn act(&mut self, m: &Move, rest: &[Event<'_>]) {
        let before = [Foot::Left, Foot::Right].map(|f| self.resting(f));
        if m.turn_when == TurnWhen::Before {
            self.turn(m);
        }
        match (m.action, m.who) {
            (Action::Hold | Action::Clap | Action::Body | Action::Hips, _) => {}
            (Action::Fan | Action::Swivel | Action::Split | Action::Applejack | Action::Swivet, who) => {
                self.swing(m, who);
            }
            (Action::Bounce | Action::KneePop, who) => self.lift_heels(m, who),
            (Action::Unwind, who) => self.unwind(m, who),
            (Action::Spin | Action::Spiral | Action::Turn, Who::One(foot)) => self.spin(m, foot),
            (Action::Hop | Action::Scoot, Who::One(foot)) => self.hop(m, foot),
            (Action::Bump | Action::Roll, _) => {}
            (Action::Pivot | Action::Drop | Action::Shift, Who::One(foot)) => self.load(m, foot),
            (Action::Paddle | Action::Recover | Action::Sway, Who::One(foot)) if stays(m) => {
                self.load(m, foot);
            }
            (Action::Jump | Action::Step | Action::Stomp | Action::Slide | Action::Hop, Who::Both) => {
                self.jump(m, rest);
            }
            (_, Who::One(foot)) => self.place(m, foot, rest, before),
            (_, Who::Both | Who::Nobody) => {}
        }
        if m.turn_when == TurnWhen::After {
            self.turn(m);
        }
    }

    fn resting(&self, foot: Foot) -> Rest {
        let f = self.foot(foot);
        Rest { ball: f.ball, toe: f64::from(f.toe), sole: f.sole }
    }

    /// Turns the body on the ball of what carries it. Feet on the floor keep their balls where they are; a
    /// foot in the air, or one that steps on its own place, is taken along.
    fn turn(&mut self, m: &Move) {
        let t = m.turn.0;
        if t == 0 {
            return;
        }
        let carries = match (m.turn_when, m.who) {
            (TurnWhen::After, _) if m.takes().is_some() => m.takes(),
            (_, Who::One(foot)) if m.effect == Effect::Keeps || stays(m) => Some(foot),
            (_, Who::One(foot)) => Some(foot.other()),
            (_, Who::Both | Who::Nobody) => match self.weight {
                Weight::On(foot) => Some(foot),
                Weight::Both => None,
            },
        };
        self.facing += t;
        for foot in [Foot::Left, Foot::Right] {
            let to = self.foot(foot).toe + t;
            let stands = carries.is_none_or(|c| c == foot);
            if stands && self.foot(foot).sole == Sole::Heel {
                self.turn_on_heel(foot, to);
            }
            let f = self.foot_mut(foot);
            f.toe = to;
            f.skew = Point::ORIGIN;
        }
        if let Some(carries) = carries {
            let pivot = self.foot(carries).ball;
            let other = carries.other();
            let steps_here =
                m.who == Who::One(other) && m.place == Place::InPlace && m.turn_when == TurnWhen::Before;
            let f = self.foot_mut(other);
            if f.sole == Sole::Air || steps_here {
                f.ball = f.ball.turned_about(pivot, Turn(t));
            }
        }
    }

    /// The weight comes onto a foot that stays where it is.
    fn load(&mut self, m: &Move, foot: Foot) {
        let was = self.foot(foot).sole;
        let sole = sole_after(m).unwrap_or(was);
        let f = self.foot_mut(foot);
        f.sole = sole;
        f.way = Some(Way::OnBall(was));
    }

    fn lift_heels(&mut self, m: &Move, who: Who) {
        for foot in [Foot::Left, Foot::Right] {
            if who == Who::Both || who == Who::One(foot) {
                let sole = sole_after(m).unwrap_or(Sole::Flat);
                let f = self.foot_mut(foot);
                f.sole = sole;
                f.way = Some(Way::OnBall(Sole::Ball));
            }
        }
    }

    /// Fans, swivels, splits, applejacks and swivets: one end of the foot stays, the other one swings.
    fn swing(&mut self, m: &Move, who: Who) {
        for foot in [Foot::Left, Foot::Right] {
            if who != Who::Both && who != Who::One(foot) {
                continue;
            }
            let s = side(foot);
            let (facing, toe, sole) = (self.facing, self.foot(foot).toe, self.foot(foot).sole);
            // How far the toe is turned outward.
            let out = s * (toe - facing);
            let inward = (out - SWING).max(-SWING);
            let outward = (out + SWING).min(SWING);
            let to_right = s * SWING;
            let apart = matches!(m.action, Action::Applejack | Action::Swivet);
            // On one heel and the other ball: the foot on whose side the toes go stands on its heel.
            let leads = match m.place {
                Place::ToesRight | Place::HeelsRight => foot == Foot::Right,
                Place::ToesLeft | Place::HeelsLeft => foot == Foot::Left,
                _ => sole == Sole::Heel,
            };
            let (out, on_heel) = match (m.action, m.place) {
                (Action::Applejack, Place::ToesRight | Place::ToesLeft) => (SWING, leads),
                (Action::Swivet, Place::ToesRight) => (to_right, leads),
                (Action::Swivet, Place::ToesLeft) => (-to_right, leads),
                (_, Place::ToesCentre | Place::HeelsCentre) if apart => (0, leads),
                (_, Place::ToesOut) => (outward, true),
                (_, Place::ToesIn) => (inward, true),
                (_, Place::HeelsOut) => (inward, false),
                (_, Place::HeelsIn) => (outward, false),
                // A swivel that turns the body brings the feet back under it.
                (_, Place::HeelsRight | Place::HeelsLeft) if m.turn.0 != 0 => (0, false),
                (_, Place::ToesRight | Place::ToesLeft) if m.turn.0 != 0 => (0, true),
                (_, Place::ToesRight) => (to_right, true),
                (_, Place::ToesLeft) => (-to_right, true),
                (_, Place::HeelsRight) => (-to_right, false),
                (_, Place::HeelsLeft) => (to_right, false),
                (_, Place::HeelsCentre) => (0, false),
                (_, Place::ToesCentre) => (0, true),
                _ => (out, false),
            };
            let to = facing + s * out;
            let aside = if on_heel { Sole::Heel } else { Sole::Ball };
            if on_heel {
                self.turn_on_heel(foot, to);
            } else {
                let f = self.foot_mut(foot);
                f.toe = to;
                f.way = Some(Way::OnBall(Sole::Ball));
            }
            self.foot_mut(foot).sole = if out == 0 { Sole::Flat } else { aside };
        }
    }

    /// The legs untwist: both balls stay for the first half turn; after more than that the other foot has been
    /// brought beside the one that carries.
    fn unwind(&mut self, m: &Move, who: Who) {
        self.unwound += m.turn.0;
        let crosses = |d: &Self, f: Foot| {
            matches!(d.foot(f).last, Place::Cross | Place::Behind | Place::LockFront | Place::LockBehind)
        };
        let carries = match who {
            Who::One(foot) => foot,
            _ if crosses(self, Foot::Left) => Foot::Right,
            _ => Foot::Left,
        };
        for foot in [Foot::Left, Foot::Right] {
            let f = self.foot_mut(foot);
            f.sole = Sole::Flat;
            f.way = Some(Way::OnBall(Sole::Ball));
        }
        if self.unwound.abs() > 30 {
            let other = carries.other();
            let beside = self.to_room(Point::new(own_side(other) * self.paces.together, 0.0));
            let at = self.foot(carries).ball + beside;
            let f = self.foot_mut(other);
            f.ball = at;
            f.way = Some(Way::Drawn { bend: Point::ORIGIN, sole: Sole::Ball });
        }
    }

    /// A turn on one foot: where the other one ends.
    fn spin(&mut self, m: &Move, foot: Foot) {
        let other = foot.other();
        let own = own_side(other);
        let (together, length) = (self.paces.together, self.body.foot_length);
        let target = match m.action {
            Action::Spin => Some((Point::new(own * together, 0.0), Sole::Air)),
            // The other leg has wound round and ends in front of the shin.
            Action::Spiral => Some((Point::new(-own * 0.35 * together, 0.5 * length), Sole::Toe)),
            // A foot can stay on its spot for half a turn, not for more.
            _ if m.turn.0.abs() > 24 => Some((Point::new(own * together, 0.0), Sole::Air)),
            _ => None,
        };
        let standing = self.foot(foot).sole;
        let stands_on = if standing.is_down() { standing } else { Sole::Flat };
        self.foot_mut(foot).way = Some(Way::OnBall(Sole::Ball));
        self.foot_mut(foot).sole = stands_on;
        if let Some((offset, sole)) = target {
            let at = self.foot(foot).ball + self.to_room(offset);
            let f = self.foot_mut(other);
            f.ball = at;
            f.sole = sole;
            f.way = Some(Way::Lifted { bend: Point::ORIGIN, passing: Sole::Air, landing: sole });
        } else if self.foot(other).sole == Sole::Flat {
            self.foot_mut(other).sole = Sole::Ball;
        }
    }

    /// The standing foot hops or slides, and a foot in the air goes with it.
    fn hop(&mut self, m: &Move, foot: Foot) {
        let share = share_of_step(m.action, m.reach);
        let shift = self.to_room(self.shift(m.place, share, Some(foot)));
        let hops = m.action == Action::Hop;
        let f = self.foot_mut(foot);
        f.ball = f.ball + shift;
        f.way = Some(if hops {
            Way::Lifted { bend: Point::ORIGIN, passing: Sole::Air, landing: Sole::Ball }
        } else {
            Way::Drawn { bend: Point::ORIGIN, sole: Sole::Flat }
        });
        f.sole = Sole::Flat;
        let o = self.foot_mut(foot.other());
        if o.sole == Sole::Air {
            o.ball = o.ball + shift;
            o.way = Some(Way::Lifted { bend: Point::ORIGIN, passing: Sole::Air, landing: Sole::Air });
        }
    }

    /// How far the whole body goes in a jump, hop or scoot, in the dancer's frame.
    fn shift(&self, place: Place, share: f64, foot: Option<Foot>) -> Point {
        let (ahead, side) = (self.paces.ahead * share, self.paces.side * share);
        let own = foot.map_or(0.0, own_side);
        match place {
            Place::Forward => Point::new(0.0, ahead),
            Place::Back => Point::new(0.0, -ahead),
            Place::Side => Point::new(own * side, 0.0),
            Place::Right => Point::new(side, 0.0),
            Place::Left => Point::new(-side, 0.0),
            Place::DiagonalForward => Point::new(own * side, ahead) * core::f64::consts::FRAC_1_SQRT_2,
            Place::DiagonalBack => Point::new(own * side, -ahead) * core::f64::consts::FRAC_1_SQRT_2,
            _ => Point::ORIGIN,
        }
    }

    /// Both feet leave the floor and land.
    fn jump(&mut self, m: &Move, rest: &[Event<'_>]) {
        let spot = self.present_spot();
        let shift = self.to_room(self.shift(m.place, share_of_step(Action::Jump, m.reach), None));
        let half = |width: f64| width / 2.0;
        let front = self.front_foot(rest);
        for foot in [Foot::Left, Foot::Right] {
            let own = own_side(foot);
            let offset = match m.place {
                Place::Out => Some(Point::new(own * half(self.paces.apart), 0.0)),
                Place::Close | Place::In | Place::Home => {
                    Some(Point::new(own * half(self.paces.together), 0.0))
                }
                Place::Cross | Place::Behind => {
                    let ahead = if foot == front { 1.0 } else { -1.0 };
                    let (x, y) = (0.9 * self.paces.together, self.paces.crossing);
                    Some(Point::new(-own * half(x), ahead * half(y)))
                }
                _ => None,
            };
            let at = offset.map_or(self.foot(foot).ball + shift, |o| spot + self.to_room(o));
            let track = Point::new(own * half(self.paces.together), 0.0);
            let skew = self.to_dancer(spot + shift - at) + track;
            let facing = self.facing;
            let f = self.foot_mut(foot);
            f.ball = at;
            f.toe = facing;
            f.sole = Sole::Flat;
            f.skew = skew;
            f.last = if m.place == Place::Cross && foot != front { Place::Close } else { m.place };
            f.lead = 0.0;
            f.way = Some(Way::Lifted { bend: Point::ORIGIN, passing: Sole::Air, landing: Sole::Ball });
        }
        self.unwound = 0;
    }

    /// Which foot lands in front in a crossing jump: the one that the next unwind needs there (right in front
    /// unwinds to the left), else the one that does not act next.
    fn front_foot(&self, rest: &[Event<'_>]) -> Foot {
        let unwinds = rest.iter().take(16).find(|e| e.what.action == Action::Unwind && e.what.turn.0 != 0);
        let acts = rest.iter().find_map(|e| match e.what.who {
            Who::One(foot) => Some(foot.other()),
            _ => None,
        });
        match (unwinds, acts, self.weight) {
            (Some(e), _, _) if e.what.turn.0 < 0 => Foot::Right,
            (Some(_), _, _) => Foot::Left,
            (None, Some(foot), _) => foot,
            (None, None, Weight::On(foot)) => foot.other(),
            (None, None, Weight::Both) => Foot::Right,
        }
    }

    /// A foot goes to a place.
    fn place(&mut self, m: &Move, foot: Foot, rest: &[Event<'_>], before: [Rest; 2]) {
        let other = foot.other();
        let spot = self.spot(other);
        let takes = m.takes().is_some();
        let share = share_of_step(m.action, m.reach);
        let track = Point::new(own_side(foot) * self.paces.together / 2.0, 0.0);
        let lifted = self.foot(foot).sole == Sole::Air;
        // A foot in the air has its place under the body.
        let from = if lifted { track } else { self.to_dancer(self.foot(foot).ball - spot) };
        let mut steps = next_steps(rest);
        let (next, after) = (steps.next(), steps.nth(1));
        let leads = takes
            && m.place == Place::Cross
            && next == Some((other, Place::Back))
            && !matches!(after, Some((_, Place::Forward | Place::DiagonalForward)));
        let lead = match m.place {
            // A cross that is stepped back from leads forward by as much, so that a jazz box stays on its
            // spot; one that is closed by a step forward makes its square without.
            Place::Cross if leads => self.paces.ahead / 2.0,
            Place::Back if takes => self.foot(other).lead,
            _ => 0.0,
        };
        let answers = self.foot(other).last == m.place && takes;
        let opens = answers && matches!(next, Some((f, Place::Home | Place::In)) if f == other);
        let situation = Situation {
            foot,
            from,
            other: self.to_dancer(self.foot(other).ball - spot),
            other_heel: self.to_dancer(self.heel(other) - spot),
            home: self.to_dancer(self.home - spot),
            share,
            lead,
            opens,
        };
        let (together, length) = (self.paces.together, self.body.foot_length);
        let own = own_side(foot);
        let place = if m.place == Place::Up && takes { Place::InPlace } else { m.place };
        let (at, spot_after, out) = match (m.action, place) {
            (Action::Hook, Place::Behind | Place::Back) => {
                (situation.other + Point::new(-own * 0.3 * together, -0.6 * length), None, 0)
            }
            (Action::Hook, _) => (situation.other + Point::new(-own * 0.3 * together, 0.5 * length), None, 0),
            (Action::Hitch, _) => (situation.other + Point::new(own * together, 0.2 * length), None, 0),
            _ => match landing(&self.paces, place, &situation) {
                Some(l) => (l.at, Some(l.spot), l.toe_out),
                None => (from, None, 0),
            },
        };
        let grinds = if m.action == Action::Grind { -SWING } else { 0 };
        let ball = spot + self.to_room(at);
        let skew = spot_after.map_or(Point::ORIGIN, |s| s - (at - track));
        let toe = self.facing + side(foot) * (out + grinds);
        let was = before[usize::from(foot == Foot::Right)];
        let sole = sole_after(m).unwrap_or(was.sole);
        let end = Rest { ball, toe: f64::from(toe), sole };
        let way = if self.steered {
            self.way(m, foot, was, end, before[usize::from(other == Foot::Right)])
        } else {
            Way::OnBall(sole)
        };
        let f = self.foot_mut(foot);
        f.ball = ball;
        f.toe = toe;
        f.sole = sole;
        f.skew = skew;
        f.way = Some(way);
        f.lead = if m.place == Place::Cross { lead } else { 0.0 };
        f.last = m.place;
        self.unwound = 0;
    }

    /// How a placed foot gets there.
    fn way(&self, m: &Move, foot: Foot, was: Rest, end: Rest, other_was: Rest) -> Way {
        let obstacle = Obstacle { start: other_was, end: self.resting(foot.other()) };
        let own = self.to_room(Point::new(own_side(foot), 0.0));
        let ahead = self.to_room(Point::new(0.0, 1.0));
        // Half-way through a turn, a foot that goes with the body would be here.
        let carried = (was.ball - other_was.ball).turned(Turn(m.turn.0 / 2));
        let first = match (m.action, m.place) {
            (Action::Sweep, _) => Some(own),
            (_, Place::Cross | Place::LockFront | Place::DiagonalAcross) => Some(ahead),
            (_, Place::Behind | Place::LockBehind | Place::Third) => Some(ahead * -1.0),
            _ if m.turn.0.abs() > 12 => Some(carried),
            _ => None,
        };
        let round = Round { first, else_toward: [own, ahead] };
        let bend = bend_round(was, end, &obstacle, round, self.body);
        let drawn = |sole: Sole| Way::Drawn { bend, sole };
        match m.action {
            Action::Sweep => {
                let arc = own * (0.6 * self.body.foot_length);
                Way::Drawn { bend: if bend.length() < arc.length() { arc } else { bend }, sole: Sole::Toe }
            }
            Action::Drag => drawn(Sole::Toe),
            Action::Slide | Action::Skate => drawn(Sole::Flat),
            _ => {
                let forward = self.to_dancer(end.ball - was.ball).y > 0.3 * self.body.foot_length;
                let landing = match end.sole {
                    Sole::Flat if forward => Sole::Heel,
                    Sole::Flat => Sole::Ball,
                    sole => sole,
                };
                Way::Lifted { bend, passing: sole_in_passing(m.action), landing }
            }
        }
    }
}

/// Whether a foot takes part where it stands, both balls keeping still while the body turns.
fn stays(m: &Move) -> bool {
    let here = m.place == Place::InPlace || landing_is_nowhere(m.place);
    match m.action {
        Action::Pivot
        | Action::Drop
        | Action::Shift
        | Action::Bounce
        | Action::Unwind
        | Action::Roll
        | Action::Bump
        | Action::KneePop
        | Action::Swivel => true,
        Action::Paddle => here && m.takes().is_some(),
        Action::Recover | Action::Sway => here,
        _ => false,
    }
}

/// Places of the hips, hands and ends of a foot, which no foot goes to.
const fn landing_is_nowhere(place: Place) -> bool {
    matches!(
        place,
        Place::Right | Place::Left | Place::Circle | Place::Up | Place::Down | Place::Still | Place::Hands
    )
}
