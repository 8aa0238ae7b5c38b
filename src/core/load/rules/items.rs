//! Items: what they provide, hold, meet and require is declared.

use super::keys;
use crate::diagnostic::Code;
use crate::domain::NeedRule;
use crate::load::convert::Draft;
use crate::load::findings::Findings;
use crate::load::section::Section;
use fardel_words::say;

/// Checks all items.
pub(super) fn check(draft: &Draft, findings: &mut Findings) {
    for (id, item) in &draft.catalogue.items {
        let place = draft.place(Section::Items, id);
        keys(&item.provides, Section::Functions, &place.key("provides"), draft, findings);
        keys(&item.holds, Section::Stocks, &place.key("holds"), draft, findings);
        keys(&item.meets, Section::Needs, &place.key("meets"), draft, findings);
        keys(&item.requires, Section::Functions, &place.key("requires"), draft, findings);
        for (name, contribution) in &item.meets {
            let graded = contribution.down_to.is_some();
            let need = draft.catalogue.needs.get(name);
            if graded && need.is_some_and(|need| need.rule != NeedRule::SleepWarmth) {
                let found = say!("`down_to` for `{name}`");
                let expected = say!("`down_to` only for a need with the rule `sleep warmth`");
                let place = place.key("meets").key(name).key("down_to");
                findings.add(Code::Contradiction, &place, found, expected, None);
            }
        }
    }
}
