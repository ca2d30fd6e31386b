use std::time::Instant;
fn main() {
    let mut texts = Vec::new();
    for e in std::fs::read_dir("tests/sheets").unwrap().flatten() {
        if e.path().extension().is_some_and(|x| x == "txt") {
            texts.push((e.path(), std::fs::read_to_string(e.path()).unwrap()));
        }
    }
    texts.sort();
    let l = &halfcount::figures::lexicon().vocabulary;
    let (mut a, mut b, mut c, mut work) = (0.0, 0.0, 0.0, 0);
    for _ in 0..3 {
        for (_, t) in &texts {
            let s0 = Instant::now();
            let sheet = halfcount::sheet::parse(t, l);
            a += s0.elapsed().as_secs_f64();
            let s1 = Instant::now();
            let r = halfcount::read::read(t, &sheet);
            b += s1.elapsed().as_secs_f64();
            work += r.work;
            let s2 = Instant::now();
            let _ = halfcount::report(t, &Default::default());
            c += s2.elapsed().as_secs_f64();
        }
    }
    let n = (texts.len() * 3) as f64;
    println!(
        "parse {:.1} us, read {:.1} us, report {:.1} us, work {}",
        a / n * 1e6,
        b / n * 1e6,
        c / n * 1e6,
        work as f64 / n
    );
}
