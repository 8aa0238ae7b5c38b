//! Rates drawn from their Gamma distributions, and seeds.

use super::{TRIPS, agrees, one_stock};
use fardel::rehearse::{Party, Plan, Tally, rehearse};

fn plan() -> Plan {
    Plan { trips: TRIPS, uncertain: true, ..Plan::default() }
}

fn ride(party: &Party) -> Tally {
    rehearse(party, &plan(), &|_| ())
}

/// A Poisson number whose rate is Gamma of shape a and mean m is negative binomial: none with `(a / (a + m))^a`, mean m,
/// variance `m + m^2 / a`.
#[test]
fn a_rate_from_its_gamma_gives_the_negative_binomial() {
    for (mean, shape) in [(0.6_f64, 0.4_f64), (0.6, 3.0), (2.0, 1.0)] {
        let mut party = one_stock(mean, 0);
        party.troubles[0].evidence = Some(shape);
        let tally = ride(&party);
        agrees(tally.hours_lost(), mean, 0.0);
        agrees(tally.share(tally.untroubled), (shape / (shape + mean)).powf(shape), 0.0);
        #[allow(clippy::cast_precision_loss)]
        let variance = tally.hours_lost().error.powi(2) * TRIPS as f64;
        let expected = mean + mean * mean / shape;
        assert!((variance / expected - 1.0).abs() < 0.03, "variance {variance}, expected {expected}");
    }
}

/// Members on the same sort of bike share what is not known about it: their failures come together.
#[test]
fn members_share_the_rate_that_is_drawn() {
    let mut party = one_stock(0.5, 0);
    party.troubles[0].evidence = Some(0.5);
    party.members.push(party.members[0].clone());
    let tally = ride(&party);
    agrees(tally.share(tally.untroubled), (0.5_f64 / 1.5).powf(0.5), 0.0);
}

/// Breakages in falls take part in the draw; falls themselves do not. Given the factor g, none breaks with
/// `exp(-m (1 - exp(-p g)))`; the mean over a Gamma of shape 1 is taken by a sum over its quantiles.
#[test]
fn breakages_in_falls_take_part_in_the_draw() {
    let (falls, each) = (1.1, 0.7);
    let mut party = one_stock(0.0, 0);
    party.members[0].falls = vec![falls];
    party.members[0].faults[0].per_fall = each;
    party.troubles[0].evidence = Some(1.0);
    let steps = 20_000;
    let given = |at: u32| {
        let factor = -(1.0 - (f64::from(at) + 0.5) / f64::from(steps)).ln();
        (-falls * (1.0 - (-each * factor).exp())).exp()
    };
    let expected = (0..steps).map(given).sum::<f64>() / f64::from(steps);
    let tally = ride(&party);
    agrees(tally.share(tally.untroubled), expected, 1e-4);
}

/// Riding and the falls of two riders share one rate, whatever it is; the falls themselves are as they are. With a factor
/// g of shape a, mean 1: the number of occurrences has mean `M = r + f p + f' p'` and variance
/// `M + M^2 / a + (f p^2 + f' p'^2) (1 + 1 / a)`, by the law of total variance.
#[test]
fn riding_and_all_falls_share_the_rate_that_is_drawn() {
    for (shape, spread) in [(0.8_f64, 0.04), (5.0, 0.02)] {
        let (riding, falls, each) = (0.5, [1.1, 0.6], [0.7, 1.2]);
        let mut party = one_stock(riding, 0);
        party.troubles[0].evidence = Some(shape);
        party.members.push(party.members[0].clone());
        party.members[1].faults[0].riding = vec![0.0];
        for (at, member) in party.members.iter_mut().enumerate() {
            member.falls = vec![falls[at]];
            member.faults[0].per_fall = each[at];
        }
        let tally = ride(&party);
        let mean = riding + falls[0] * each[0] + falls[1] * each[1];
        agrees(tally.hours_lost(), mean, 0.0);
        let squares = falls[0] * each[0] * each[0] + falls[1] * each[1] * each[1];
        let expected = mean + mean * mean / shape + squares * (1.0 + 1.0 / shape);
        #[allow(clippy::cast_precision_loss)]
        let variance = tally.hours_lost().error.powi(2) * TRIPS as f64;
        assert!((variance / expected - 1.0).abs() < spread, "variance {variance}, expected {expected}");
        assert!((tally.each(tally.falls) - 1.7).abs() < 0.01);
    }
}

/// Two things that one fall breaks come in either order equally often, also at rates that are drawn.
#[test]
fn what_a_fall_breaks_comes_in_any_order() {
    let mut party = one_stock(0.0, 1);
    party.members[0].falls = vec![0.9];
    let other = super::trouble(&mut party, "bent");
    let mut bent = party.members[0].faults[0].clone();
    bent.trouble = other;
    party.members[0].faults.push(bent);
    party.troubles.iter_mut().for_each(|trouble| trouble.evidence = Some(1.0));
    party.members[0].faults.iter_mut().for_each(|fault| fault.per_fall = 2.0);
    let tally = ride(&party);
    let [one, two] = [0, 1].map(|at| tally.share(tally.troubles[at].repaired));
    let apart = (one.mean - two.mean).abs();
    assert!(apart < 4.0 * (one.error.powi(2) + two.error.powi(2)).sqrt(), "{one:?}, {two:?}");
    assert!(one.mean > 0.2);
}

/// A rate of which next to nothing is known may come out enormous: what a trip cannot hold is left out, and memory holds.
#[test]
fn a_trip_holds_no_more_than_it_can() {
    let mut party = one_stock(1e6, 0);
    party.troubles[0].evidence = Some(1e-6);
    let tally = rehearse(&party, &Plan { trips: 100_000, ..plan() }, &|_| ());
    let troubled = tally.trips - tally.untroubled;
    assert!((1..20).contains(&troubled), "{troubled} trips with 3 expected");
    assert!(tally.breakdowns <= troubled * 10_000_000);
}

#[test]
fn a_rate_without_evidence_to_speak_of_is_taken_as_known() {
    let party = one_stock(0.7, 1);
    agrees(ride(&party).share(ride(&party).untroubled), (-0.7_f64).exp(), 0.0);
}

/// The same seed gives the same trips whatever the number of threads, and another seed others.
#[test]
fn threads_do_not_matter_and_seeds_do() {
    let mut party = one_stock(1.3, 1);
    party.members[0].falls = vec![0.9];
    party.members[0].faults[0].per_fall = 0.3;
    party.troubles[0].evidence = Some(2.0);
    for plan in [plan(), Plan { uncertain: false, ..plan() }, Plan { trips: 4097, ..plan() }] {
        let with = |threads: usize, plan: Plan| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| rehearse(&party, &plan, &|_| ()))
        };
        let one = with(1, plan);
        for threads in [2, 3, 8] {
            assert_eq!(one, with(threads, plan), "{threads} threads");
        }
        assert_ne!(one, with(1, Plan { seed: 2, ..plan }));
        assert_eq!(one.trips, plan.trips);
    }
}
