//! Short names of things, for lists that fit a screen.

use fardel_core::domain::Catalogue;
use std::collections::BTreeMap;

/// Short names by the names that answers use.
#[derive(Debug, Clone, Default)]
pub struct Names(BTreeMap<String, String>);

impl Names {
    /// Those of a catalogue's items.
    #[must_use]
    pub fn of(catalogue: &Catalogue) -> Self {
        let items = catalogue.items.values().filter(|item| item.short != item.name);
        Self(items.map(|item| (item.name.clone(), item.short.clone())).collect())
    }

    /// The short name; the name itself where there is no shorter one.
    #[must_use]
    pub fn short<'a>(&'a self, name: &'a str) -> &'a str {
        self.0.get(name).map_or(name, String::as_str)
    }
}
