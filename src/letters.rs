//! Small and capital letters of the scripts in which sheets are written.
//!
//! One letter always stands for one letter of as many bytes, so that places in a text stay where they are; what
//! has no partner of its own (the German ß, dotless letters) stays as it is. The full tables of Unicode would
//! cost the module of the package thirty kilobytes.

/// Words whose letters can be made small or capital.
pub trait Letters {
    /// The word in small letters.
    fn small(&self) -> String;
    /// The word in capitals.
    fn capital(&self) -> String;
}

impl Letters for str {
    fn small(&self) -> String {
        if self.is_ascii() { self.to_ascii_lowercase() } else { self.chars().map(small).collect() }
    }

    fn capital(&self) -> String {
        if self.is_ascii() { self.to_ascii_uppercase() } else { self.chars().map(capital).collect() }
    }
}

/// Stretches of capitals beyond A to Z: first, last, and how far their small letters are away; 1 where the two alternate.
const CAPITALS: &[(char, char, u32)] = &[
    ('À', 'Ö', 32),
    ('Ø', 'Þ', 32),
    ('Ā', 'Į', 1),
    ('Ĳ', 'Ķ', 1),
    ('Ĺ', 'Ň', 1),
    ('Ŋ', 'Ŷ', 1),
    ('Ź', 'Ž', 1),
    ('Ș', 'Ț', 1),
    ('Έ', 'Ί', 37),
    ('Α', 'Ρ', 32),
    ('Σ', 'Ϋ', 32),
    ('Ѐ', 'Џ', 80),
    ('А', 'Я', 32),
    ('Ҋ', 'Ҿ', 1),
    ('Ạ', 'Ỹ', 1),
];

/// How far the partner of a letter is away, if it has one: counted from the capital.
fn away(c: char, is_capital: bool) -> Option<u32> {
    let c = u32::from(c);
    let found = CAPITALS.iter().find(|(first, last, away)| {
        let (first, last) = (u32::from(*first), u32::from(*last));
        if is_capital {
            (first..=last).contains(&c) && (*away > 1 || (c - first) % 2 == 0)
        } else {
            (first + away..=last + away).contains(&c) && (*away > 1 || (c - first) % 2 == 1)
        }
    });
    found.map(|f| f.2)
}

/// The small letter of a capital.
#[must_use]
pub fn small(c: char) -> char {
    if c.is_ascii() {
        return c.to_ascii_lowercase();
    }
    match away(c, true) {
        Some(away) => char::from_u32(u32::from(c) + away).unwrap_or(c),
        None => c,
    }
}

/// The capital of a small letter.
#[must_use]
pub fn capital(c: char) -> char {
    if c.is_ascii() {
        return c.to_ascii_uppercase();
    }
    match away(c, false) {
        Some(away) => char::from_u32(u32::from(c) - away).unwrap_or(c),
        None => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn partners_are_those_of_unicode_and_of_the_same_length() {
        let mut changed = 0;
        for c in '\0'..=char::MAX {
            for (ours, theirs) in
                [(small(c), c.to_lowercase().to_string()), (capital(c), c.to_uppercase().to_string())]
            {
                if ours != c {
                    assert_eq!(ours.to_string(), theirs, "{c}");
                    assert_eq!(ours.len_utf8(), c.len_utf8(), "{c}");
                    changed += 1;
                }
            }
        }
        assert!(changed > 500, "{changed}");
    }

    #[test]
    fn words_of_the_countries_that_dance() {
        for (capitals, words) in [
            ("CAFÉ ½ TURN", "café ½ turn"),
            ("ØRKEN ÅSE ÆRØ", "ørken åse ærø"),
            ("ŁÓDŹ ŽIŽKA ĞÜL", "łódź žižka ğül"),
            ("ΧΟΡΟΣ", "χοροσ"),
            ("ТАНЕЦ ЁЛКА", "танец ёлка"),
        ] {
            assert_eq!(capitals.small(), words);
            assert_eq!(words.capital(), capitals);
        }
    }
}
