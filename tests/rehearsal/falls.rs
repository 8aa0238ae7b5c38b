//! Falls come first, and what they break depends on them.

use super::{HOUR, agrees, fault, one_stock, ride, trouble};

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
