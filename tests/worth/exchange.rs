//! Answers in the rider's own currency.

use crate::support::pack_with;
use fardel::answer::PackAnswer;
use fardel::load::Loaded;
use fardel::milp::Engine;

const TRIP: &str = include_str!("../../scenarios/day-ride.yaml");

fn loaded(money: &str) -> Result<Loaded, String> {
    let folder = tempfile::tempdir().expect("a folder for the trip");
    let path = folder.path().join("trip.yaml");
    std::fs::write(&path, format!("{TRIP}\n{money}\n")).expect("a file for the trip");
    fardel::load::load(&path, None).map_err(|faults| faults.to_string())
}

fn packed(money: &str) -> PackAnswer {
    pack_with(&loaded(money).unwrap(), Engine::Microlp).expect("a kit")
}

#[test]
fn another_currency_changes_amounts_of_money_and_nothing_else() {
    let (before, after) = (packed(""), packed("money: { in: NZD, rates: { USD: 2 }, day: 2026-11-20 }"));
    assert_eq!((&before.kit, before.figures.hours_lost), (&after.kit, after.figures.hours_lost));
    assert_eq!(after.totals.currency.to_string(), "NZD");
    assert_eq!(after.totals.to_buy.cents(), 2 * before.totals.to_buy.cents());
    assert!(before.totals.to_buy.cents() > 0, "something is bought");
}

#[test]
fn the_rate_and_its_day_are_told() {
    let notes = loaded("money: { in: NZD, rates: { USD: 1.7 }, day: 2026-11-20 }").unwrap().notes;
    assert!(notes.contains(&"1 USD counts as 1.7 NZD, the rate of 2026-11-20".to_owned()), "{notes:?}");
}

#[test]
fn what_is_missing_or_wrong_is_told_once() {
    for (money, wanted) in [
        ("money: { rates: { USD: 2 }, day: 2026-11-20 }", "no `in`"),
        ("money: { in: NZD, rates: { USD: 2 } }", "no `day`"),
        ("money: { in: NZD, rates: { USD: 0 }, day: 2026-11-20 }", "a rate above 0"),
        ("money: { in: NZD, rates: { dollars: 2 }, day: 2026-11-20 }", "three capital letters"),
        ("money: { in: NZD, rates: { USD: 2 }, day: yesterday }", "a day such as"),
    ] {
        let told = loaded(money).unwrap_err();
        assert!(told.contains(wanted), "{money}:\n{told}");
        assert!(told.contains("1 problem in 1 file"), "{money}:\n{told}");
    }
}
