//! Which item of the catalogue somebody means by a name typed from memory.
//!
//! Names are compared word by word. A word counts the more the fewer items have it (the logarithm of their share, as in
//! the inverse document frequency of Spärck Jones 1972, "A statistical interpretation of term specificity", J. Doc. 28), and slips of the keyboard are
//! forgiven by `strsim`. Figures must agree: an 8 mm spanner is no 10 mm spanner.

use super::words::{Synonyms, likeness};
use crate::domain::Catalogue;
use crate::units::Mass;
use std::collections::BTreeMap;

/// Words that say nothing by themselves.
const IDLE: &[&str] =
    &["a", "an", "and", "the", "of", "for", "with", "in", "my", "old", "new", "spare", "small", "or", "to"];
/// Units, which say nothing without their figure.
const UNITS: &[&str] = &["mm", "cm", "m", "in", "g", "kg", "ml", "l"];
/// From this score on a name is taken for an item.
const LEAST_SCORE: f64 = 0.62;
/// How much of the score comes from the words that were typed; the rest comes from the words of the item.
const TYPED: f64 = 0.75;
/// Beyond so many times the weight it does not matter any more how far.
const FAR_OFF: f64 = 4.0;
/// What is left of the score of an item that weighs that many times more or less.
const DOUBTFUL: f64 = 0.85;
/// What is left of the score when a figure that was typed is not among the item's.
const OTHER_SIZE: f64 = 0.6;

struct Thing {
    id: String,
    /// Words of its name, and of its id.
    names: [Vec<String>; 2],
    all: Vec<String>,
    grams: f64,
}

/// The names of all items, ready to be compared with.
pub(crate) struct Matcher {
    synonyms: Synonyms,
    things: Vec<Thing>,
    weights: BTreeMap<String, f64>,
    rare: f64,
}

/// An item that may be meant.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Candidate {
    /// Its id.
    pub id: String,
    /// How well it fits, at most 1.
    pub score: f64,
    /// Are its words just those that were typed?
    pub same: bool,
}

impl Matcher {
    /// For the items of a catalogue.
    pub fn new(catalogue: &Catalogue) -> Self {
        let synonyms = Synonyms::new(&catalogue.synonyms);
        let things: Vec<Thing> = catalogue
            .items
            .values()
            .map(|item| {
                let name = telling(synonyms.plain(&item.name));
                let mut all = name.clone();
                let id = telling(synonyms.plain(&item.id));
                all.extend(id.clone());
                let joined: Vec<String> = name.windows(2).map(<[String]>::concat).collect();
                all.extend(joined);
                all.sort();
                all.dedup();
                Thing { id: item.id.clone(), names: [name, id], all, grams: item.mass.grams() }
            })
            .collect();
        let mut times: BTreeMap<String, u32> = BTreeMap::new();
        things.iter().flat_map(|thing| &thing.all).for_each(|word| *times.entry(word.clone()).or_default() += 1);
        let count = f64::from(u32::try_from(things.len()).unwrap_or(u32::MAX)) + 1.0;
        let weights = times.into_iter().map(|(word, times)| (word, (count / f64::from(times)).ln())).collect();
        Self { synonyms, things, weights, rare: count.ln() }
    }

    fn weight(&self, word: &str) -> f64 {
        self.weights.get(word).copied().unwrap_or(self.rare)
    }

    /// The items that may be meant by a name, the best first; `mass` is that of one, if it is known.
    pub fn of(&self, name: &str, mass: Option<Mass>) -> Vec<Candidate> {
        let typed = telling(self.synonyms.forgiving(name));
        if typed.is_empty() {
            return Vec::new();
        }
        let exact = telling(self.synonyms.plain(name));
        let mut found: Vec<Candidate> =
            self.things.iter().filter_map(|thing| self.compared(&typed, &exact, thing, mass)).collect();
        found.sort_by(|a, b| b.score.total_cmp(&a.score));
        found
    }

    fn compared(&self, typed: &[String], exact: &[String], thing: &Thing, mass: Option<Mass>) -> Option<Candidate> {
        let best = |word: &String, among: &[String]| among.iter().map(|own| likeness(word, own)).fold(0.0, f64::max);
        let share = |words: &[String], among: &[String]| -> f64 {
            let all: f64 = words.iter().map(|word| self.weight_of(word)).sum();
            let met: f64 = words.iter().map(|word| self.weight_of(word) * best(word, among)).sum();
            if all > 0.0 { met / all } else { 0.0 }
        };
        let joined: Vec<String> = typed.iter().cloned().chain(typed.windows(2).map(<[String]>::concat)).collect();
        let figure = |word: &&String| word.starts_with(|c: char| c.is_numeric());
        // Nobody types every size; those of the item count only where they were.
        let named = |name: &Vec<String>| {
            let telling = |word: &&String| !(figure(word) || UNITS.contains(&word.as_str())) || typed.contains(*word);
            share(&name.iter().filter(telling).cloned().collect::<Vec<_>>(), &joined)
        };
        let whole = thing.names.iter().map(named).fold(0.0, f64::max);
        let mut score = TYPED * share(typed, &thing.all).max(glued(typed, &thing.all)) + (1.0 - TYPED) * whole;
        if typed.iter().filter(figure).any(|word| !thing.all.contains(word)) {
            score *= OTHER_SIZE;
        }
        let ratio = mass.map(|mass| mass.grams() / thing.grams).filter(|ratio| ratio.is_finite() && *ratio > 0.0);
        if let Some(ratio) = ratio {
            // Of things with the same words the one that weighs as much is meant.
            score *= 1.0 - (1.0 - DOUBTFUL) * (ratio.ln().abs() / FAR_OFF.ln()).min(1.0);
        }
        let sorted = |words: &[String]| {
            let mut words = words.to_vec();
            words.sort();
            words
        };
        let same = thing.names.iter().any(|name| sorted(name) == sorted(exact));
        (score >= LEAST_SCORE).then(|| Candidate { id: thing.id.clone(), score, same })
    }

    /// A word that is misspelt weighs as much as the one that it is like.
    fn weight_of(&self, word: &str) -> f64 {
        if self.weights.contains_key(word) {
            return self.weight(word);
        }
        let like = self.weights.iter().map(|(known, weight)| (likeness(word, known), *weight));
        like.filter(|(like, _)| *like > 0.0).max_by(|a, b| a.0.total_cmp(&b.0)).map_or(self.rare, |(_, weight)| weight)
    }
}

/// `multi tool` for `multitool`: 1 if all words together are one of the item's.
fn glued(typed: &[String], all: &[String]) -> f64 {
    let whole = typed.concat();
    if typed.len() > 1 && all.contains(&whole) { 1.0 } else { 0.0 }
}

fn telling(words: Vec<String>) -> Vec<String> {
    let telling: Vec<String> = words.iter().filter(|word| !IDLE.contains(&word.as_str())).cloned().collect();
    if telling.is_empty() { words } else { telling }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load;

    fn best(name: &str) -> Option<String> {
        let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
        Matcher::new(&catalogue).of(name, None).first().map(|found| found.id.clone())
    }

    #[test]
    fn names_from_memory_are_understood() {
        let meant = [
            ("tire irons", "tyre-lever"),
            ("tyer levers", "tyre-lever"),
            ("Multitool", "multi-tool"),
            ("duct tape", "cloth-tape"),
            ("13mm wrench", "spanner-13"),
            ("zip ties", "zip-ties"),
            ("headtorch", "headlamp"),
            ("spoke kye", "spoke-key"),
            ("1 man tent", "tent-1"),
            ("PLB", "locator-beacon"),
        ];
        for (name, id) in meant {
            assert_eq!(best(name).as_deref(), Some(id), "{name}");
        }
        let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
        let light = Matcher::new(&catalogue).of("stove", Some(Mass::from_grams(90)));
        assert!(light.iter().take(4).any(|found| found.id == "stove-gas"), "{light:?}");
        for nothing in ["paper lantern", "harmonica", "paperback novel"] {
            assert_eq!(best(nothing), None, "{nothing}");
        }
    }
}
