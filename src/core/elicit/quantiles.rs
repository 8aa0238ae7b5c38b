//! What somebody thinks of a number, as three quantiles.

/// The values that a number does not exceed with chances of 5, 50 and 95 %; each above the one before.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quantiles {
    /// 5 %.
    pub low: f64,
    /// 50 %.
    pub best: f64,
    /// 95 %.
    pub high: f64,
}

/// What the intervals are brought to: nine cases in ten.
pub const LEVEL: f64 = 0.9;
/// Least distance between quantiles, as a share of the interval.
const APART: f64 = 1e-3;

impl Quantiles {
    /// From lowest, highest and best guess, and how sure somebody is that the truth lies between.
    ///
    /// Intervals of different confidence are brought to one by linear extrapolation about the best guess (Bedford & Cooke
    /// 2001, Probabilistic Risk Analysis; in the protocol of Hemming et al. 2018, step "Aggregate"):
    /// `low = best - (best - lowest) x 0.9 / confidence`, and the same upwards; not beyond what is possible. A best guess at
    /// an end of the interval is moved a thousandth of it away from there, since a distribution has no two quantiles in one
    /// place.
    #[must_use]
    pub fn of_interval((lowest, highest): (f64, f64), best: f64, confidence: f64, bounds: (f64, f64)) -> Self {
        let scale = LEVEL / confidence;
        let apart = APART * (highest - lowest);
        let low = (best - (best - lowest) * scale).max(bounds.0);
        let high = (best + (highest - best) * scale).min(bounds.1);
        let best =
            if high - low > 2.0 * apart { best.clamp(low + apart, high - apart) } else { f64::midpoint(low, high) };
        Self { low, best, high }
    }

    /// In which of the four parts a value lies.
    #[must_use]
    pub fn part(&self, value: f64) -> usize {
        [self.low, self.best, self.high].iter().filter(|end| value > **end).count()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 60 to 120, best 80, three in four sure. To nine in ten: 80 - 20 x 1.2 = 56 and 80 + 40 x 1.2 = 128.
    #[test]
    fn an_interval_is_stretched_about_the_best_guess() {
        let own = Quantiles::of_interval((60.0, 120.0), 80.0, 0.75, (0.0, f64::INFINITY));
        assert!((own.low - 56.0).abs() < 1e-9 && (own.high - 128.0).abs() < 1e-9 && (own.best - 80.0).abs() < 1e-9);
        let whole = Quantiles::of_interval((60.0, 120.0), 80.0, 1.0, (0.0, f64::INFINITY));
        assert!((whole.low - 62.0).abs() < 1e-9 && (whole.high - 116.0).abs() < 1e-9);
    }

    #[test]
    fn nothing_goes_beyond_what_is_possible() {
        let own = Quantiles::of_interval((0.0, 10.0), 0.0, 0.5, (0.0, 12.0));
        assert!(own.low >= 0.0 && own.low < own.best && own.best < own.high && own.high <= 12.0, "{own:?}");
    }

    #[test]
    fn parts_are_counted_from_below() {
        let own = Quantiles { low: 1.0, best: 2.0, high: 3.0 };
        assert_eq!([0.5, 1.0, 1.5, 2.5, 3.0, 3.5].map(|value| own.part(value)), [0, 0, 1, 2, 2, 3]);
    }
}
