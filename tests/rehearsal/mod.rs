//! Does riding the trip many times agree with closed forms, printed tables and the optimiser?

mod command;
mod falls;
mod printed;
mod promised;
mod scenarios;
mod uncertain;
mod used;

use fardel::rehearse::party::{Aboard, Fault, Member, Mending, Stock, Trouble};
use fardel::rehearse::{Estimate, Party, Plan, Tally, rehearse};

/// One hour in the rehearsal's unit.
const HOUR: u64 = 1_000_000;
/// Trips of most tests.
const TRIPS: u64 = 400_000;

/// A trip of so many one-day legs, nothing aboard and nothing that can break.
fn bare(legs: usize) -> Party {
    let member = Member {
        name: "Ilka".to_owned(),
        falls: vec![0.0; legs],
        owed_to_weight: 0.0,
        per_fall: 0,
        faults: Vec::new(),
    };
    Party { days: vec![1.0; legs], members: vec![member], ..Party::default() }
}

/// Adds a failure that stops the bike; gives its number.
fn trouble(party: &mut Party, name: &str) -> usize {
    party.troubles.push(Trouble { id: name.to_owned(), name: name.to_owned(), stops: true, evidence: None });
    party.troubles.len() - 1
}

/// A fault that costs one hour, with a repair that costs nothing but takes units of a stock.
fn fault(trouble: usize, riding: &[f64], uses: &[(usize, u32)]) -> Fault {
    let legs = riding.len();
    let mending =
        Mending { uses: uses.to_vec(), items: Vec::new(), costs: vec![Some(0); legs], worth: vec![true; legs] };
    Fault { trouble, riding: riding.to_vec(), per_fall: 0.0, unrepaired: vec![HOUR; legs], repairs: vec![mending] }
}

/// Adds an item that holds so many units of a new stock; gives the number of the stock.
fn stock(party: &mut Party, units: u32) -> usize {
    let id = format!("stock {}", party.stocks.len());
    party.items.push(Aboard {
        id: id.clone(),
        name: id.clone(),
        count: 1,
        for_the_trip: false,
        asked_for: false,
        with: Vec::new(),
    });
    party.stocks.push(Stock { id, units, holders: vec![(party.items.len() - 1, units)] });
    party.stocks.len() - 1
}

/// One failure of this mean on a single leg, and so many units to mend it with.
fn one_stock(mean: f64, units: u32) -> Party {
    let mut party = bare(1);
    let (trouble, stock) = (trouble(&mut party, "worn"), stock(&mut party, units));
    party.members[0].faults.push(fault(trouble, &[mean], &[(stock, 1)]));
    party
}

fn ride(party: &Party) -> Tally {
    rehearse(party, &Plan { trips: TRIPS, ..Plan::default() }, &|_| ())
}

/// Within four standard errors, and the error is small enough to tell something.
#[track_caller]
fn agrees(found: Estimate, expected: f64, rounding: f64) {
    let apart = (found.mean - expected).abs();
    assert!(apart <= 4.0 * found.error + rounding, "found {found:?}, expected {expected}");
    assert!(found.error <= 0.01 * expected.max(0.1), "{found:?} tells nothing about {expected}");
}
