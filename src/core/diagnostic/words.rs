//! Small helpers for sentences.

use fardel_words::say;

/// The text with control characters made harmless, cut to `longest` characters.
pub fn plain(text: &str, longest: usize) -> String {
    let mut shown = String::new();
    for (at, c) in text.trim_end().chars().enumerate() {
        if at == longest {
            shown.push_str("...");
            break;
        }
        shown.push(match c {
            '\t' => ' ',
            // Control and direction-changing characters could garble the terminal they are shown on.
            '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => '\u{fffd}',
            c if c.is_control() => '\u{fffd}',
            c => c,
        });
    }
    shown
}

/// First letter large.
#[must_use]
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The end of a sentence about a name that is not known: `; did you mean ...?`, or nothing where no other is near.
#[must_use]
pub fn did_you_mean<T: std::fmt::Display>(near: Option<T>) -> String {
    near.map_or_else(String::new, |near| say!("; did you mean `{near}`?"))
}

/// The text between backquotes, shortened.
pub fn quoted(text: &str) -> String {
    format!("`{}`", plain(text, 60))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_and_harmful_texts_are_tamed() {
        assert_eq!(quoted("a\u{1b}[31m"), "`a\u{fffd}[31m`");
        assert_eq!(quoted(&"x".repeat(100)).chars().count(), 65);
    }
}
