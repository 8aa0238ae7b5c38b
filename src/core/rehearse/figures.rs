//! Means, shares and their standard errors.

use super::party::PER_HOUR;
use super::tally::Tally;
use crate::units::Hours;
use schemars::JsonSchema;
use serde::Serialize;

/// A mean or a share over the trips, and how far it is to be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Estimate {
    /// The mean.
    pub mean: f64,
    /// Its standard error: two times out of three the true value is no further away than this.
    #[serde(rename = "standard_error")]
    pub error: f64,
}

impl Estimate {
    /// From a sum of values and a sum of their squares.
    fn new(trips: u64, sum: f64, squares: f64) -> Self {
        #[allow(clippy::cast_precision_loss, reason = "a count of trips")]
        let n = trips as f64;
        if n < 1.0 {
            return Self { mean: 0.0, error: 0.0 };
        }
        let mean = sum / n;
        let variance = if n > 1.0 { ((squares - sum * mean) / (n - 1.0)).max(0.0) } else { 0.0 };
        Self { mean, error: (variance / n).sqrt() }
    }
}

impl Estimate {
    /// For a share of so many trips: where the true value lies nineteen times out of twenty, also where the share is 0 or 1
    /// (score interval: Wilson, Journal of the American Statistical Association 22, 1927, pp. 209-212).
    #[must_use]
    pub fn between(&self, trips: u64) -> (f64, f64) {
        /// Standard deviations of a normal number that hold it nineteen times out of twenty.
        const Z: f64 = 1.959_964;
        #[allow(clippy::cast_precision_loss, reason = "a count of trips")]
        let n = (trips as f64).max(1.0);
        let middle = (self.mean + Z * Z / (2.0 * n)) / (1.0 + Z * Z / n);
        let spread =
            (self.mean * (1.0 - self.mean) / n + Z * Z / (4.0 * n * n)).max(0.0).sqrt() * Z / (1.0 + Z * Z / n);
        ((middle - spread).max(0.0), (middle + spread).min(1.0))
    }
}

#[allow(clippy::cast_precision_loss, reason = "counts stay far below 2^53; hours are given in six digits")]
impl Tally {
    /// Hours lost on a trip.
    #[must_use]
    pub fn hours_lost(&self) -> Estimate {
        let squares = self.lost_squared as f64 / (PER_HOUR * PER_HOUR);
        let by_world = self.worlds.lost as f64 / (PER_HOUR * PER_HOUR);
        self.estimate(self.lost as f64 / PER_HOUR, squares, by_world)
    }

    /// Hours that this share of trips does not lose.
    #[must_use]
    pub fn hours_percentile(&self, share: f64) -> Hours {
        Hours::new(self.hours.percentile(share) / PER_HOUR)
    }

    /// Most hours lost on any trip.
    #[must_use]
    pub fn hours_worst(&self) -> Hours {
        Hours::new(self.hours.largest() as f64 / PER_HOUR)
    }

    /// Share of trips on which no stop was left unrepaired.
    #[must_use]
    pub fn self_recovery(&self) -> Estimate {
        let stranded = self.estimate(self.stranded as f64, self.stranded as f64, self.worlds.stranded as f64);
        Estimate { mean: if self.trips > 0 { 1.0 - stranded.mean } else { 0.0 }, ..stranded }
    }

    /// Nights out on a trip.
    #[must_use]
    pub fn nights_out_each(&self) -> Estimate {
        self.estimate(self.nights_out as f64, self.nights_out_squared as f64, self.worlds.nights_out as f64)
    }

    /// Share of trips with a night out.
    #[must_use]
    pub fn night_out(&self) -> Estimate {
        let trips = self.with_night_out as f64;
        self.estimate(trips, trips, self.worlds.with_night_out as f64)
    }

    /// Share of trips on which nothing broke.
    #[must_use]
    pub fn without_trouble(&self) -> Estimate {
        let trips = self.untroubled as f64;
        self.estimate(trips, trips, self.worlds.untroubled as f64)
    }

    /// A mean over trips, from a sum, the sum of the squares over trips, and that of the squares over worlds if there are
    /// any: trips of one world are one observation.
    fn estimate(&self, sum: f64, squares: f64, by_world: f64) -> Estimate {
        if self.worlds.count == 0 {
            return Estimate::new(self.trips, sum, squares);
        }
        let each = self.worlds.count as f64 / (self.trips as f64).max(1.0);
        let of_world = Estimate::new(self.worlds.count, sum, by_world);
        Estimate { mean: of_world.mean * each, error: of_world.error * each }
    }

    /// So many trips as a share of all, where they were all ridden in one world.
    #[must_use]
    pub fn share(&self, trips: u64) -> Estimate {
        Estimate::new(self.trips, trips as f64, trips as f64)
    }

    /// So many of something for each trip.
    #[must_use]
    pub fn each(&self, count: u64) -> f64 {
        count as f64 / (self.trips as f64).max(1.0)
    }

    /// Hours for each trip, from a sum over all.
    #[must_use]
    pub fn hours_each(&self, lost: u128) -> Hours {
        Hours::new(lost as f64 / PER_HOUR / (self.trips as f64).max(1.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, method 3: 81 of 263, 15 of 148, 0 of 20, 1 of 29.
    #[test]
    fn the_score_interval_is_the_printed_one() {
        for (cases, of, low, high) in [
            (81_u32, 263_u32, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            let share = Estimate { mean: f64::from(cases) / f64::from(of), error: 0.0 };
            let (found_low, found_high) = share.between(of.into());
            assert!((found_low - low).abs() < 5e-5 && (found_high - high).abs() < 5e-5, "{cases} of {of}");
        }
    }
}
