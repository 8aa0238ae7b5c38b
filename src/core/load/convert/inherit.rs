//! Resolving `like`.

use super::Entry;
use crate::diagnostic::{Code, quoted};
use crate::domain::Map;
use crate::load::file::Inherit;
use crate::load::findings::Findings;
use fardel_words::say;

/// Longest chain of entries that are like each other; people lose track long before.
const LONGEST: usize = 16;

/// The shape with everything inherited, and whether something it inherits from is broken.
pub(super) fn resolved<T: Inherit>(id: &str, all: &Map<Entry<T>>, findings: &mut Findings) -> Option<(T, bool)> {
    let entry = all.get(id)?;
    let mut shape = entry.shape.clone();
    let mut seen = vec![id];
    let mut at = entry;
    let mut lenient = false;
    while let Some(like) = at.shape.like() {
        let Some((name, base)) = all.get_key_value(like) else {
            tell_unknown(like, entry, at, all, findings);
            return Some((shape, true));
        };
        let ring = seen.contains(&name.as_str());
        if ring || seen.len() > LONGEST {
            let (found, expected) = if seen.len() > LONGEST {
                (say!("a very long chain of `like`"), say!("a chain of `like` with at most {LONGEST} links"))
            } else {
                (quoted(&format!("{} -> {name}", seen.join(" -> "))), say!("a chain of `like` that ends"))
            };
            findings.add(Code::BrokenLike, &entry.place.key("like"), found, expected, None);
            return Some((shape, true));
        }
        seen.push(name);
        lenient |= findings.is_spoilt_below(&base.place);
        shape.inherit(&base.shape);
        at = base;
    }
    Some((shape, lenient))
}

/// Told once, at the entry that has the broken `like` itself.
fn tell_unknown<T>(like: &str, entry: &Entry<T>, at: &Entry<T>, all: &Map<Entry<T>>, findings: &mut Findings) {
    if !std::ptr::eq(entry, at) || findings.blind() || is_broken(like, entry, findings) {
        return;
    }
    let near = findings.nearest(&entry.place, like, all.keys().map(String::as_str));
    let expected = say!("the name of another entry of this section");
    findings.add(Code::BrokenLike, &entry.place.key("like"), quoted(like), expected, near);
}

/// Does some file have an entry of that name that could not be read?
fn is_broken<T>(like: &str, entry: &Entry<T>, findings: &Findings) -> bool {
    let mut path = entry.place.path.clone();
    path.0.pop();
    findings.is_spoilt_anywhere(&path.key(like))
}
