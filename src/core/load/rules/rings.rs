//! Finding functions that are each had from the other, without recursion: a hostile file may chain thousands.

use crate::domain::{Function, Map};

/// Every ring found, each as the names along it. Overlapping rings are told one at a time.
pub(super) fn rings(functions: &Map<Function>) -> Vec<Vec<String>> {
    let next: Vec<Vec<usize>> = functions.values().map(|function| parts(function, functions)).collect();
    let mut open = after_pruning(&next);
    let mut found = Vec::new();
    for start in 0..next.len() {
        while open[start] {
            let ring = walk(start, &next, &open);
            for at in &ring {
                open[*at] = false;
            }
            // Somebody who only depends on a ring is not in it.
            let in_ring = ring.contains(&start);
            if ring.is_empty() || !in_ring {
                open[start] = false;
            }
            found.push(ring);
        }
    }
    let name = |at: usize| functions.get_index(at).map(|(id, _)| id.clone());
    let named = found.into_iter().map(|ring| ring.into_iter().filter_map(name).collect::<Vec<_>>());
    named.filter(|ring| !ring.is_empty()).collect()
}

fn parts(function: &Function, functions: &Map<Function>) -> Vec<usize> {
    function.also_from.iter().flatten().filter_map(|part| functions.get_index_of(part)).collect()
}

/// Takes away, again and again, whatever depends on nothing that is left; rings and what hangs on them stay.
fn after_pruning(next: &[Vec<usize>]) -> Vec<bool> {
    let mut waits: Vec<usize> = next.iter().map(Vec::len).collect();
    let mut users: Vec<Vec<usize>> = vec![Vec::new(); next.len()];
    for (at, parts) in next.iter().enumerate() {
        for part in parts {
            users[*part].push(at);
        }
    }
    let mut open = vec![true; next.len()];
    let mut ready: Vec<usize> = (0..next.len()).filter(|at| waits[*at] == 0).collect();
    while let Some(at) = ready.pop() {
        open[at] = false;
        for user in &users[at] {
            waits[*user] -= 1;
            if waits[*user] == 0 {
                ready.push(*user);
            }
        }
    }
    open
}

/// Follows open parts until one comes twice; what lies between is the ring. Empty when the trail ends.
fn walk(start: usize, next: &[Vec<usize>], open: &[bool]) -> Vec<usize> {
    let mut order = vec![None; next.len()];
    let mut trail = Vec::new();
    let mut at = start;
    loop {
        if let Some(first) = order[at] {
            return trail.split_off(first);
        }
        order[at] = Some(trail.len());
        trail.push(at);
        let Some(onwards) = next[at].iter().find(|part| open[**part]) else { return Vec::new() };
        at = *onwards;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn functions(edges: &[(&str, &[&str])]) -> Map<Function> {
        let one = |(id, parts): &(&str, &[&str])| {
            let also_from = parts.iter().map(|part| vec![(*part).to_owned()]).collect();
            ((*id).to_owned(), Function { name: (*id).to_owned(), also_from })
        };
        edges.iter().map(one).collect()
    }

    #[test]
    fn a_ring_is_found_and_what_hangs_on_it_is_not_in_it() {
        let found = rings(&functions(&[("x", &["a"]), ("a", &["b"]), ("b", &["a"]), ("c", &[])]));
        assert_eq!(found, [["a", "b"]]);
    }

    #[test]
    fn no_ring_in_a_diamond_and_one_in_a_self_reference() {
        assert!(rings(&functions(&[("a", &["b", "c"]), ("b", &["d"]), ("c", &["d"]), ("d", &[])])).is_empty());
        assert_eq!(rings(&functions(&[("a", &["a"])])), [["a"]]);
    }
}
