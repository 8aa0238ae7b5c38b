//! Falls come first, and what they break depends on them.

use super::{HOUR, TRIPS, agrees, fault, one_stock, ride, trouble};
use fardel::rehearse::{Plan, Tally, rehearse};

/// With F falls of mean m and a Poisson number of breakages of mean p in each, nothing breaks with
/// `exp(-m (1 - exp(-p)))` (the generating function of a Poisson number), not with `exp(-m p)`: breakages come together.
#[test]
fn breakages_come_with_their_falls() {
    let (falls, each): (f64, f64) = (0.8, 0.9);
    let mut party = one_stock(0.0, 0);
    party.members[0].falls = vec![falls];
    party.members[0].faults[0].per_fall = each;
    let tally = ride(&party);
    agrees(tally.hours_lost(), falls * each, 0.0);
    agrees(tally.share(tally.untroubled), (-falls * (1.0 - (-each).exp())).exp(), 0.0);
    assert!(((-falls * each).exp() - tally.share(tally.untroubled).mean).abs() > 0.05, "not the same thing");
}

/// Only falls that the weight brings cost their own time.
#[test]
fn the_weight_pays_for_its_own_falls() {
    let mut party = one_stock(0.0, 0);
    party.members[0].falls = vec![1.25];
    party.members[0].owed_to_weight = 0.2;
    party.members[0].per_fall = 2 * HOUR;
    let tally = ride(&party);
    agrees(tally.hours_lost(), 1.25 * 0.2 * 2.0, 0.0);
    assert_eq!(tally.breakdowns, 0);
    assert!((tally.each(tally.falls) - 1.25).abs() < 0.01);
}

/// Breakages by falls and by riding draw on the same stock: mean 0.5 + 0.75 x 1, one unit, as in the printed loss table
/// of a Poisson demand with mean 1.25 (Cachon & Terwiesch) if every fall breaks one thing at most. A fall breaks a Poisson
/// number here, so the bound of that table is exceeded, and the exact value follows by enumeration.
#[test]
fn falls_and_riding_draw_on_one_stock() {
    let (falls, each): (f64, f64) = (0.75, 1.0);
    let mut party = one_stock(0.5, 1);
    let stock = 0;
    let crash = trouble(&mut party, "bent");
    let mut bent = fault(crash, &[0.0], &[(stock, 1)]);
    bent.per_fall = each;
    party.members[0].falls = vec![falls];
    party.members[0].faults.push(bent);
    let none = (-0.5 - falls * (1.0 - (-each).exp())).exp();
    // E[(N - 1)+] = E[N] - 1 + P(N = 0).
    agrees(ride(&party).hours_lost(), 1.25 - 1.0 + none, 0.0);
}

/// All sorts of falls in one: with time of their own or without, breaking nothing, one thing or more. Hours are a compound
/// Poisson sum with `F` falls of mean m: mean `m E[H]`, variance `m E[H^2]`, none with `exp(-m P(H > 0))`, where
/// `H = 2 B + N`, B is 1 with chance w and N is Poisson of mean p.
#[test]
fn falls_of_every_sort_add_up() {
    let (falls, weight, each) = (1.3_f64, 0.3_f64, 0.9_f64);
    let mut party = one_stock(0.0, 0);
    party.members[0].falls = vec![0.4 * falls, 0.6 * falls];
    party.days = vec![1.0; 2];
    party.members[0].owed_to_weight = weight;
    party.members[0].per_fall = 2 * HOUR;
    party.members[0].faults[0] = fault(0, &[0.0; 2], &[(0, 1)]);
    party.members[0].faults[0].per_fall = 0.25 * each;
    let other = trouble(&mut party, "bent");
    party.members[0].faults.push(fault(other, &[0.0; 2], &[(0, 1)]));
    party.members[0].faults[1].per_fall = 0.75 * each;
    for uncertain in [false, true] {
        // Without evidence, rates that are drawn are what they are, but each fall is drawn by itself.
        let tally = rehearse(&party, &Plan { trips: TRIPS, uncertain, ..Plan::default() }, &|_| ());
        falls_add_up(&tally, (falls, weight, each));
    }
}

#[track_caller]
fn falls_add_up(tally: &Tally, (falls, weight, each): (f64, f64, f64)) {
    let mean = 2.0 * weight + each;
    let square = 4.0 * weight * (1.0 - weight) + each + mean * mean;
    agrees(tally.hours_lost(), falls * mean, 0.0);
    let nothing = (1.0 - weight) * (-each).exp();
    agrees(tally.share(tally.hours.up_to(0)), (-falls * (1.0 - nothing)).exp(), 0.0);
    #[allow(clippy::cast_precision_loss)]
    let variance = tally.hours_lost().error.powi(2) * TRIPS as f64;
    assert!((variance / (falls * square) - 1.0).abs() < 0.02, "variance {variance}, expected {}", falls * square);
    assert!((tally.each(tally.falls) / falls - 1.0).abs() < 0.01);
    assert!((tally.each(tally.troubles[0].times) / (falls * 0.25 * each) - 1.0).abs() < 0.015);
    assert!((tally.each(tally.troubles[1].times) / (falls * 0.75 * each) - 1.0).abs() < 0.015);
}
