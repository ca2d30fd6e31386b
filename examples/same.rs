use std::hash::{Hash, Hasher};
fn hash(s: &str) -> u64 {
    let mut h = std::collections::hash_map::DefaultHasher::new();
    s.hash(&mut h);
    h.finish()
}
fn seen(t: &str, check: bool) -> String {
    let l = &halfcount::figures::lexicon().vocabulary;
    let sheet = halfcount::sheet::parse(t, l);
    let mut r = halfcount::read::read(t, &sheet);
    r.work = 0;
    let mut out = format!("{:x} {:x}", hash(&format!("{sheet:?}")), hash(&format!("{r:?}")));
    if check {
        let m = halfcount::motion::simulate(&r.dance, &halfcount::body::Body::default(), 1);
        let rep = halfcount::report(t, &Default::default()).unwrap();
        out += &format!(" {:x} {:x}", hash(&format!("{m:?}")), hash(&format!("{rep:?}")));
        if std::env::args().nth(1).is_some() {
            out += &format!("\n{sheet:#?}\n{r:#?}\n{rep:#?}");
        }
    }
    out
}
fn main() {
    let mut texts = Vec::new();
    for dir in ["tests/sheets", "/work/shared/sheets"] {
        for e in std::fs::read_dir(dir).unwrap().flatten() {
            if e.path().extension().is_some_and(|x| x == "txt") {
                texts.push((e.path(), std::fs::read_to_string(e.path()).unwrap()));
            }
        }
    }
    texts.sort();
    for (p, t) in &texts {
        println!("{} {}", p.display(), seen(t, true));
        if std::env::args().nth(1).is_some() {
            continue;
        }
        let lines: Vec<&str> = t.lines().collect();
        for i in 0..lines.len() {
            let mut l = lines.clone();
            l.remove(i);
            println!("{} -{i} {}", p.display(), seen(&l.join("\n"), false));
        }
    }
    let all: Vec<&str> = texts.iter().map(|(_, t)| t.as_str()).collect();
    println!("all {}", seen(&all[..40].join("\n\n"), false));
    for odd in [
        "",
        "\n",
        "&",
        "1-999999999 step",
        "R R R R",
        "½½½ 1 1/4 x2 3&4 RLR",
        "&amp;&nbsp;&frac12; turn",
        "1-8 vine right touch, vine left touch\n9-16 rocking chair x2, jazz box 1/4 R\nRepeat",
        "\u{feff}1& step\r\r2 ROCK É",
    ] {
        println!("odd {}", seen(odd, true));
    }
}
