//! Scripts of pages, and a style that says something, in the language that is spoken. They are hashed for the page's policy, so they are made whole
//! here and not by the templates; in English they are the files as they stand.

use fardel_words::{Language, current, mark, plain};

/// Ticks, folds and counts.
const PAGE: &str = include_str!("templates/page.js");
/// Checks answers and saves them.
const ASK: &str = include_str!("templates/ask.js");

/// Leaves of the card.
const CARD: &str = include_str!("templates/card.css");
const SLIP: &str = mark!("No instructions: the manual comes first. Brakes tested before riding.");

/// What they say, as it stands between the quotes of the scripts.
const SAID: &[&str] = &[
    mark!(" of "),
    mark!("all "),
    mark!("Fold away what is ticked"),
    mark!("Show what is ticked ("),
    mark!("Undo"),
    mark!(" and "),
    mark!(" before it"),
    mark!(": ticked"),
    mark!("fill in all four fields, or none"),
    mark!("numbers are expected"),
    mark!("lowest below highest, best guess between them"),
    mark!("how sure: 50 to 100"),
    mark!("Question "),
    mark!("No question is answered yet."),
    mark!("Saved as "),
];

/// The script of pages with check lists.
pub(crate) fn page() -> String {
    spoken(PAGE)
}

/// The script of the questions.
pub(crate) fn ask() -> String {
    spoken(ASK)
}

/// The style of the card, which says below each leaf what a reminder is not.
pub(crate) fn card_style() -> String {
    CARD.replace(SLIP, plain(SLIP))
}

fn spoken(script: &str) -> String {
    if current() == Language::ENGLISH {
        return script.to_owned();
    }
    let mut script = script.to_owned();
    for said in SAID {
        for (open, close) in [("'", "'"), ("\"", "\""), (">", "<")] {
            script = script.replace(&format!("{open}{said}{close}"), &format!("{open}{}{close}", plain(said)));
        }
    }
    script.replace(".toFixed(1)", &format!(".toFixed(1).replace('.', '{}')", current().decimal_sign()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A text that is changed in a script is changed here as well.
    #[test]
    fn every_text_stands_in_a_script() {
        let scripts = format!("{PAGE}{ASK}");
        for said in SAID {
            assert!(CARD.contains(SLIP));
            assert!(["'", "\"", ">"].iter().any(|open| scripts.contains(&format!("{open}{said}"))), "{said}");
        }
    }
}
