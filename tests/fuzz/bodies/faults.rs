//! What every refusal owes the rider: a file, a place, what was found and what was expected, in words a terminal can show.

use fardel::diagnostic::{Code, Faults, MOST_PER_FILE};

/// Faults that are about a file as a whole, so that they need not say where in it.
const WHOLE: [Code; 6] =
    [Code::Unreadable, Code::NotYaml, Code::TooLarge, Code::NothingThere, Code::WrongType, Code::MissingKey];

/// Panics unless every fault is told properly. `texts` are the files by name.
pub fn are_told(faults: &Faults, texts: &[(&str, &str)]) {
    assert!(!faults.0.is_empty(), "refused without a fault");
    for fault in &faults.0 {
        let placed = !fault.place.is_empty() || fault.line.is_some() || WHOLE.contains(&fault.code);
        assert!(placed, "a fault without a place: {fault:?}");
        assert!(![&fault.file, &fault.found, &fault.expected].iter().any(|words| words.is_empty()), "{fault:?}");
        let text = texts.iter().find(|(name, _)| *name == fault.file).map(|(_, text)| text);
        if let (Some(line), Some(text)) = (fault.line, text) {
            // Line breaks of Unicode count as well; one of two bytes is counted twice here, which does no harm.
            let lines = text.matches(['\n', '\r', '\u{85}', '\u{2028}', '\u{2029}']).count() + 1;
            assert!((1..=lines + 1).contains(&line), "a line that is not there: {fault:?}");
        }
        let alike = faults.0.iter().filter(|other| other.file == fault.file).count();
        assert!(alike <= MOST_PER_FILE, "{alike} faults of one file");
    }
    is_harmless(&faults.to_string());
}

/// Panics if a text would do anything to a terminal but show letters.
pub fn is_harmless(text: &str) {
    let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let harmful = text.chars().find(|c| (c.is_control() && *c != '\n') || turns(*c));
    assert!(harmful.is_none(), "{harmful:?} in {text:?}");
}
