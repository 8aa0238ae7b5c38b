//! One number that is not known well.

use super::quantile::gamma;
use super::widths::NINE_IN_TEN;
use crate::domain::BasisKind;

/// A number that is not known well.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// Which number it is.
    pub target: Target,
    /// What it rests on.
    pub basis: BasisKind,
    /// How far it may be off.
    pub law: Law,
    /// Numbers with the same name here have a common factor.
    pub together: Option<String>,
}

/// Which number of a case it is. Positions are those of the case.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Target {
    /// The rate of a failure, in all its parts.
    Rate(usize),
    /// The share that limping with it costs.
    Limps(usize),
    /// The hours that it nags.
    Nags(usize),
    /// The working time of a repair.
    Time(usize, usize),
    /// What a repair restores.
    Restores(usize, usize),
    /// Falls on a surface, by its place in [`Surface::ALL`](crate::domain::Surface::ALL).
    Falls(usize),
    /// How a rider falls beside others of the same skill.
    Skill(usize),
    /// What weight does to falls.
    LoadSensitivity,
    /// What a fall costs by itself.
    HoursPerFall,
    /// Hours to help on a leg, by its number.
    Help(usize),
    /// What weight does to riding.
    Weight,
    /// What an hour is worth.
    Hour,
    /// What packing a thing costs.
    Thing,
    /// Riding lost on a day on which the bike is fetched.
    RestOfDay,
    /// What being fetched costs in money.
    Recovery,
    /// What a night's lodging costs.
    Night,
    /// What is charged to a stranding beside the hours.
    Dread,
}

/// How a number is distributed about what the catalogue says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// Times a Gamma factor of this shape and mean 1: a rate whose evidence is worth so many events.
    Events(f64),
    /// Times a log-normal factor of mean 1, nine times out of ten within this factor of its median.
    Within(f64),
    /// A share whose odds are multiplied by a log-normal factor of median 1, nine times out of ten within this factor.
    Odds(f64),
}

impl Law {
    /// The factor, on the number itself or on the odds of a share, at this normal score.
    #[must_use]
    pub fn factor(self, score: f64) -> f64 {
        match self {
            Self::Events(shape) => gamma(shape, score),
            Self::Within(factor) => {
                let deviation = factor.ln() / NINE_IN_TEN;
                (deviation * score - deviation * deviation / 2.0).exp()
            }
            Self::Odds(factor) => (factor.ln() / NINE_IN_TEN * score).exp(),
        }
    }
}

/// A share after its odds are multiplied by a factor. Nothing and all stay what they are.
#[must_use]
pub(super) fn with_odds(share: f64, factor: f64) -> f64 {
    if share <= 0.0 || share >= 1.0 {
        return share;
    }
    share * factor / (1.0 - share + share * factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_factor_of_two_holds_nine_in_ten() {
        let law = Law::Within(2.0);
        let middle = law.factor(0.0);
        assert!((law.factor(NINE_IN_TEN) / middle - 2.0).abs() < 1e-12);
        assert!((middle / law.factor(-NINE_IN_TEN) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn odds_keep_a_share_a_share() {
        assert!((with_odds(0.9, 3.0) - 27.0 / 28.0).abs() < 1e-12);
        assert!((with_odds(0.25, 1.0) - 0.25).abs() < 1e-12);
        assert!(with_odds(1.0, 0.1) >= 1.0 && with_odds(0.0, 9.0) <= 0.0);
    }
}
