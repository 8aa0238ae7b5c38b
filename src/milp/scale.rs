//! The objective brought to a size that solvers are made for.
//!
//! Their tolerances are absolute: where everything together is worth less than they look at, any choice is the best to
//! them. So a model whose largest gain is tiny is solved with all gains multiplied, by a power of two, which rounds nothing.

use crate::rows::Model;
use crate::{Answer, EngineError};
use std::borrow::Cow;

/// Models whose largest gain is below this are scaled up, to a largest gain from 1 to 2.
const SMALLEST: f64 = 4e-3;
/// Nothing is scaled by more: gains smaller still are rounding.
const MOST_STEPS: i32 = 100;

/// What gains are multiplied by.
pub(super) fn factor(model: &Model) -> f64 {
    let largest = model.columns.iter().map(|column| column.gain.abs()).fold(0.0, f64::max);
    if largest == 0.0 || largest >= SMALLEST || !largest.is_finite() {
        return 1.0;
    }
    #[allow(clippy::cast_possible_truncation, reason = "logarithms of floats are small")]
    let steps = -largest.log2().floor() as i32;
    2.0_f64.powi(steps.min(MOST_STEPS))
}

/// The model with gains multiplied.
pub(super) fn scaled(model: &Model, factor: f64) -> Cow<'_, Model> {
    #[allow(clippy::float_cmp, reason = "exactly one where nothing is to be done")]
    if factor == 1.0 {
        return Cow::Borrowed(model);
    }
    let mut scaled = model.clone();
    scaled.columns.iter_mut().for_each(|column| column.gain *= factor);
    Cow::Owned(scaled)
}

/// Solves the model at a good size.
pub(super) fn at_size(
    model: &Model,
    solve: impl FnOnce(&Model) -> Result<Answer, EngineError>,
) -> Result<Answer, EngineError> {
    let factor = factor(model);
    let answer = solve(&scaled(model, factor))?;
    Ok(Answer { objective: answer.objective / factor, bound: answer.bound / factor, ..answer })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with(gains: &[f64]) -> Model {
        let mut model = Model::default();
        gains.iter().for_each(|gain| _ = model.column(String::new(), (0.0, 1.0), true, *gain));
        model
    }

    #[test]
    fn only_tiny_gains_are_scaled_and_by_powers_of_two() {
        for gains in [&[][..], &[0.0], &[1e-9, 1.0], &[1e9], &[SMALLEST]] {
            assert!((factor(&with(gains)) - 1.0).abs() < f64::EPSILON, "{gains:?}");
        }
        for gain in [0.003_f64, 1e-5, -1e-9, 1e-12, 1e-29] {
            let factor = factor(&with(&[gain, gain / 7.0]));
            assert!((1.0..2.0).contains(&(gain.abs() * factor)), "{gain} {factor}");
            assert!((factor.log2() - factor.log2().round()).abs() < 1e-12);
        }
        assert!(factor(&with(&[1e-300])).is_finite());
    }
}
