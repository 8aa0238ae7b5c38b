//! What was typed, so that the next command can be written out whole.

use super::model::Next;

/// The arguments that name the trip: `scenarios/day-ride.yaml --rider Ana`.
#[derive(Debug, Clone, Default)]
pub struct Typed {
    /// The scenario, and the rider where one was named.
    trip: String,
    /// The rest of what was typed, after the trip.
    further: String,
}

impl Typed {
    /// From the arguments that name the trip, and those that it was asked with beside them.
    #[must_use]
    pub fn new(trip: &[&str], further: &[&str]) -> Self {
        let joined = |words: &[&str]| words.iter().map(|word| quoted(word)).collect::<Vec<_>>().join(" ");
        Self { trip: joined(trip), further: joined(further) }
    }

    /// `fardel COMMAND ... TRIP`.
    pub(crate) fn next(&self, command: &str, tells: &'static str) -> Next {
        Next { command: format!("fardel {command} {}", self.trip), tells }
    }

    /// The same command with more behind it.
    pub(crate) fn again(&self, command: &str, option: &str, tells: &'static str) -> Next {
        let words = ["fardel", command, &self.trip, &self.further, option];
        let words: Vec<&str> = words.into_iter().filter(|word| !word.is_empty()).collect();
        Next { command: words.join(" "), tells }
    }
}

/// A word as a shell takes it.
#[must_use]
pub(crate) fn quoted(word: &str) -> String {
    let plain =
        |c: char| c.is_ascii_alphanumeric() || "-_./=:,+@%\\".contains(c) || !c.is_ascii() && c.is_alphanumeric();
    if !word.is_empty() && word.chars().all(plain) {
        word.to_owned()
    } else if cfg!(windows) {
        format!("\"{word}\"")
    } else {
        format!("'{}'", word.replace('\'', "'\\''"))
    }
}

#[cfg(test)]
mod tests {
    use super::{Typed, quoted};

    #[test]
    fn what_a_shell_would_take_apart_is_quoted() {
        assert_eq!(quoted("scenarios/day-ride.yaml"), "scenarios/day-ride.yaml");
        assert_eq!(quoted("Jörg"), "Jörg");
        if !cfg!(windows) {
            assert_eq!(quoted("my trip.yaml"), "'my trip.yaml'");
            assert_eq!(quoted("it's"), "'it'\\''s'");
            assert_eq!(quoted(""), "''");
        }
    }

    #[test]
    fn the_next_command_is_whole() {
        let typed = Typed::new(&["trip.yaml", "--rider", "Ana"], &["--by", "1kg"]);
        assert_eq!(typed.next("why hand-pump", "").command, "fardel why hand-pump trip.yaml --rider Ana");
        assert_eq!(typed.again("trim", "--full", "").command, "fardel trim trip.yaml --rider Ana --by 1kg --full");
    }
}
