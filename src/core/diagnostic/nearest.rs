//! The known name that somebody most likely meant.

/// Longer names are not compared; nobody mistypes those.
const LONGEST: usize = 64;

/// The candidate closest to `name`: at most two edits away, or a third of the name's length; the first listed wins ties.
pub fn nearest<'a>(name: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<String> {
    let name = name.trim().to_lowercase();
    let length = name.chars().count();
    if length == 0 || length > LONGEST {
        return None;
    }
    let furthest = (length / 3).max(2).min(length.saturating_sub(1));
    let mut best: Option<(usize, &str)> = None;
    for candidate in candidates {
        if candidate.chars().count().abs_diff(length) > furthest {
            continue;
        }
        let edits = strsim::osa_distance(&name, &candidate.to_lowercase());
        if edits <= furthest && best.is_none_or(|(least, _)| edits < least) {
            best = Some((edits, candidate));
        }
    }
    best.map(|(_, candidate)| candidate.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_found_and_far_ones_are_not() {
        let known = ["patch-kit", "pump", "tyre-lever"];
        assert_eq!(nearest("pach-kit", known), Some("patch-kit".to_owned()));
        assert_eq!(nearest("Tyre-Levers", known), Some("tyre-lever".to_owned()));
        assert_eq!(nearest("tent", known), None);
        assert_eq!(nearest("", known), None);
    }

    #[test]
    fn ties_go_to_the_first_listed() {
        assert_eq!(nearest("hex 9 mm", ["hex 8 mm", "hex 7 mm"]), Some("hex 8 mm".to_owned()));
    }

    #[test]
    fn one_letter_is_not_mistaken_for_another() {
        assert_eq!(nearest("a", ["b"]), None);
    }
}
