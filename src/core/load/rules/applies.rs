//! Attributes and their values, wherever they are spoken of.

use crate::diagnostic::{Code, quoted};
use crate::domain::Applies;
use crate::load::convert::Draft;
use crate::load::findings::{Findings, Place};
use crate::load::section::Section;
use fardel_words::say;

/// Checks an `applies` map.
pub(super) fn check(applies: &Applies, place: &Place, draft: &Draft, findings: &mut Findings) {
    for (name, values) in applies {
        let at = place.key(name);
        draft.names.check(Section::Attributes, name, &at, findings);
        for text in values {
            value(name, text, &at, draft, findings);
        }
        if values.is_empty() && !findings.is_spoilt_below(&at) {
            let expected = say!("at least one value, or leave the attribute out");
            findings.add(Code::NothingThere, &at, say!("no value, so that no bike is meant"), expected, None);
        }
    }
}

/// Checks a value against the attribute's closed list, if it has one.
pub(super) fn value(name: &str, text: &str, place: &Place, draft: &Draft, findings: &mut Findings) {
    let Some(attribute) = draft.catalogue.attributes.get(name) else { return };
    let values_told = findings.is_spoilt_below(&draft.place(Section::Attributes, name).key("values"));
    if attribute.values.is_empty() || values_told || attribute.values.iter().any(|value| value == text) {
        return;
    }
    let near = findings.nearest(place, text, attribute.values.iter().map(String::as_str));
    let expected = say!("one of `{}`", attribute.values.join("`, `"));
    findings.add(Code::UnknownValue, place, quoted(text), expected, near);
}
