//! The readings between two words: for each token the cheapest ways to come there, at most one for each state.

use super::state::{Entry, Last, State};
use crate::dance::Weight;
use crate::floor::Heading;

/// How many readings are kept between two words.
pub(super) const BEAM: usize = 12;

/// A reading that costs so much more than the best one is given up.
pub(super) const MARGIN: u32 = 200;

const NOBODY: Entry = Entry {
    state: State {
        weight: Weight::Both,
        facing: Heading::FRONT,
        t: 0,
        k: 0,
        last: Last::Nothing,
        half: false,
        t0: 0,
    },
    cost: 0,
    node: 0,
};

/// The readings that lead to one token.
#[derive(Debug, Clone)]
struct Layer {
    n: usize,
    /// What a reading may cost at most to be kept.
    limit: u32,
    best: u32,
    /// Place of the reading that the next cheaper one takes the place of, once there are enough.
    worst: usize,
    came: u32,
    keys: [u64; BEAM],
    /// When each came: of equally cheap readings the first counts as the cheaper.
    order: [u32; BEAM],
    entries: [Entry; BEAM],
}

/// Where a reading has its place in a layer.
#[derive(Debug, Clone, Copy)]
pub(super) struct Place {
    key: u64,
    at: usize,
    new: bool,
}

impl Layer {
    const EMPTY: Self = Self {
        n: 0,
        limit: u32::MAX,
        best: u32::MAX,
        worst: 0,
        came: 0,
        keys: [0; BEAM],
        order: [0; BEAM],
        entries: [NOBODY; BEAM],
    };

    fn clear(&mut self) {
        (self.n, self.limit, self.best, self.came) = (0, u32::MAX, u32::MAX, 0);
    }

    #[inline]
    fn place(&self, state: &State, cost: u32) -> Option<Place> {
        let key = state.key();
        match self.keys[..self.n].iter().position(|k| *k == key) {
            Some(at) if self.entries[at].cost <= cost => None,
            Some(at) => Some(Place { key, at, new: false }),
            None if self.n < BEAM => Some(Place { key, at: self.n, new: true }),
            None => Some(Place { key, at: self.worst, new: true }),
        }
    }

    fn put(&mut self, place: Place, entry: Entry, margin: u32) {
        let Place { key, at, new } = place;
        self.keys[at] = key;
        self.entries[at] = entry;
        if new {
            self.order[at] = self.came;
            self.came += 1;
            self.n = self.n.max(at + 1);
        }
        self.best = self.best.min(entry.cost);
        self.limit = self.best.saturating_add(margin);
        // A reading that grew cheaper where it stands leaves another one the dearest.
        if self.n == BEAM && (new || at == self.worst) {
            self.worst = (1..BEAM).fold(0, |w, i| if self.rank(i) > self.rank(w) { i } else { w });
        }
        if self.n == BEAM {
            self.limit = self.limit.min(self.entries[self.worst].cost.saturating_sub(1));
        }
    }

    fn rank(&self, i: usize) -> u64 {
        u64::from(self.entries[i].cost) << 32 | u64::from(self.order[i])
    }

    /// The readings in order of their cost.
    fn take(&self, out: &mut Vec<Entry>, margin: u32) {
        out.clear();
        let most = self.best.saturating_add(margin);
        let mut ranks: [(u64, usize); BEAM] = [(0, 0); BEAM];
        for i in 0..self.n {
            let mut at = i;
            let rank = self.rank(i);
            while at > 0 && ranks[at - 1].0 > rank {
                ranks[at] = ranks[at - 1];
                at -= 1;
            }
            ranks[at] = (rank, i);
        }
        out.extend(ranks[..self.n].iter().map(|(_, i)| self.entries[*i]).take_while(|e| e.cost <= most));
    }
}

/// The layers of the chunk at hand, by token. Those in use stand in a few places that are used again and again.
#[derive(Debug, Default)]
pub(super) struct Layers {
    /// What any reading may cost at most.
    bound: u32,
    from: usize,
    /// One more than the place of a token's layer, or 0.
    at: Vec<u32>,
    /// What a reading that leads to a token may cost at most to be kept.
    limits: Vec<u32>,
    pool: Vec<Layer>,
    free: Vec<u32>,
    /// How much more than the best reading that leads to the same token one may cost to be kept.
    margin: u32,
    /// How much more than a reading that leads further one may cost to be kept.
    ahead: u32,
    /// Whether the layer at hand holds readings that are not read to their end.
    aside: bool,
}

/// A layer put aside.
#[derive(Debug, Clone, Copy)]
pub(super) struct Aside {
    at: u32,
    limit: u32,
}

impl Layers {
    /// Keeps no reading that costs more than `bound`, or `margin` more than the best at the same token.
    pub(super) fn within(bound: u32, margin: u32) -> Self {
        Self { bound, margin, ..Self::default() }
    }

    /// Makes empty layers for `n` tokens from `from` on, and for the end behind them; a reading may cost `ahead` more
    /// than one that leads further.
    pub(super) fn reset(&mut self, from: usize, n: usize, ahead: u32) {
        self.ahead = ahead;
        for at in &mut self.at {
            if *at > 0 {
                self.free.push(*at);
            }
        }
        self.from = from;
        self.at.clear();
        self.at.resize(n + 1, 0);
        self.limits.clear();
        self.limits.resize(n + 1, self.bound);
    }

    pub(super) fn is_empty(&self, token: usize) -> bool {
        self.layer(token).is_none()
    }

    #[inline]
    fn layer(&self, token: usize) -> Option<&Layer> {
        let at = *self.at.get(token.checked_sub(self.from)?)?;
        self.pool.get((at as usize).checked_sub(1)?)
    }

    /// Whether a reading that leads to a token behind this one costs no more than `most`.
    pub(super) fn goes_on(&self, token: usize, most: u32) -> bool {
        let behind = self.at.get(token + 1 - self.from..).unwrap_or(&[]);
        let layers = behind.iter().filter_map(|at| self.pool.get((*at as usize).checked_sub(1)?));
        layers.into_iter().any(|layer| layer.best <= most)
    }

    /// What a reading that leads to a token may cost at most to be kept.
    #[inline]
    pub(super) fn limit(&self, token: usize) -> u32 {
        self.limits.get(token.wrapping_sub(self.from)).copied().unwrap_or(self.bound)
    }

    /// The place of a reading with this state and cost, where it would be kept.
    #[inline]
    pub(super) fn place(&self, token: usize, state: &State, cost: u32) -> Option<Place> {
        if cost > self.limit(token) {
            return None;
        }
        match self.layer(token) {
            Some(layer) => layer.place(state, cost),
            None => Some(Place { key: state.key(), at: 0, new: true }),
        }
    }

    /// Puts a reading at its place.
    pub(super) fn put(&mut self, token: usize, place: Place, entry: Entry) {
        let Some(at) = self.at.get_mut(token - self.from) else { return };
        if *at == 0 {
            *at = self.free.pop().unwrap_or_else(|| {
                self.pool.push(Layer::EMPTY);
                u32::try_from(self.pool.len()).unwrap_or(0)
            });
            self.pool[*at as usize - 1].clear();
        }
        let layer = &mut self.pool[*at as usize - 1];
        layer.put(place, entry, self.margin);
        let n = token - self.from;
        self.limits[n] = self.limits[n].min(layer.limit);
        // A reading that is still on its way and already dearer by far than this one is given up.
        let most = entry.cost.saturating_add(self.ahead);
        let before = if self.aside { 0 } else { n };
        for limit in self.limits[..before].iter_mut().rev() {
            if *limit <= most {
                break;
            }
            *limit = most;
        }
    }

    /// Puts a reading in, unless a cheaper one stands in the same state.
    pub(super) fn offer(&mut self, token: usize, entry: Entry) {
        if let Some(place) = self.place(token, &entry.state, entry.cost) {
            self.put(token, place, entry);
        }
    }

    /// The cheapest readings in order of their cost, of equally cheap ones the first; none are left.
    pub(super) fn take(&mut self, token: usize, out: &mut Vec<Entry>) {
        out.clear();
        if let Some(layer) = self.layer(token) {
            layer.take(out, self.margin);
            let at = core::mem::take(&mut self.at[token - self.from]);
            self.free.push(at);
        }
    }

    /// Puts the layer of a token aside, so that an empty one takes its place.
    pub(super) fn put_aside(&mut self, token: usize) -> Aside {
        let limit = core::mem::replace(&mut self.limits[token - self.from], self.bound);
        self.aside = true;
        Aside { at: core::mem::take(&mut self.at[token - self.from]), limit }
    }

    /// Puts a layer back; that of the token must have been taken.
    pub(super) fn put_back(&mut self, token: usize, aside: Aside) {
        self.at[token - self.from] = aside.at;
        self.limits[token - self.from] = aside.limit;
        self.aside = false;
    }
}
