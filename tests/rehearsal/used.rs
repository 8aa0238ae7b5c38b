//! Which things are counted as used, and how often.

use super::{agrees, bare, fault, one_stock, ride, stock, trouble};

/// One tool for two failures of means 0.7 and 0.4: so many repairs, on `1 - exp(-1.1)` of the trips.
#[test]
fn a_tool_is_used_on_as_many_trips_as_need_it() {
    let mut party = bare(2);
    let holder = stock(&mut party, 1);
    for (name, means) in [("one", [0.3, 0.4]), ("other", [0.4, 0.0])] {
        let trouble = trouble(&mut party, name);
        let mut own = fault(trouble, &means, &[]);
        own.repairs[0].items = vec![0];
        party.members[0].faults.push(own);
    }
    let tally = ride(&party);
    agrees(tally.share(tally.items[holder].trips), 1.0 - (-1.1_f64).exp(), 0.0);
    assert!((tally.each(tally.items[0].repairs) / 1.1 - 1.0).abs() < 0.01);
    assert_eq!(tally.items[0].repairs, tally.troubles[0].repaired + tally.troubles[1].repaired);
}

/// Two bottles of one and two units, and a funnel that both need: of N demands with mean 1.2 the first takes from the
/// first bottle, the second and third from the second. The funnel is used in every repair.
#[test]
fn holders_are_used_one_after_the_other() {
    let mut party = one_stock(1.2, 1);
    stock(&mut party, 2);
    let second = party.stocks.remove(1).holders[0];
    stock(&mut party, 0);
    party.stocks.remove(1);
    let (bottle, funnel) = (second.0, party.items.len() - 1);
    party.stocks[0].holders.push(second);
    party.stocks[0].units = 3;
    party.items[0].with = vec![funnel];
    party.items[bottle].with = vec![funnel];
    let tally = ride(&party);
    let none = (-1.2_f64).exp();
    agrees(tally.share(tally.items[0].trips), 1.0 - none, 0.0);
    agrees(tally.share(tally.items[bottle].trips), 1.0 - none * 2.2, 0.0);
    agrees(tally.share(tally.items[funnel].trips), 1.0 - none, 0.0);
    assert_eq!(tally.items[0].repairs, tally.items[0].trips, "it has but one unit");
    assert_eq!(tally.items[funnel].repairs, tally.stocks[0].used);
    assert_eq!(tally.items[0].repairs + tally.items[bottle].repairs, tally.stocks[0].used);
}

/// A roll that holds patches and ties both, and another like it: each repair takes a patch and a tie. It is one repair that
/// the roll takes part in, not two, also after the other has been begun.
#[test]
fn a_roll_of_two_stocks_is_used_once_in_a_repair() {
    let mut party = one_stock(0.9, 3);
    stock(&mut party, 3);
    let (first, second) = (0, 1);
    party.stocks[0].holders = vec![(first, 1), (second, 2)];
    party.stocks[1].holders = vec![(first, 1), (second, 2)];
    party.members[0].faults[0].repairs[0].uses = vec![(0, 1), (1, 1)];
    let tally = ride(&party);
    let repaired = tally.troubles[0].repaired;
    assert_eq!(tally.items[first].repairs + tally.items[second].repairs, repaired);
    assert_eq!(tally.items[first].repairs, tally.items[first].trips, "it is empty after one");
    agrees(tally.share(tally.items[second].trips), 1.0 - (-0.9_f64).exp() * 1.9, 0.0);
}

/// A repair that takes the tool that also holds what is used up takes it once.
#[test]
fn a_thing_that_serves_twice_in_a_repair_is_used_once() {
    let mut party = one_stock(0.8, 2);
    party.members[0].faults[0].repairs[0].items = vec![0];
    let tally = ride(&party);
    assert_eq!(tally.items[0].repairs, tally.stocks[0].used);
    agrees(tally.share(tally.items[0].trips), 1.0 - (-0.8_f64).exp(), 0.0);
}

/// A kit of more things than fit a machine word is counted like any other.
#[test]
fn a_large_kit_is_counted_like_a_small_one() {
    let mut party = bare(1);
    for at in 0..150 {
        stock(&mut party, 1);
        let trouble = trouble(&mut party, "worn");
        let mut own = fault(trouble, &[0.02], &[(at, 1)]);
        own.repairs[0].items = vec![149 - at];
        party.members[0].faults.push(own);
    }
    let tally = ride(&party);
    let repaired: u64 = tally.troubles.iter().map(|own| own.repaired).sum();
    assert_eq!(tally.items.iter().map(|own| own.repairs).sum::<u64>(), 2 * repaired);
    for (at, own) in tally.items.iter().enumerate() {
        let expected = tally.troubles[at].repaired + tally.troubles[149 - at].repaired;
        assert_eq!(own.repairs, expected, "item {at}");
        assert!(own.trips <= own.repairs && own.trips * 10 > own.repairs * 9);
    }
}
