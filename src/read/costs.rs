//! What it costs to read words in a way. Only the order of these numbers matters: a rule of weight broken by
//! what a writer says outright costs more than anything that is merely left out, so that the reading never
//! bends plain words, but fills in what is missing in the cheapest way.

/// A foot steps or touches while it carries all the weight.
pub(super) const NOT_FREE: u32 = 58;
/// A foot that is named read as a direction, and the other foot goes: dearer than the two steps that a swapped foot
/// breaks, the one before it and the one after it.
pub(super) const FOOT_BENT: u32 = 200;
/// Two steps on one position.
pub(super) const TWO_ON_ONE: u32 = 120;
/// A gesture that shares the moment of a step, said as such.
pub(super) const JOINED: u32 = 1;
/// A gesture that shares the moment of the step before it: a sweep, a clap.
pub(super) const SHARED_GESTURE: u32 = 8;
/// A touch, point or kick that shares the moment of a step.
pub(super) const SHARED_TOUCH: u32 = 60;
/// A step on the moment of a gesture.
pub(super) const STEP_ON_GESTURE: u32 = 30;
/// A written half-count on which nothing happens.
pub(super) const EMPTY_HALF: u32 = 80;
/// A written count on which nothing happens.
pub(super) const EMPTY_COUNT: u32 = 26;
/// A step that lasts a count longer than written.
pub(super) const SLOW: u32 = 20;
/// A step made of the foot right before the name of a figure.
pub(super) const FOOT_OF_NAME: u32 = 48;
/// A ball step on a count of its own where no counts are given.
pub(super) const WHOLE_BALL: u32 = 4;
/// A drag, sweep, hold or roll that lasts a count longer.
pub(super) const SLOW_GESTURE: u32 = 3;
/// A clock mark that the turns do not reach.
pub(super) const CLOCK: u32 = 45;
/// Going on from the facing that a missed clock mark states.
pub(super) const CLOCK_KEPT: u32 = 14;
/// A number of counts that the steps do not fill, for each count.
pub(super) const TOTAL: u32 = 50;
/// A section without stated counts that is no usual length.
pub(super) const ODD_LENGTH: u32 = 18;
/// A section of another length than the counts of the head ask for, for each count.
pub(super) const UNEVEN: u32 = 20;
/// A figure danced one step a count although its rhythm is another.
pub(super) const OTHER_RHYTHM: u32 = 12;
/// A pivot of which only the turn is written: "step 1/2 L".
pub(super) const PIVOT_UNSAID: u32 = 8;
/// A figure danced in its own rhythm on counts that leave out its half-counts.
pub(super) const HALF_LOST: u32 = 48;
/// A turn against the usual direction of its figure.
pub(super) const OTHER_WAY: u32 = 6;
/// A pivot toward the foot that stepped.
pub(super) const AGAINST: u32 = 50;
/// Together, stomp or cross read without weight.
pub(super) const WITHOUT_WEIGHT: u32 = 30;
/// A figure's name that is only a label for the steps that follow it without a colon.
pub(super) const LABEL: u32 = 40;
/// A foot that is free either way and not the usual lead.
pub(super) const OTHER_LEAD: u32 = 4;
/// A recover after something that is no rock.
pub(super) const NO_ROCK: u32 = 10;
/// Steps passed over that only tell again what a name before them says.
pub(super) const TOLD_AGAIN: u32 = 12;
/// A figure danced in its own rhythm where its steps are told one by one behind its name.
pub(super) const SPELLED_OUT: u32 = 9;
/// A figure's name as a sentence of its own that is only a title for the steps behind it.
pub(super) const TITLE: u32 = 14;
/// A clause with a foot and a verb passed over.
pub(super) const SKIP_EXPLICIT: u32 = 220;
/// A clause with a verb but no foot passed over.
pub(super) const SKIP_VAGUE: u32 = 34;
/// A clause that is nothing but a gesture passed over: dearer than a foot that is not free.
pub(super) const SKIP_GESTURE: u32 = 64;
/// A clause without anything to do passed over.
pub(super) const SKIP_PLAIN: u32 = 4;
/// A clause of chat that names a foot passed over.
pub(super) const SKIP_CHAT: u32 = 70;
/// Words behind a figure that tell which of its feet crosses, rather than another step.
pub(super) const CROSSER: u32 = 6;
/// Walks of which only the counts say how many they are.
pub(super) const WALKS_ON: u32 = 14;
/// A foot alone that is a step by itself.
pub(super) const BARE_FEET: u32 = 16;
/// One foot of an order of feet passed over, or an order that no step is there for.
pub(super) const SKIP_FOOT: u32 = 20;
/// A word that nobody knows.
pub(super) const UNKNOWN: u32 = 8;
