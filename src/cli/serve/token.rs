//! The secret that stands in the address: who does not have it is told nothing.

use fardel_words::say;
use std::fmt::Write as _;

/// Bytes of chance in it: more than anybody can try.
const BYTES: usize = 16;

/// A secret for one run.
pub(super) struct Token(String);

impl Token {
    /// A new one, from the system's source of chance.
    pub(super) fn new() -> Result<Self, String> {
        let mut bytes = [0; BYTES];
        getrandom::fill(&mut bytes).map_err(|error| say!("the system gives no random numbers: {error}"))?;
        let mut text = String::new();
        for byte in bytes {
            let _ = write!(text, "{byte:02x}");
        }
        Ok(Self(text))
    }

    /// As it stands in the address.
    pub(super) fn text(&self) -> &str {
        &self.0
    }

    /// Is this it? Takes as long whichever letter differs.
    pub(super) fn is(&self, told: &str) -> bool {
        let differing = self.0.bytes().zip(told.bytes()).fold(0, |all, (own, other)| all | (own ^ other));
        told.len() == self.0.len() && differing == 0
    }
}

#[cfg(test)]
mod tests {
    use super::Token;

    #[test]
    fn only_the_whole_token_is_it() {
        let token = Token::new().unwrap();
        let text = token.text().to_owned();
        assert_eq!(text.len(), 32);
        assert!(token.is(&text));
        assert!(!token.is(&text[1..]) && !token.is("") && !token.is(&format!("{text}0")));
        assert_ne!(text, Token::new().unwrap().text());
    }
}
