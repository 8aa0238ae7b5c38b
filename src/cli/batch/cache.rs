//! Scenarios that were just loaded: jobs that differ in a rider or a limit come one after the other.

use crate::load::Loaded;
use std::collections::{BTreeMap, VecDeque};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

/// What decides how a scenario loads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Key {
    /// The file, if it is in one.
    pub name: Option<String>,
    pub text: String,
    pub files: BTreeMap<String, String>,
}

/// A loaded scenario, or everything wrong with it.
pub(super) type Kept = Result<Loaded, Vec<String>>;
/// Where one stands once it is loaded.
pub(super) type Place = Arc<OnceLock<Kept>>;

/// The last few scenarios, the newest first.
pub(super) struct Cache {
    most: usize,
    places: Mutex<VecDeque<(Arc<Key>, Place)>>,
}

impl Cache {
    /// One that keeps so many.
    pub(super) const fn new(most: usize) -> Self {
        Self { most, places: Mutex::new(VecDeque::new()) }
    }

    /// The scenario of this key, loaded once however many ask for it.
    pub(super) fn get(&self, key: Key, load: impl FnOnce(&Key) -> Kept) -> Place {
        let (key, place) = {
            let mut places = self.places.lock().unwrap_or_else(PoisonError::into_inner);
            let found = places.iter().position(|(kept, _)| **kept == key).and_then(|at| places.remove(at));
            let own = found.unwrap_or_else(|| (Arc::new(key), Place::default()));
            places.push_front(own.clone());
            places.truncate(self.most);
            own
        };
        place.get_or_init(|| load(&key));
        place
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    #[test]
    fn a_scenario_is_loaded_once_while_it_is_kept() {
        let cache = Cache::new(2);
        let loads = Cell::new(0);
        let get = |text: &str, name: Option<&str>| {
            let key = Key { name: name.map(str::to_owned), text: text.to_owned(), files: BTreeMap::new() };
            let load = |own: &Key| {
                loads.set(loads.get() + 1);
                Err(vec![own.text.clone()])
            };
            assert_eq!(cache.get(key, load).get(), Some(&Err(vec![text.to_owned()])));
        };
        for text in ["a", "b", "a", "b"] {
            get(text, None);
        }
        assert_eq!(loads.get(), 2);
        get("a", Some("elsewhere.yaml"));
        get("b", None);
        get("a", None);
        assert_eq!(loads.get(), 4, "another file is another scenario, and the oldest goes");
    }
}
