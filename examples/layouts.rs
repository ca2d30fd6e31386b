//! Shows how much each manner of reading troubles: `cargo run --example layouts -- SHEET...`

use halfcount::figures::lexicon;
use halfcount::read::{LAYOUTS, read, strain};
use halfcount::sheet;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    use std::io::Write;
    let out = &mut std::io::stdout().lock();
    for path in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&path)?;
        let vocabulary = &lexicon().vocabulary;
        let usual = sheet::parse(&text, vocabulary);
        let all = LAYOUTS.iter().map(|l| (format!("{l:?}"), sheet::parse_as(&text, vocabulary, *l)));
        let all = core::iter::once(("Usual".to_string(), Some(usual))).chain(all);
        write!(out, "{path}")?;
        for (name, sheet) in all {
            let Some(sheet) = sheet else { continue };
            let reading = read(&text, &sheet);
            write!(
                out,
                "  {name}: {} ({}) left out {}",
                strain(&sheet, &reading),
                reading.cost,
                sheet.left_out
            )?;
        }
        writeln!(out)?;
    }
    Ok(())
}
