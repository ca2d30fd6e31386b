//! From bytes of UTF-8 to the units in which JavaScript counts.

/// How many bytes lie between two noted places.
const STEP: usize = 256;

/// Where the bytes of a text lie in UTF-16, noted now and then, so that a report with many findings about a
/// long text does not count from its beginning for each of them.
#[derive(Debug)]
pub struct Units<'a> {
    text: &'a str,
    /// For each `STEP` bytes: the character border at or before, and the units before it. Empty where every
    /// character is one byte.
    noted: Vec<(usize, u32)>,
}

impl<'a> Units<'a> {
    /// Looks through a text once.
    #[must_use]
    pub fn new(text: &'a str) -> Self {
        let mut noted = Vec::new();
        if !text.is_ascii() {
            let mut units = 0;
            for (at, c) in text.char_indices() {
                if at + c.len_utf8() > noted.len() * STEP {
                    noted.push((at, units));
                }
                units += width(c);
            }
        }
        Self { text, noted }
    }

    /// The offset in UTF-16 of a byte; one inside a character counts as that character's beginning.
    #[must_use]
    pub fn at(&self, byte: u32) -> u32 {
        let byte = (byte as usize).min(self.text.len());
        let Some((from, units)) = self.noted.get(byte / STEP).or_else(|| self.noted.last()) else {
            return u32::try_from(byte).unwrap_or(u32::MAX);
        };
        let rest = self.text.get(*from..).unwrap_or("").char_indices();
        units
            + rest.take_while(|(at, c)| from + at + c.len_utf8() <= byte).map(|(_, c)| width(c)).sum::<u32>()
    }
}

fn width(c: char) -> u32 {
    if c.len_utf8() > 3 { 2 } else { 1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_byte_is_where_counting_from_the_start_puts_it() {
        let long = "1-2 Step ½ L, café – 💃 hold\r\n".repeat(40);
        for text in ["", "plain words", "a💃b", "\u{feff}½", &long] {
            let units = Units::new(text);
            for byte in 0..=text.len() + 3 {
                let byte = u32::try_from(byte).expect("a short text");
                assert_eq!(units.at(byte), crate::text::utf16(text, byte), "byte {byte}");
            }
        }
    }
}
