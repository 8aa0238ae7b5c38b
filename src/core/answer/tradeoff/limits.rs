//! Which limits to look at.

use crate::resolve::{Amount, Measure};

/// The limits of a curve.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Limits {
    /// So many, evenly from one to the other; what is not said is the least that needs take, and what is enough.
    Between {
        /// The lowest.
        from: Option<Amount>,
        /// The highest.
        to: Option<Amount>,
        /// How many.
        count: usize,
    },
    /// These.
    At(Vec<Amount>),
}

/// Limits reckoned by the program are round ones: 10 g, 10 mL, one unit of money.
const fn grain(measure: Measure) -> Amount {
    match measure {
        Measure::Mass | Measure::Volume => 10_000,
        Measure::Money => 100,
    }
}

/// The limits in rising order, and those asked for that are below the least. The case's own limit is among those that
/// are spread evenly.
pub(super) fn chosen(
    limits: &Limits,
    measure: Measure,
    own: Option<Amount>,
    (least, enough): (Amount, Amount),
) -> (Vec<Amount>, Vec<Amount>) {
    let mut all = match limits {
        Limits::At(limits) => limits.clone(),
        Limits::Between { from, to, count } => {
            // A curve that would begin below the least begins there.
            let from = from.unwrap_or(least).max(least);
            spread(from, to.unwrap_or_else(|| enough.max(from)).max(from), *count, grain(measure), own)
        }
    };
    all.sort_unstable();
    all.dedup();
    let too_low = all.iter().copied().filter(|limit| *limit < least).collect();
    all.retain(|limit| *limit >= least);
    (all, too_low)
}

fn spread(from: Amount, to: Amount, count: usize, grain: Amount, own: Option<Amount>) -> Vec<Amount> {
    let steps = Amount::try_from(count.max(2) - 1).unwrap_or(1);
    let inside = |step: Amount| {
        let exact = from + (to - from) / steps * step + (to - from) % steps * step / steps;
        ((exact + grain / 2) / grain * grain).clamp(from, to)
    };
    let mut all: Vec<Amount> = (1..steps).map(inside).collect();
    if let Some(own) = own.filter(|own| from < *own && *own < to)
        && let Some(nearest) = all.iter_mut().min_by_key(|limit| (**limit - own).abs())
    {
        *nearest = own;
    }
    all.extend([from, to]);
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_limits_with_the_riders_own_among_them() {
        let five = Limits::Between { from: None, to: None, count: 5 };
        let (limits, too_low) = chosen(&five, Measure::Mass, Some(3_000_000), (1_234_567, 4_765_432));
        assert_eq!(limits, [1_234_567, 2_120_000, 3_000_000, 3_880_000, 4_765_432]);
        assert!(too_low.is_empty());
        let (limits, too_low) = chosen(&Limits::At(vec![5, 9, 1, 9]), Measure::Money, None, (4, 9));
        assert_eq!((limits, too_low), (vec![5, 9], vec![1]));
    }

    #[test]
    fn nothing_between_leaves_one_point() {
        let many = Limits::Between { from: None, to: None, count: 24 };
        assert_eq!(chosen(&many, Measure::Money, None, (500, 500)).0, [500]);
    }
}
