//! Before you leave: what is looked at on the bike, always all of it.

use super::{Look, heading, wrapped};
use crate::view::checks::{LEGEND, TITLE, whose};
use fardel_core::answer::BikeChecks;
use fardel_core::domain::Check;
use fardel_words::{plain, say};

/// The checks of one bike, each with what to look for.
pub(super) fn checks(checks: &[Check], look: &Look) -> String {
    if checks.is_empty() {
        return String::new();
    }
    heading(plain(TITLE)) + &wrapped(&format!("  {}", plain(LEGEND)), look, "  ") + &lines(checks.iter(), look)
}

/// The checks of a group: what is looked at on every bike once, then what only some bikes have.
pub(super) fn group(groups: &[BikeChecks], look: &Look) -> String {
    if groups.is_empty() {
        return String::new();
    }
    let mut text = heading(plain(TITLE)) + &wrapped(&format!("  {}", plain(LEGEND)), look, "  ");
    let [first, rest @ ..] = groups else { return text };
    let common = |check: &&Check| rest.iter().all(|group| group.checks.contains(check));
    let on_all: Vec<&Check> = first.checks.iter().filter(common).collect();
    let every = if rest.is_empty() { whose(first) } else { say!("Every bike") };
    text += &wrapped(&format!("  {every}:"), look, "  ");
    text += &lines(on_all.iter().copied(), look);
    for group in groups {
        let own: Vec<&Check> = group.checks.iter().filter(|check| !on_all.contains(check)).collect();
        if !own.is_empty() {
            text += &wrapped(&say!("  {}, besides:", whose(group)), look, "  ");
            text += &lines(own.into_iter(), look);
        }
    }
    text
}

fn lines<'a>(checks: impl Iterator<Item = &'a Check>, look: &Look) -> String {
    checks.map(|check| wrapped(&format!("  [ ] {}: {}", check.name, check.look), look, "      ")).collect()
}

/// The checks in full, with what stops the ride and what the manual decides.
pub(super) fn in_full(checks: &[Check], look: &Look) -> String {
    if checks.is_empty() {
        return String::new();
    }
    let one = |check: &Check| {
        wrapped(&format!("  [ ] {}: {}", check.name, check.look), look, "      ")
            + &wrapped(&say!("      Do not ride: {} Manual: {}.", check.stop, check.defer), look, "      ")
    };
    heading(plain(TITLE))
        + &wrapped(&format!("  {}", plain(LEGEND)), look, "  ")
        + &checks.iter().map(one).collect::<String>()
}
