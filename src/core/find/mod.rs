//! Looking things up in the catalogue: entries by name, synonym or what they mend; one entry with all that is known.

mod energy;
mod facts;
pub(crate) mod matcher;
mod rests;
mod show;
pub(crate) mod uses;
pub(crate) mod words;

pub use show::{Entry, Fact, Reference, References, show};

use crate::diagnostic::nearest;
use crate::domain::{Catalogue, Map};
use fardel_words::word;
use schemars::JsonSchema;
use serde::Serialize;
use words::{Synonyms, likeness};

/// What sort of entry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "EntrySort")]
pub enum Sort {
    /// A thing to carry.
    Item,
    /// Something that breaks.
    Failure,
    /// A way to deal with it; its id is `failure/repair`.
    Repair,
    /// A machine.
    Bike,
    /// A bag, case or holder.
    Bag,
    /// Something done before leaving.
    Preparation,
}

impl Sort {
    /// In the plural, as a heading.
    #[must_use]
    pub fn plural(self) -> &'static str {
        match self {
            Self::Item => word!("Items"),
            Self::Failure => word!("Failures"),
            Self::Repair => word!("Repairs"),
            Self::Bike => word!("Bikes"),
            Self::Bag => word!("Bags"),
            Self::Preparation => word!("Preparations"),
        }
    }
}

/// An entry that was found.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Hit {
    /// What sort of entry.
    pub sort: Sort,
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// The failure or repair that it serves, where it was found by that and not by its own name.
    pub serves: Option<String>,
    #[serde(skip)]
    score: f64,
}

/// What a search came to.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Found {
    /// What was looked for.
    pub word: String,
    /// The words that were compared, in the catalogue's own terms.
    pub compared: Vec<String>,
    /// Entries by sort, the best first.
    pub hits: Vec<Hit>,
    /// How many further ones of the same sorts were left out.
    pub left_out: usize,
    /// The id most like the word, if nothing was found.
    pub nearest: Option<String>,
}

/// Score of a word that is exactly the one looked for.
const EXACT: f64 = 3.0;
/// Score of a word that begins with it.
const BEGINS: f64 = 2.0;
/// Score of an entry that is found by what it serves.
const SERVES: f64 = 1.0;
/// Words less alike than this are not found by mistake.
const SLIP: f64 = 0.8;
/// Shorter beginnings of words find too much.
const LEAST_BEGINNING: usize = 3;

/// Entries with all words of a text in their id or name, or, for items, in what they serve; at most `most` of each sort.
#[must_use]
pub fn find(catalogue: &Catalogue, text: &str, most: usize) -> Found {
    let synonyms = Synonyms::new(&catalogue.synonyms);
    let wanted = synonyms.plain(text);
    let looked = Search { catalogue, synonyms: &synonyms, wanted: &wanted };
    let mut hits = if wanted.is_empty() { Vec::new() } else { looked.all() };
    hits.sort_by(|a, b| a.sort.cmp(&b.sort).then(b.score.total_cmp(&a.score)));
    let all = hits.len();
    let mut kept: Vec<Hit> = Vec::new();
    for hit in hits {
        if kept.iter().filter(|other| other.sort == hit.sort).count() < most {
            kept.push(hit);
        }
    }
    let nearest = if kept.is_empty() { nearest(text, ids(catalogue)) } else { None };
    Found { word: text.to_owned(), compared: wanted, left_out: all - kept.len(), hits: kept, nearest }
}

/// For each item, the failures that it helps with on any bike, by their names, in the order of the catalogue.
#[must_use]
pub fn mends(catalogue: &Catalogue) -> Map<Vec<&str>> {
    let uses = uses::uses(catalogue).into_iter();
    uses.map(|(item, uses)| {
        let mut names: Vec<&str> = uses.iter().map(|own| own.failure.name.as_str()).collect();
        names.dedup();
        (item, names)
    })
    .collect()
}

/// Every id that can be shown.
fn ids(catalogue: &Catalogue) -> impl Iterator<Item = &str> {
    let ids = catalogue.items.keys().chain(catalogue.failures.keys()).chain(catalogue.bikes.keys());
    ids.chain(catalogue.bags.keys()).chain(catalogue.preparations.keys()).map(String::as_str)
}

struct Search<'a> {
    catalogue: &'a Catalogue,
    synonyms: &'a Synonyms,
    wanted: &'a [String],
}

impl Search<'_> {
    fn all(&self) -> Vec<Hit> {
        let catalogue = self.catalogue;
        let mut hits = Vec::new();
        let mut add = |sort, id: &str, name: &str, further: &str| {
            hits.extend(self.hit(sort, id, name, further));
        };
        catalogue.items.values().for_each(|e| add(Sort::Item, &e.id, &e.name, e.kind.word()));
        catalogue.bikes.values().for_each(|e| add(Sort::Bike, &e.id, &e.name, ""));
        catalogue.bags.values().for_each(|e| add(Sort::Bag, &e.id, &e.name, ""));
        catalogue.preparations.values().for_each(|e| add(Sort::Preparation, &e.id, &e.name, ""));
        for failure in catalogue.failures.values() {
            add(Sort::Failure, &failure.id, &failure.name, &failure.system);
            for repair in &failure.repairs {
                add(Sort::Repair, &format!("{}/{}", failure.id, repair.id), &repair.name, "");
            }
        }
        let served = self.served(&hits);
        hits.extend(served);
        hits
    }

    fn hit(&self, sort: Sort, id: &str, name: &str, further: &str) -> Option<Hit> {
        let mut own = self.synonyms.plain(name);
        own.extend(self.synonyms.plain(id));
        own.extend(self.synonyms.plain(further));
        let scores: Option<Vec<f64>> = self.wanted.iter().map(|word| score(word, &own)).collect();
        let score = scores?.into_iter().fold(f64::INFINITY, f64::min);
        Some(Hit { sort, id: id.to_owned(), name: name.to_owned(), serves: None, score })
    }

    /// Items that serve a failure or repair which was found by its own name.
    fn served(&self, hits: &[Hit]) -> Vec<Hit> {
        let named =
            |sort: Sort, id: &str| hits.iter().any(|hit| hit.sort == sort && hit.id == id && hit.score >= BEGINS);
        let mut found = Vec::new();
        for (id, uses) in uses::uses(self.catalogue) {
            if named(Sort::Item, &id) {
                continue;
            }
            let serves = uses.iter().find_map(|own| {
                let repair = format!("{}/{}", own.failure.id, own.repair.id);
                let by_failure = named(Sort::Failure, &own.failure.id);
                (by_failure || named(Sort::Repair, &repair))
                    .then(|| if by_failure { own.failure.name.clone() } else { own.repair.name.clone() })
            });
            let Some(serves) = serves else { continue };
            let Some(item) = self.catalogue.items.get(&id) else { continue };
            // What serves few repairs is more to the point than pliers.
            let few = 1.0 / f64::from(u32::try_from(uses.len()).unwrap_or(u32::MAX));
            found.push(Hit {
                sort: Sort::Item,
                name: item.name.clone(),
                id,
                serves: Some(serves),
                score: SERVES + few,
            });
        }
        found
    }
}

fn score(word: &str, own: &[String]) -> Option<f64> {
    if own.iter().any(|other| other == word) {
        return Some(EXACT);
    }
    if word.len() >= LEAST_BEGINNING && own.iter().any(|other| other.starts_with(word)) {
        return Some(BEGINS);
    }
    let like = own.iter().map(|other| likeness(word, other)).fold(0.0, f64::max);
    (like >= SLIP).then_some(like)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load;

    fn found(text: &str) -> Vec<String> {
        let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
        find(&catalogue, text, 200).hits.into_iter().map(|hit| hit.id).collect()
    }

    #[test]
    fn british_and_american_words_find_the_same() {
        for (british, american) in [
            ("spanner", "wrench"),
            ("tyre", "tire"),
            ("petrol", "gasoline"),
            ("torch", "flashlight"),
            ("windscreen", "windshield"),
        ] {
            assert_eq!(found(british), found(american), "{british}");
        }
        assert!(found("tire").contains(&"tyre-lever".to_owned()));
    }

    #[test]
    fn items_are_found_by_what_they_mend() {
        let ids = found("radiator holed");
        assert!(ids.contains(&"epoxy-putty".to_owned()), "{ids:?}");
        assert!(ids.contains(&"radiator-holed".to_owned()), "{ids:?}");
        assert!(found("zzzzzz").is_empty());
    }

    #[test]
    fn a_slip_is_forgiven() {
        assert!(found("spaner").contains(&"spanner-13".to_owned()));
    }
}
