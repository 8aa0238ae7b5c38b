//! Food energy by the general Atwater factors: protein 4, fat 9, carbohydrate 4 kcal/g (FAO Food and Nutrition Paper 77).

use super::{SHIPPED, leading_number};
use fardel::domain::Kind;

/// Grams of a part named in the basis: `110 g protein`.
fn grams(basis: &str, part: &str) -> f64 {
    let (before, _) = basis.split_once(&format!(" g {part}")).unwrap_or_else(|| panic!("no {part} in `{basis}`"));
    leading_number(before.rsplit(' ').next().unwrap_or_default())
}

/// Stated energy is that of the stated composition, within 1 %; the parts weigh no more than the thing; the whole lies
/// within 1 to 6 kcal/g (common practice, no source: fresh 1 to 2, dried 4 to 5, nuts and bars to 6).
#[test]
fn food_gives_the_energy_of_what_is_in_it() {
    let mut count = 0;
    for item in SHIPPED.items.values().filter(|item| item.kind == Kind::Food && item.meets.contains_key("food")) {
        let note = &item.basis.note;
        let (protein, fat, carbohydrate) = (grams(note, "protein"), grams(note, "fat"), grams(note, "carbohydrate"));
        let energy = 4.0 * protein + 9.0 * fat + 4.0 * carbohydrate;
        let stated = item.meets["food"].amount;
        assert!((stated - energy).abs() <= 0.01 * energy, "{}: {stated} kcal against {energy}", item.id);
        assert!(protein + fat + carbohydrate <= item.mass.grams(), "{}", item.id);
        assert!((1.0..=6.0).contains(&(stated / item.mass.grams())), "{}", item.id);
        count += 1;
    }
    assert!(count >= 3);
}
