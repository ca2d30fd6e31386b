use halfcount::{figures::lexicon, read::read, sheet};
fn main() {
    for p in std::env::args().skip(1) {
        let text = String::from_utf8_lossy(&std::fs::read(&p).unwrap()).into_owned();
        let s = sheet::parse(&text, &lexicon().vocabulary);
        let r = read(&text, &s);
        for l in &r.labels {
            let sec = &r.dance.parts[l.part].sections;
            if l.section >= sec.len() {
                println!("{p} undivided");
                continue;
            }
            let ms = sec[l.section].moves.get(l.moves.0..l.moves.1).unwrap_or(&[]);
            let st: Vec<String> = ms
                .iter()
                .map(|m| {
                    format!(
                        "{}{}{} {}{}",
                        m.at,
                        match m.who {
                            halfcount::dance::Who::One(f) => f.letter(),
                            halfcount::dance::Who::Both => "B",
                            _ => "-",
                        },
                        m.effect.sign(),
                        m.action.word(),
                        m.place.word()
                    )
                })
                .collect();
            println!(
                "{} | {} | {:?} {} | {}",
                p.rsplit('/').next().unwrap(),
                l.span.of(&text),
                l.lead,
                lexicon().figures[l.figure as usize].name,
                st.join(", ")
            );
        }
    }
}
