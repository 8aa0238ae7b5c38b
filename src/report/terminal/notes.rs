//! The toolkit's leftovers, dropped items, warnings, cautions.

use super::{Look, heading, wrapped};
use crate::answer::PackAnswer;
use crate::report::cautions::cautions;
use crate::report::words::{counted, list};

pub(super) fn notes(answer: &PackAnswer, look: &Look) -> String {
    let mut text = heading("Notes");
    if !answer.toolkit_left.is_empty() {
        let names: Vec<String> = answer.toolkit_left.iter().map(|left| counted(left.count, &left.name)).collect();
        let mass = look.show(answer.toolkit_left.iter().map(|left| left.mass).sum::<crate::units::Mass>());
        text += &wrapped(&format!("- Take out of the bike's own toolkit: {} ({mass}).", list(&names)), look, "  ");
    }
    let dropped: Vec<String> = answer.dropped.iter().map(|(reason, n)| format!("{n} {}", reason.words())).collect();
    if !dropped.is_empty() {
        let line = format!("- {} items were weighed against each other; left out before that: {}.", answer.considered, list(&dropped));
        text += &wrapped(&line, look, "  ");
    }
    for warning in &answer.warnings {
        text += &wrapped(&format!("- {warning}"), look, "  ");
    }
    text.push('\n');
    text += &heading("Take care");
    for caution in cautions(&answer.kinds) {
        text += &wrapped(&format!("- {caution}"), look, "  ");
    }
    text
}
