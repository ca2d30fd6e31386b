//! Facts about where feet are.

mod common;

use common::{alone, other_foot, rows};
use halfcount::body::Body;
use halfcount::motion::simulate;

#[test]
fn every_figure_is_danced_and_its_mirror_image_mirrors() {
    for row in rows() {
        let right = simulate(&alone(&row), &Body::default(), 1);
        let left = simulate(&other_foot(&row), &Body::default(), 1);
        for tick in 0..=right.counts * 24 + 24 {
            let (a, b) = (right.at(f64::from(tick)), left.at(f64::from(tick)));
            for (p, q) in [(a.left, b.right), (a.right, b.left)] {
                assert!(
                    p.ball.x + q.ball.x == 0.0 && p.ball.y - q.ball.y == 0.0,
                    "{} at {tick}: {p:?} {q:?}",
                    row.name
                );
                assert!(
                    p.toe + q.toe == 0.0 && p.share - q.share == 0.0,
                    "{} at {tick}: {p:?} {q:?}",
                    row.name
                );
                assert_eq!(p.sole, q.sole, "{} at {tick}", row.name);
            }
        }
    }
}
