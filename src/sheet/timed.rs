//! Pages whose lines begin with a time: a chat that was copied, the plan of a lesson.

/// The length of "[19:41] me: " or "12.03.26, 19:41 - Ann: " at the beginning of a line of a chat.
pub(super) fn chat_prefix(raw: &str) -> Option<usize> {
    // Hardly any line has a colon behind a digit.
    let time = raw.find(':')?;
    if time == 0 || !raw.as_bytes()[time - 1].is_ascii_digit() {
        return None;
    }
    let head = raw.get(..raw.char_indices().nth(40).map_or(raw.len(), |(i, _)| i))?;
    if time >= head.len() {
        return None;
    }
    let digits = |s: &str| s.len() <= 2 && !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
    let before = head[..time].rsplit(|c: char| !c.is_ascii_digit()).next()?;
    let after: String = head[time + 1..].chars().take_while(char::is_ascii_digit).collect();
    if !digits(before) || after.len() != 2 {
        return None;
    }
    let rest = &head[time + 3..];
    let name = rest.find(": ")?;
    let plain = rest[..name].trim_matches(|c: char| matches!(c, ']' | ' ' | '-' | '.'));
    (plain.len() <= 24 && plain.split_whitespace().count() <= 3).then_some(time + 3 + name + 2)
}

/// Whether most lines are lines of a chat.
pub(super) fn chat(text: &str) -> bool {
    if text.lines().filter(|l| chat_prefix(l).is_some()).take(3).count() < 3 {
        return false;
    }
    let full = text.lines().filter(|l| !l.trim().is_empty()).take(200);
    let (mut all, mut said) = (0, 0);
    for line in full {
        all += 1;
        said += usize::from(chat_prefix(line).is_some());
    }
    said >= 3 && said * 2 > all
}

/// "7.40  Teach block A": the minute of the day at which something is planned, and where the words begin.
pub(super) fn hour_prefix(raw: &str) -> Option<(u32, usize)> {
    let indent = raw.len() - raw.trim_start().len();
    let line = &raw[indent..];
    let digits = |s: &str| s.bytes().take_while(u8::is_ascii_digit).count();
    let hours = digits(line);
    let rest = line[hours..].strip_prefix(['.', ':'])?;
    if !(1..=2).contains(&hours) || digits(rest) != 2 || !rest[2..].starts_with([' ', '\t', '-']) {
        return None;
    }
    let (hour, minute): (u32, u32) = (line[..hours].parse().ok()?, rest[..2].parse().ok()?);
    let words = rest[2..].trim_start_matches([' ', '\t', '-']);
    (hour < 24 && minute < 60 && words.starts_with(char::is_alphabetic))
        .then_some((hour * 60 + minute, raw.len() - words.len()))
}

/// Whether the lines of a lesson begin with rising times of the day.
pub(super) fn planned(text: &str) -> bool {
    let times: Vec<u32> = text.lines().take(200).filter_map(hour_prefix).map(|(at, _)| at).collect();
    times.len() >= 3 && times.windows(2).all(|w| w[0] < w[1] && w[1] - w[0] <= 90)
}
