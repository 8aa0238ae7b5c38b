//! Gains against closed forms: two kits, one of which is sure.

use super::*;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rand_distr::{Distribution, StandardNormal};

/// Two kits. The first loses nothing; the second loses `m + b x + c y`, with `x` and `y` standard normal. Without knowledge
/// the first is as good as `min(0, m)` says; knowing `x`, the gain is the unit normal loss of the textbooks (Raiffa &
/// Schlaifer 1961, Applied Statistical Decision Theory, section 5.4): `b G(|m| / b)`, `G(u) = phi(u) - u (1 - Phi(u))`.
#[allow(clippy::many_single_char_names, reason = "the letters of the formula")]
fn two_kits(draws: usize, (m, b, c): (f64, f64, f64), seed: u64) -> (Losses, Vec<f64>, Vec<f64>) {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut normal = || -> f64 { StandardNormal.sample(&mut rng) };
    let (mut losses, mut xs, mut ys) = (Vec::new(), Vec::new(), Vec::new());
    for _ in 0..draws {
        let (x, y) = (normal(), normal());
        losses.push(vec![5.0, 5.0 + m + b * x + c * y]);
        xs.push(x);
        ys.push(y);
    }
    (Losses::new(losses), xs, ys)
}

fn unit_normal_loss(u: f64) -> f64 {
    let density = (-u * u / 2.0).exp() / std::f64::consts::TAU.sqrt();
    density - u * Normal::standard().sf(u)
}

#[track_caller]
fn agrees(gain: Gain, expected: f64) {
    assert!((gain.hours - expected).abs() < 4.0 * gain.error + 1e-3, "{gain:?} against {expected}");
}

#[test]
fn two_kits_in_closed_form() {
    for (m, b, c) in [(0.0, 1.0, 1.0), (0.5, 1.0, 0.5), (-0.7, 0.6, 1.4)] {
        let (losses, xs, ys) = two_kits(40_000, (m, b, c), 7);
        agrees(losses.partial(&xs), b * unit_normal_loss(m.abs() / b));
        agrees(losses.partial(&ys), c * unit_normal_loss(m.abs() / c));
        let both = b.hypot(c);
        agrees(losses.perfect(), both * unit_normal_loss(m.abs() / both));
    }
    // The printed table of the unit normal loss: G(0) = 0.3989, G(0.5) = 0.1978, G(1) = 0.08332.
    for (u, printed) in [(0.0, 0.3989), (0.5, 0.1978), (1.0, 0.083_32)] {
        assert!((unit_normal_loss(u) - printed).abs() < 6e-5);
    }
}

/// A rate: the second kit saves `k g` for a cost of 1, `g` exponential of mean 1 (a Gamma of shape 1). It pays where `g` is
/// above `1 / k`. With `k < 1` the gain is `E[max(0, k g - 1)] = k exp(-1 / k)`.
#[test]
fn a_rate_in_closed_form() {
    let k = 0.8_f64;
    let mut rng = ChaCha8Rng::seed_from_u64(3);
    let rates: Vec<f64> = (0..40_000).map(|_| rand_distr::Exp1.sample(&mut rng)).collect();
    let losses = Losses::new(rates.iter().map(|g| vec![0.0, 1.0 - k * g]).collect());
    agrees(losses.partial(&rates), k * (-1.0 / k).exp());
}

/// Whoever knows what does not matter gains nothing, on average; and the best of many such is not sure.
#[test]
fn what_does_not_matter_is_worth_nothing() {
    let (losses, ..) = two_kits(2_000, (0.1, 1.0, 1.0), 11);
    let mut rng = ChaCha8Rng::seed_from_u64(12);
    let gains: Vec<Gain> = (0..200)
        .map(|_| {
            let idle: Vec<f64> = (0..2_000).map(|_| StandardNormal.sample(&mut rng)).collect();
            losses.partial(&idle)
        })
        .collect();
    let mean = gains.iter().map(|gain| gain.hours).sum::<f64>() / 200.0;
    assert!(mean < 0.005, "{mean}");
    assert!(gains.iter().filter(|gain| gain.is_sure(3.0)).count() <= 1);
}

/// Four times the draws, half the error.
#[test]
fn more_draws_shrink_the_error() {
    let few = two_kits(2_000, (0.3, 1.0, 1.0), 5);
    let many = two_kits(32_000, (0.3, 1.0, 1.0), 5);
    let ratio = few.0.partial(&few.1).error / many.0.partial(&many.1).error;
    assert!((3.4..4.6).contains(&ratio), "{ratio}");
}

#[test]
fn one_kit_or_no_spread_is_no_question() {
    let alone = Losses::new(vec![vec![1.0]; 400]);
    assert!(alone.partial(&vec![1.0; 400]).hours.abs() < 1e-12 && alone.perfect().hours.abs() < 1e-12);
    let (losses, ..) = two_kits(400, (0.3, 1.0, 1.0), 5);
    let same = losses.partial(&vec![2.0; 400]);
    assert!(same.hours.abs() < 1e-12 && same.error.abs() < 1e-12, "{same:?}");
}
