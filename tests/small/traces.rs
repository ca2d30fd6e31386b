//! Traces in words: `1R &L 2R 3-`.

/// Only positions that take weight count; the others may be written or left out.
pub(crate) fn weights(trace: &str) -> Vec<String> {
    let mut count = String::from("0");
    let mut out = Vec::new();
    for word in trace.split_whitespace() {
        let (position, foot) = word.split_at(word.len() - 1);
        let sign = position.trim_start_matches(|c: char| c.is_ascii_digit());
        if sign.len() < position.len() {
            position[..position.len() - sign.len()].clone_into(&mut count);
        }
        if foot != "-" {
            out.push(format!("{count}{sign}{foot}"));
        }
    }
    out
}
