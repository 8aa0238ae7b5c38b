//! The chance of getting home that is promised, where what stops the bike and what merely annoys share a stock.

use crate::support::{Failure, Item, Repair, World, close, fardel};

/// One unit of a stock; a failure that stops the bike and one that nags take it alike. Means and breakages in a fall.
fn shared(stops: (f64, f64), nags: (f64, f64), falls: f64) -> World {
    let mut world = World { falls, ..World::new() };
    let unit = |n| vec![("stock".to_owned(), n)];
    world.items.push(Item { id: "part".to_owned(), volume_ml: 1, at_most: 1, holds: unit(1), ..Item::default() });
    let repair = || vec![Repair { uses: unit(1), restores: 1.0, ..Repair::default() }];
    for (id, (mean, per_fall), nags_h) in [("stop", stops, None), ("nuisance", nags, Some(0.5))] {
        world.failures.push(Failure { id: id.to_owned(), mean, nags_h, per_fall, repairs: repair() });
    }
    world.always = vec![("part".to_owned(), 1)];
    world
}

/// What is promised, and the chance that was ridden with its standard error.
fn home(world: &World) -> (f64, f64, f64) {
    let folder = tempfile::tempdir().unwrap();
    world.write(folder.path());
    let answer = fardel(folder.path(), &["pack", "trip.yaml", "--catalogues", "catalogue", "--format", "json"]).json();
    let figures = &answer["figures"];
    let number = |value: &serde_json::Value| value.as_f64().unwrap();
    let ridden = &figures["self_recovery"];
    (number(&figures["self_recovery_at_least"]), number(&ridden["mean"]), number(&ridden["standard_error"]))
}

/// By hand: a stop with mean s = 0.1, a nuisance with mean 1. The unit suffices for all with `e^-1.1 (1 + 1.1)`; without the
/// stop, too many nuisances do no harm: `e^-0.1 (1 - 2 e^-1)` more. The truth: no stop, or one before the first nuisance,
/// `e^-s (1 + s (1 - e^-1))`. Kept for the stop alone the unit would promise `e^-0.1 (1 + 0.1)`, which is too much.
#[test]
fn a_nuisance_may_have_used_up_what_a_stop_needs() {
    let (promised, ridden, error) = home(&shared((0.1, 0.0), (1.0, 0.0), 0.0));
    let (s, e) = (0.1_f64, (-1.0_f64).exp());
    close(promised, 2.1 * (-1.1_f64).exp() + (-s).exp() * (1.0 - 2.0 * e), 1e-9);
    close(ridden, (-s).exp() * (1.0 + s * (1.0 - e)), 4.0 * error);
    assert!(promised <= ridden + 4.0 * error && ridden + 4.0 * error < (-s).exp() * (1.0 + s));
}

/// By hand: two falls, each of which breaks a Poisson number of both sorts, with means 0.1 and 0.4, together 0.5. All that is
/// drawn is of Neyman's type A: `P(0) = exp(2 (e^-0.5 - 1))` and `P(1) = 2 x 0.5 e^-0.5 P(0)`. No fall causes a stop with
/// `exp(2 (e^-0.1 - 1))`; then there are `2 e^-0.1` falls, which break nuisances alone.
#[test]
fn what_a_fall_breaks_together_is_promised_together() {
    let (promised, ridden, error) = home(&shared((0.0, 0.1), (0.0, 0.4), 2.0));
    let at_most_one = |falls: f64, each: f64| {
        let none = (falls * ((-each).exp() - 1.0)).exp();
        none * (1.0 + falls * each * (-each).exp())
    };
    let spared = (-0.1_f64).exp();
    let no_stop = (2.0 * (spared - 1.0)).exp();
    close(promised, at_most_one(2.0, 0.5) + no_stop * (1.0 - at_most_one(2.0 * spared, 0.4)), 1e-9);
    assert!(promised <= ridden + 4.0 * error, "{promised} promised, {ridden} ridden");
}
