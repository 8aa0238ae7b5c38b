//! Every sentence that counts has its singular and its plural.

use super::{Names, debrief, departure, notes, risks};
use fardel_core::answer::{Firm, FirmLine, Purchase, Remedy, RiskLine};
use fardel_core::units::{Currency, Hours, Money, UnitSystem};

/// No text says `1 things`, and none says `2 thing`.
fn sound(one: &str, many: &str) {
    for wrong in ["things", "kits", "ones", "troubles", "failures", "rides", "checks", "rates"] {
        assert!(!one.contains(&format!("1 {wrong}")), "{one}");
    }
    for wrong in ["thing", "kit", "one", "trouble", "failure", "ride", "check", "rate"] {
        let words: Vec<&str> = many.split([' ', ',', '.', ';', ':']).collect();
        assert!(!words.windows(2).any(|pair| pair == ["2", wrong]), "{many}");
    }
}

fn risk(name: &str) -> RiskLine {
    RiskLine {
        id: name.to_owned(),
        name: name.to_owned(),
        system: "tyres".to_owned(),
        outcome: "stops",
        mean: 0.1,
        hours_empty: Hours::new(1.0),
        hours_left: Hours::new(1.0),
        repairs: vec![("boot the cut".to_owned(), 1.0)],
        remedy: Remedy::NothingMore,
    }
}

#[test]
fn rows_that_are_left_out_are_counted() {
    let look = crate::Look { units: UnitSystem::Metric, width: 80 };
    let risks: Vec<RiskLine> = ["a", "b", "c"].map(risk).into();
    let section = risks::section(&risks, &Names::default(), &look);
    sound(&section.rest[1], &section.rest[2]);
    assert_eq!(section.rest[1], "1 smaller trouble");
    let bought =
        |name: &str, units: i64| Purchase { name: name.to_owned(), count: 1, price: Money::from_cents(units * 100) };
    let usd = Money::read("1 USD").map(|(_, currency): (_, Currency)| currency).unwrap();
    let section =
        notes::buying(&[bought("jump pack", 80), bought("tube", 18), bought("cord", 3)], usd, &Names::default());
    assert_eq!(section.title, "To buy, 101 USD in all");
    // What is left out is the cheapest, and its price is theirs.
    assert_eq!(section.rest[1..], ["1 more for 3 USD", "2 more for 21 USD", "3 more for 101 USD"]);
}

#[test]
fn sentences_count() {
    sound(&departure::rest(1), &departure::rest(2));
    assert!(departure::rest(1).contains("1 more that saves") && departure::rest(2).contains("2 more that save "));
    sound(&debrief::quiet(1), &debrief::quiet(2));
    let firm = |things| Firm {
        lines: vec![FirmLine { dial: fardel_core::answer::Dial::Help, range: (0.5, 2.0), trials: Vec::new() }],
        things,
        certain: 0,
        least_certain: Vec::new(),
    };
    for told in [crate::firm::in_short, crate::firm::firm] {
        sound(&told(&firm(1)).unwrap(), &told(&firm(2)).unwrap());
    }
}
