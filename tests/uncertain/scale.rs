//! Which masses matter most to the shipped trips.

use fardel::answer::pack;
use fardel::domain::Catalogue;
use fardel::lint::SCALE_FIRST;
use fardel::load;
use fardel::milp::SolveOptions;
use fardel::uncertain::widths::{Quantity, within};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// Hours of all shipped trips that hang on how wrong each mass may be.
fn at_stake() -> Vec<(String, f64)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut hours: BTreeMap<String, f64> = BTreeMap::new();
    let files = fs::read_dir(folder).unwrap().map(|file| file.unwrap().path());
    for path in files.filter(|path| path.extension().is_some_and(|ending| ending == "yaml")) {
        let loaded = load::load(&path, None).unwrap_or_else(|faults| panic!("{faults}"));
        for rider in &loaded.scenario.riders {
            let options = SolveOptions { gap: 0.01, ..SolveOptions::default() };
            let Ok(answer) = pack(&loaded.catalogue, &loaded.scenario, rider, &options) else { continue };
            let kilogram = answer.prices.kilogram.hours();
            for (id, count) in answer.kit.iter() {
                *hours.entry(id.to_owned()).or_default() += stake(&loaded.catalogue, id, count) * kilogram;
            }
        }
    }
    let mut all: Vec<(String, f64)> = hours.into_iter().collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    all
}

fn stake(catalogue: &Catalogue, id: &str, count: u32) -> f64 {
    let item = &catalogue.items[id];
    item.mass.kilograms() * f64::from(count) * (within(Quantity::Mass, item.basis.kind) - 1.0)
}

/// The list in the program is what comes out, but for a few at its end: kits change a little with every rate.
#[test]
fn the_scale_is_asked_for_what_matters_most() {
    let all = at_stake();
    let now: Vec<&str> = all.iter().take(30).map(|(id, _)| id.as_str()).collect();
    let kept = SCALE_FIRST.iter().filter(|id| now.contains(id)).count();
    let first = SCALE_FIRST.iter().filter(|id| now[..10].contains(id)).count();
    assert!(kept >= 17 && first == 10, "{kept} of {SCALE_FIRST:?}, {first} of the first ten; now {now:?}");
}
