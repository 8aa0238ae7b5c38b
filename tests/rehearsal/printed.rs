//! Closed forms and printed tables.

use super::{TRIPS, agrees, bare, fault, one_stock, ride, stock, trouble};
use fardel::rehearse::{Estimate, Plan, rehearse};
use fardel::units::Hours;

/// Mean hours are mean failures times hours; the chance of none is exp(-mean).
#[test]
fn a_single_failure_without_a_repair() {
    let tally = ride(&one_stock(0.7, 0));
    agrees(tally.hours_lost(), 0.7, 0.0);
    agrees(tally.self_recovery(), (-0.7_f64).exp(), 0.0);
    agrees(tally.share(tally.untroubled), (-0.7_f64).exp(), 0.0);
}

/// Cachon & Terwiesch, Matching Supply with Demand, statistics tutorial appendix: first-order loss `E[(X - s)+]` of a
/// Poisson demand with mean 1.25. Every demand that is not met costs one hour here.
#[test]
fn the_hours_that_one_stock_leaves_are_those_of_a_printed_loss_table() {
    for (units, loss) in [(0, 1.25000), (1, 0.53650), (2, 0.18114), (3, 0.04961)] {
        let tally = ride(&one_stock(1.25, units));
        agrees(tally.hours_lost(), loss, 5e-6);
        let met = tally.each(tally.stocks[0].used);
        assert!((met + tally.hours_lost().mean - tally.each(tally.breakdowns)).abs() < 1e-9, "met or lost");
        assert_eq!(tally.items[0].repairs, tally.stocks[0].used, "every unit came out of the one item");
    }
}

/// University of Southampton, worked exercise (EdShare 6744): demand of mean 3; 5 units suffice with 0.916 and meet
/// 2.8654 on average. Devore, Probability and Statistics, table A.2, for the other chances.
#[test]
fn the_chance_that_a_stock_suffices_is_that_of_the_cumulative_table() {
    let tally = ride(&one_stock(3.0, 5));
    agrees(tally.self_recovery(), 0.9161, 5e-5);
    agrees(tally.hours_lost(), 3.0 - 2.8654, 5e-5);
    for (mean, units, chance) in [(0.5, 0, 0.6065), (1.0, 1, 0.7358), (2.0, 3, 0.8571), (5.0, 7, 0.8666)] {
        agrees(ride(&one_stock(mean, units)).self_recovery(), chance, 5e-5);
    }
}

/// Blanchard, Logistics Engineering and Management: thirty parts, one failure in 10000 hours each, restocked every 90
/// days. Mean 6.48; 10 spares suffice with 0.9343, 11 with 0.9668.
#[test]
fn spares_for_thirty_machines() {
    for (spares, chance) in [(10, 0.9343), (11, 0.9668)] {
        agrees(ride(&one_stock(6.48, spares)).self_recovery(), chance, 5e-5);
    }
}

/// Nine part types for one workshop, after a home assignment in systems engineering (Enqvist, KTH SF2863, 2021): parts
/// fail at a rate and are away for repair for a time. Expected backorders of the best kits for three budgets, from a
/// course report by Patkhullaev and Axén (2021) and computed again by dynamic programming.
#[test]
fn the_spares_kit_of_a_published_exercise() {
    let rate = [50.0, 40.0, 45.0, 50.0, 25.0, 48.0, 60.0, 35.0, 15.0];
    let away = [6.0, 8.0, 14.0, 25.0, 12.0, 18.0, 33.0, 8.0, 12.0];
    let kits = [
        ([0, 0, 0, 0, 0, 0, 0, 0, 0], 6.1040),
        ([1, 1, 1, 2, 1, 0, 0, 0, 0], 3.7755),
        ([1, 1, 1, 2, 1, 1, 2, 1, 1], 1.3376),
        ([1, 2, 2, 2, 1, 2, 3, 1, 1], 0.6319),
    ];
    for (spares, backorders) in kits {
        let mut party = bare(1);
        for (part, units) in spares.into_iter().enumerate() {
            let (trouble, stock) = (trouble(&mut party, "part"), stock(&mut party, units));
            party.members[0].faults.push(fault(trouble, &[rate[part] * away[part] / 1000.0], &[(stock, 1)]));
        }
        agrees(ride(&party).hours_lost(), backorders, 5e-5);
    }
}

/// Barlow & Proschan as set in Trivedi, Probability and Statistics, section 6.4: three positions of means 2.6, 3.0 and
/// 2.4 with one common stock. 11 spares suffice with 0.8881, 12 with 0.9362. Three riders share a bag here.
#[test]
fn members_of_a_party_draw_on_one_stock() {
    for (spares, chance) in [(11, 0.8881), (12, 0.9362)] {
        let mut party = one_stock(2.6, spares);
        for mean in [3.0, 2.4] {
            let mut member = party.members[0].clone();
            member.faults[0].riding = vec![mean];
            party.members.push(member);
        }
        agrees(ride(&party).self_recovery(), chance, 5e-5);
    }
}

/// Compound Poisson of Kaas, Goovaerts, Dhaene & Denuit, Modern Actuarial Risk Theory, section 3.5: rate 4, jumps 1, 2, 3
/// with chances 1/4, 1/2, 1/4. P(U >= 5) = 0.7856, P(U >= 8) = 0.5080: a stock of one less is never too small.
#[test]
fn failures_that_take_several_units() {
    for (units, too_small) in [(4, 0.7856), (7, 0.5080)] {
        let mut party = bare(1);
        let stock = stock(&mut party, units);
        for (mean, each) in [(1.0, 1), (2.0, 2), (1.0, 3)] {
            let trouble = trouble(&mut party, "leak");
            party.members[0].faults.push(fault(trouble, &[mean], &[(stock, each)]));
        }
        let tally = ride(&party);
        agrees(tally.share(tally.stocks[0].short), too_small, 5e-5);
        agrees(tally.self_recovery(), 1.0 - too_small, 5e-5);
    }
}

/// Legs come in order: what the first leg uses up is lacking on the second. One unit, means 0.5 and 0.8: the second leg
/// meets a demand only if the first had none, `exp(-0.5) (1 - exp(-0.8))`.
#[test]
fn stock_is_used_up_in_order_of_time() {
    let mut party = bare(2);
    let stock = stock(&mut party, 1);
    let (first, second) = (trouble(&mut party, "first"), trouble(&mut party, "second"));
    party.members[0].faults = vec![fault(first, &[0.5, 0.0], &[(stock, 1)]), fault(second, &[0.0, 0.8], &[(stock, 1)])];
    let tally = ride(&party);
    agrees(tally.share(tally.troubles[1].repaired), (-0.5_f64).exp() * (1.0 - (-0.8_f64).exp()), 0.0);
    agrees(tally.share(tally.troubles[0].repaired), 1.0 - (-0.5_f64).exp(), 0.0);
}

/// Within a leg both come at random times: of two demands for one unit, either is the first equally often.
#[test]
fn within_a_leg_the_order_is_random() {
    let mut party = bare(1);
    let stock = stock(&mut party, 1);
    for name in ["one", "other"] {
        let trouble = trouble(&mut party, name);
        party.members[0].faults.push(fault(trouble, &[1.0], &[(stock, 1)]));
    }
    let tally = ride(&party);
    let chance = 0.5 * (1.0 - (-2.0_f64).exp());
    for own in &tally.troubles {
        agrees(tally.share(own.repaired), chance, 0.0);
    }
}

/// Where one repair is out of stock, the next best is done; where no repair is worth its time, help is waited for and
/// nobody is stranded.
#[test]
fn the_best_repair_left_is_done() {
    let mut party = one_stock(0.9, 1);
    let spare = stock(&mut party, 1);
    let mut second = party.members[0].faults[0].repairs[0].clone();
    (second.uses, second.costs) = (vec![(spare, 1)], vec![Some(600_000)]);
    let mut slow = second.clone();
    (slow.uses, slow.costs, slow.worth) = (Vec::new(), vec![Some(5_000_000)], vec![false]);
    party.members[0].faults[0].repairs.extend([slow, second]);
    let tally = ride(&party);
    // P(N = 0, 1, 2 ...): the first occurrence costs nothing, the second 0.6 h, all others an hour each.
    let none = (-0.9_f64).exp();
    let (two_or_more, beyond) = (1.0 - none * 1.9, 0.9 - 2.0 + none * (2.0 + 0.9));
    agrees(tally.hours_lost(), 0.6 * two_or_more + beyond, 0.0);
    assert_eq!((tally.stranded, tally.trips), (0, TRIPS), "the slow repair could always have been done");
}

/// A day that loses more than the hours in hand is a night out, and every further 24 hours another.
#[test]
fn nights_out_follow_from_the_hours_of_a_day() {
    for (hours, nights) in [(4, 0.0), (5, 1.0), (28, 1.0), (29, 2.0)] {
        let mut party = one_stock(0.01, 0);
        party.members[0].faults[0].unrepaired = vec![hours * super::HOUR];
        let tally = ride(&party);
        let chance: f64 = 1.0 - (-0.01_f64).exp();
        let found = tally.nights_out_each();
        // Two of them on one day are rare, and one day's delays add up.
        assert!((found.mean - nights * chance).abs() <= 4.0 * found.error + 2e-4, "{hours} h: {found:?}");
    }
}

/// As many hours as are in hand are no night out, whatever the binary form of the number.
#[test]
fn hours_in_hand_are_all_in_hand() {
    for hours in [4.1, 8.2, 16.4, 2.05] {
        let mut party = one_stock(0.01, 0);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let whole = (hours * 100.0_f64).round() as u64 * super::HOUR / 100;
        party.days = vec![1000.0];
        party.members[0].faults[0].unrepaired = vec![whole];
        let plan = Plan { trips: 20_000, in_hand: Hours::new(hours), ..Plan::default() };
        let tally = rehearse(&party, &plan, &|_| ());
        assert!(tally.breakdowns > 100);
        assert_eq!(tally.with_night_out, 0, "{hours} h");
    }
}

/// Twenty thousand stops of ten million hours each on a trip: sums stay sums, and the mean keeps its error.
#[test]
fn centuries_are_added_up_like_minutes() {
    let mut party = one_stock(20_000.0, 0);
    party.members[0].faults[0].unrepaired = vec![10_000_000 * super::HOUR];
    let tally = rehearse(&party, &Plan { trips: 2000, ..Plan::default() }, &|_| ());
    let lost = tally.hours_lost();
    assert!((lost.mean / 2e11 - 1.0).abs() < 0.001, "{lost:?}");
    let expected = 1e7 * (20_000.0_f64 / 2000.0).sqrt();
    assert!((lost.error / expected - 1.0).abs() < 0.1, "{lost:?}, not {expected}");
    let nights = tally.nights_out_each().mean;
    assert!((nights / (2e11 / 24.0) - 1.0).abs() < 0.001, "{nights} nights");
    let median = tally.hours_percentile(0.5).get();
    assert!((median / 2e11 - 1.0).abs() < 0.01, "{median}");
}

/// Losses on different days do not add up to a night out, those of one day do.
#[test]
fn a_day_ends_at_night() {
    let mut party = one_stock(2.0, 0);
    party.members[0].faults[0].unrepaired = vec![3 * super::HOUR];
    party.days = vec![2.0];
    let tally = ride(&party);
    // Each day has a Poisson number of mean 1; two or more on one day are more than four hours.
    let quiet = 2.0 * (-1.0_f64).exp();
    agrees(tally.share(tally.with_night_out), 1.0 - quiet * quiet, 0.0);
}

/// The standard error is that of the mean: for a Poisson number of mean m over n trips, the root of m / n.
#[test]
fn the_standard_error_is_right() {
    let Estimate { error, .. } = ride(&one_stock(1.25, 0)).hours_lost();
    #[allow(clippy::cast_precision_loss)]
    let expected = (1.25 / TRIPS as f64).sqrt();
    assert!((error / expected - 1.0).abs() < 0.01, "{error} against {expected}");
}

/// Hours are Poisson here, so the percentiles are those of the cumulative table.
#[test]
fn percentiles_are_those_of_the_cumulative_table() {
    let tally = ride(&one_stock(2.0, 0));
    for (share, hours) in [(0.1, 0.0), (0.3, 1.0), (0.5, 2.0), (0.8, 3.0), (0.93, 4.0), (0.99, 6.0)] {
        let found = tally.hours_percentile(share).get();
        assert!((found - hours).abs() <= 0.004 * hours, "{share}: {found} h, not {hours} h");
    }
}
