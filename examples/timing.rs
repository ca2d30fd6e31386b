use std::hint::black_box;
use std::time::Instant;
fn main() {
    let only = std::env::args().nth(1).unwrap_or_default();
    let rounds: usize = std::env::args().nth(2).and_then(|n| n.parse().ok()).unwrap_or(15);
    let mut texts = Vec::new();
    for e in std::fs::read_dir("tests/sheets").unwrap().flatten() {
        if e.path().extension().is_some_and(|x| x == "txt") {
            texts.push((e.path(), std::fs::read_to_string(e.path()).unwrap()));
        }
    }
    texts.sort();
    let s = Instant::now();
    let l = &halfcount::figures::lexicon().vocabulary;
    println!("lexicon {:.2} ms", s.elapsed().as_secs_f64() * 1e3);
    let body = halfcount::body::Body::default();
    let n = texts.len();
    let mut best = vec![[f64::MAX; 5]; n];
    let mut work = 0;
    let mut clean = vec![false; n];
    for round in 0..rounds {
        for (i, (_, t)) in texts.iter().enumerate() {
            let mut t0 = Instant::now();
            let mut lap = |k: usize| {
                let e = t0.elapsed().as_secs_f64();
                if e < best[i][k] {
                    best[i][k] = e;
                }
                t0 = Instant::now();
            };
            let sheet = halfcount::sheet::parse(t, l);
            lap(0);
            if only == "parse" {
                continue;
            }
            let r = halfcount::read::read(t, &sheet);
            lap(1);
            if round == 0 {
                work += r.work;
            }
            if only == "read" {
                continue;
            }
            let m = black_box(halfcount::motion::simulate(&r.dance, &body, 1));
            lap(2);
            let f = halfcount::check::check(t, &sheet, &r, &[]);
            clean[i] = f.is_empty();
            lap(3);
            let _ = black_box(m);
        }
    }
    for (what, keep) in [("all", None), ("clean", Some(true)), ("faulty", Some(false))] {
        let of: Vec<usize> = (0..n).filter(|i| keep.is_none_or(|k| k == clean[*i])).collect();
        let mean = |k: usize| of.iter().map(|i| best[*i][k]).sum::<f64>() / of.len() as f64 * 1e6;
        println!(
            "{what} {}: parse {:.1}, read {:.1}, simulate {:.1}, check {:.1}, sum {:.1} us",
            of.len(),
            mean(0),
            mean(1),
            mean(2),
            mean(3),
            mean(0) + mean(1) + mean(2) + mean(3)
        );
    }
    println!("work {}", work as f64 / n as f64);
}
