//! Putting things in order with little code.
//!
//! The standard library's sorts are fast and large: each kind of thing that is sorted costs the module of the
//! package some two kilobytes. Lists here are short, so one sort of their numbers serves them all, and only the
//! last move is made for each kind, and a handful of things is put in order in place, without asking for memory.
//! Everything is stable: what is equal keeps its order.

use core::cmp::Ordering;

/// Up to so many things go one by one to where they belong.
const HANDFUL: usize = 12;

/// Slices that can be put in order.
pub trait Ordered<T> {
    /// The smallest first.
    fn in_order(&mut self)
    where
        T: Ord;

    /// In the order that a comparison gives.
    fn in_order_by(&mut self, compare: impl FnMut(&T, &T) -> Ordering);

    /// The smallest key first.
    fn in_order_by_key<K: Ord>(&mut self, key: impl FnMut(&T) -> K);
}

impl<T> Ordered<T> for [T] {
    fn in_order(&mut self)
    where
        T: Ord,
    {
        self.in_order_by(T::cmp);
    }

    fn in_order_by(&mut self, mut compare: impl FnMut(&T, &T) -> Ordering) {
        if self.len() <= HANDFUL {
            for next in 1..self.len() {
                let mut here = next;
                while here > 0 && compare(&self[here - 1], &self[here]).is_gt() {
                    self.swap(here - 1, here);
                    here -= 1;
                }
            }
            return;
        }
        let mut after = |a: usize, b: usize| match (self.get(a), self.get(b)) {
            (Some(a), Some(b)) => compare(a, b).is_gt(),
            _ => false,
        };
        let mut places = order(self.len(), &mut after);
        // Each place holds the number of what belongs there; swapping brings one thing home at a time.
        for here in 0..places.len() {
            let mut from = places[here];
            while from < here {
                from = places[from];
            }
            places[here] = from;
            self.swap(here, from);
        }
    }

    fn in_order_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        self.in_order_by(|a, b| key(a).cmp(&key(b)));
    }
}

/// The numbers below `len` in the order of what they stand for: runs are merged, twice as long each time.
fn order(len: usize, after: &mut dyn FnMut(usize, usize) -> bool) -> Vec<usize> {
    let mut from: Vec<usize> = (0..len).collect();
    // What is in order already, as most lists are, is left alone.
    if (1..len).all(|at| !after(at - 1, at)) {
        return from;
    }
    let mut to = from.clone();
    let mut run = 1;
    while run < len {
        let mut start = 0;
        while start < len {
            let (middle, end) = ((start + run).min(len), (start + 2 * run).min(len));
            let (mut a, mut b) = (start, middle);
            for place in &mut to[start..end] {
                let second = a == middle || (b < end && after(from[a], from[b]));
                let next = if second { &mut b } else { &mut a };
                *place = from[*next];
                *next += 1;
            }
            start = end;
        }
        core::mem::swap(&mut from, &mut to);
        run *= 2;
    }
    from
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_sorts_as_the_standard_library_does() {
        let mut seed = 7_u64;
        for len in 0..200 {
            let mut next = || {
                seed = seed * 48271 % 2_147_483_647;
                seed
            };
            let things: Vec<(u64, usize)> = (0..len).map(|at| (next() % 20, at)).collect();
            let (mut ours, mut theirs) = (things.clone(), things.clone());
            ours.in_order_by_key(|t| t.0);
            theirs.sort_by_key(|t| t.0);
            assert_eq!(ours, theirs);
            ours.in_order_by(|a, b| b.cmp(a));
            theirs.sort_by(|a, b| b.cmp(a));
            assert_eq!(ours, theirs);
            ours.in_order();
            theirs.sort_unstable();
            assert_eq!(ours, theirs);
        }
    }
}
