//! Lines of a file with their remarks in a column.

use crate::domain::{Catalogue, Preparation};

/// Where remarks begin.
const COLUMN: usize = 48;

/// A line and its remark.
pub(super) fn commented(indent: &str, value: &str, remark: &str) -> String {
    let line = format!("{indent}{value}");
    let gap = COLUMN.saturating_sub(line.chars().count()).max(1);
    format!("{line}{}# {remark}\n", " ".repeat(gap))
}

/// Ids with their counts, and their names as the remark.
pub(super) fn counts(indent: &str, ids: &[(String, u32)], catalogue: &Catalogue) -> String {
    let named = ids.iter().filter_map(|(id, n)| Some((id, n, catalogue.items.get(id)?)));
    named.map(|(id, n, item)| commented(indent, &format!("{id}: {n}"), &item.name)).collect()
}

/// Ids of preparations with their names as the remark.
pub(super) fn names(indent: &str, entries: &[&Preparation]) -> String {
    entries.iter().map(|entry| commented(indent, &entry.id, &entry.name)).collect()
}
