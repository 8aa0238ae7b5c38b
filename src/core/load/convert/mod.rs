//! From file shapes to domain types: merging, inheritance, families, anchored rates.
//!
//! What is missing is told and replaced by a stand-in, so that the rest can still be checked. Stand-ins never leave
//! the loader: a single fault means that nothing is loaded.

mod attributes;
mod bags;
mod bikes;
mod checks;
mod evidence;
mod failures;
mod families;
mod form;
mod gear;
mod inherit;
mod items;
mod merge;
mod money;
mod plain;
mod preparations;
mod prices;
mod rates;
mod scenario;
mod sets;

pub(crate) use evidence::whole;
pub(crate) use gear::{Gear, assign_gear, belongings};
pub(crate) use merge::{Entry, Merged};
pub(crate) use money::Purse;
pub(crate) use scenario::scenario;

use super::findings::{Findings, Place};
use super::section::{Names, Section};
use crate::domain::{Catalogue, Kit, Map};
use indexmap::IndexMap;

/// A catalogue whose references have not been checked yet.
#[derive(Debug, Default)]
pub(crate) struct Draft {
    /// The catalogue, possibly with stand-ins.
    pub catalogue: Catalogue,
    /// The names that can be referred to.
    pub names: Names,
    /// Members of families that took the place of others.
    pub notes: Vec<String>,
    /// What prices are in, and what other currencies are worth.
    pub purse: Purse,
    places: IndexMap<(Section, String), Place>,
}

impl Draft {
    /// A catalogue that is sound already, to read other files against.
    pub fn of(catalogue: &Catalogue) -> Self {
        let mut draft = Self { names: Names::new(&Findings::default()), ..Self::default() };
        draft.names.learn(Section::Items, catalogue.items.keys());
        draft.catalogue = catalogue.clone();
        draft.purse = Purse::in_one(catalogue.currency);
        draft
    }
    /// Where the entries were written.
    pub fn places(&self) -> IndexMap<(Section, String), Place> {
        self.places.clone()
    }
    /// Where an entry was written.
    pub fn place(&self, section: Section, id: &str) -> Place {
        self.places.get(&(section, id.to_owned())).cloned().unwrap_or_default()
    }
}

/// Converts all merged entries.
pub(crate) fn catalogue(merged: &Merged, mut purse: Purse, findings: &mut Findings) -> Draft {
    let mut names = Names::new(findings);
    names.learn(Section::Systems, merged.systems.keys());
    names.learn(Section::Ladders, merged.ladders.keys());
    let mut draft = Draft { names, ..Draft::default() };
    plain::attributes(merged, &mut draft, findings);
    plain::needs(merged, &mut draft, findings);
    plain::systems(merged, &mut draft, findings);
    families::functions(merged, &mut draft, findings);
    families::stocks(merged, &mut draft, findings);
    items::items(merged, &mut draft, &mut purse, findings);
    bags::bags(merged, &mut draft, &mut purse, findings);
    bikes::bikes(merged, &mut draft, findings);
    failures::failures(merged, &mut draft, findings);
    preparations::preparations(merged, &mut draft, &mut purse, findings);
    checks::checks(merged, &mut draft, findings);
    sets::sets(merged, &mut draft, findings);
    plain::model(merged, &mut draft, findings);
    evidence::evidence(merged, &mut draft, findings);
    prices::prices(merged, &mut draft, &mut purse, findings);
    draft.catalogue.synonyms.clone_from(&merged.synonyms);
    draft.catalogue.currency = purse.currency();
    draft.purse = purse;
    draft
}

/// Counts as written; those of zero say nothing.
pub(crate) fn counts(shape: Option<crate::load::file::Counted>) -> Map<u32> {
    items::counts(shape)
}

/// The kit with these counts, in the order of the catalogue.
pub(crate) fn counted_items(catalogue: &Catalogue, counts: &Map<u32>) -> Kit {
    Kit::new(catalogue.items.keys().filter_map(|id| Some((id.clone(), *counts.get(id)?))))
}

/// Files an entry under its name: the domain value, its place, and the name as known.
macro_rules! keep {
    ($draft:expr, $section:ident, $field:ident, $id:expr, $place:expr, $value:expr) => {{
        let id: String = $id;
        $draft.names.learn(crate::load::section::Section::$section, [&id]);
        $draft.places.insert((crate::load::section::Section::$section, id.clone()), $place);
        $draft.catalogue.$field.insert(id, $value);
    }};
}
use keep;
