//! Telling from its content what a file is: a catalogue, a scenario, or somebody's gear.

use super::node::Node;
use super::source::Source;
use super::{rows, yaml};
use schemars::JsonSchema;
use serde::Serialize;

/// What a file is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Sort {
    /// Entries for a catalogue.
    #[default]
    Catalogue,
    /// A trip.
    Scenario,
    /// What a rider owns.
    Gear,
}

impl Sort {
    /// In a word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Catalogue => "catalogue",
            Self::Scenario => "scenario",
            Self::Gear => "gear",
        }
    }

    /// Spreadsheets are gear. A file with items only is gear where they are a list, or where no item has a basis, which
    /// every item of a catalogue has. Other sections make a catalogue, anything else is taken for a scenario.
    #[must_use]
    pub fn of(source: &Source) -> Self {
        if rows::is_rows(&source.name) {
            return Self::Gear;
        }
        let Ok(Node::Map(root)) = yaml::parse(&source.text) else { return Self::Scenario };
        if root.contains_key("trip") || root.contains_key("riders") {
            return Self::Scenario;
        }
        match root.get("items") {
            Some(Node::List(_)) => Self::Gear,
            Some(Node::Map(items)) if root.len() == 1 && !items.values().any(is_of_a_catalogue) => Self::Gear,
            _ if super::section::Section::ALL.iter().any(|section| root.contains_key(section.key())) => Self::Catalogue,
            _ if ["model", "prices", "synonyms"].iter().any(|key| root.contains_key(*key)) => Self::Catalogue,
            _ => Self::Scenario,
        }
    }
}

fn is_of_a_catalogue(item: &Node) -> bool {
    matches!(item, Node::Map(keys) if keys.contains_key("basis") || keys.contains_key("like"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_told_apart_by_what_is_in_them() {
        let sort = |name: &str, text: &str| Sort::of(&Source { name: name.to_owned(), text: text.to_owned() });
        assert_eq!(sort("a.csv", "id\n"), Sort::Gear);
        assert_eq!(sort("a.yaml", "items: [pump]"), Sort::Gear);
        assert_eq!(sort("a.yaml", "items: { pump: { mass: 3 g } }"), Sort::Gear);
        assert_eq!(sort("a.yaml", "items: { pump: { mass: 3 g, basis: from memory } }"), Sort::Catalogue);
        assert_eq!(sort("a.yaml", "bikes: {}"), Sort::Catalogue);
        assert_eq!(sort("a.yaml", "name: x\ntrip: {}"), Sort::Scenario);
        assert_eq!(sort("a.yaml", "{"), Sort::Scenario);
    }
}
