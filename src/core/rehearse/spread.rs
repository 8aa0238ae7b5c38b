//! How values spread, in a table whose size does not depend on how many there are.
//!
//! Small values are counted one by one, larger ones in classes 1/128 of their size wide, so a percentile is right to
//! within 0.4 %. Counts are whole numbers: tables can be added up in any order.

/// Classes in each doubling of the value.
const CLASSES: u64 = 128;
/// Values from here on, in microhours, share the last class.
const LARGEST: u64 = 1 << 62;

/// Counts of values by class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spread {
    counts: Vec<u64>,
    total: u64,
    largest: u64,
}

impl Default for Spread {
    fn default() -> Self {
        Self { counts: vec![0; class(LARGEST) + 1], total: 0, largest: 0 }
    }
}

/// Class of a value: itself up to 127, then 128 classes for each doubling.
fn class(value: u64) -> usize {
    let value = value.min(LARGEST);
    let class = if value < CLASSES {
        value
    } else {
        let doublings = u64::from((value / CLASSES).ilog2());
        CLASSES * (doublings + 1) + (value >> doublings) - CLASSES
    };
    usize::try_from(class).unwrap_or(usize::MAX)
}

/// Least value of a class, and that of the next.
fn limits(class: usize) -> (u64, u64) {
    let class = class as u64;
    if class < CLASSES {
        return (class, class + 1);
    }
    let doublings = class / CLASSES - 1;
    let least = (class % CLASSES + CLASSES) << doublings;
    (least, least + (1 << doublings))
}

impl Spread {
    /// Counts a value so many times.
    pub fn add(&mut self, value: u64, times: u64) {
        if times > 0 {
            self.counts[class(value)] += times;
            self.total += times;
            self.largest = self.largest.max(value);
        }
    }

    /// Counts all that another table has counted.
    pub fn merge(&mut self, other: &Self) {
        self.counts.iter_mut().zip(&other.counts).for_each(|(own, more)| *own += more);
        self.total += other.total;
        self.largest = self.largest.max(other.largest);
    }

    /// The largest value.
    #[must_use]
    pub const fn largest(&self) -> u64 {
        self.largest
    }

    /// How many values are at most so much, by whole classes.
    #[must_use]
    pub fn up_to(&self, value: u64) -> u64 {
        self.counts[..=class(value)].iter().sum()
    }

    /// The value that this share of all values does not exceed; 0 without any. Within a class, values are taken to lie
    /// evenly.
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "counts and values stay far below 2^53")]
    pub fn percentile(&self, share: f64) -> f64 {
        let wanted = (share.clamp(0.0, 1.0) * self.total as f64).max(1.0);
        let mut below = 0.0;
        for (class, count) in self.counts.iter().enumerate().filter(|(_, count)| **count > 0) {
            let count = *count as f64;
            if below + count >= wanted {
                let (least, next) = limits(class);
                if next == least + 1 {
                    return least as f64;
                }
                let value = least as f64 + (next - least) as f64 * (wanted - below) / count;
                return value.min(self.largest as f64);
            }
            below += count;
        }
        self.largest as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_follow_each_other_without_gap() {
        for at in 0..class(LARGEST) {
            let (least, next) = limits(at);
            assert_eq!((class(least), class(next - 1), class(next)), (at, at, at + 1));
            assert!(least < CLASSES || (next - least) * CLASSES <= least);
        }
        assert_eq!(class(u64::MAX), class(LARGEST));
    }

    #[test]
    fn percentiles_of_a_ruler() {
        let mut spread = Spread::default();
        (1..=100_000).for_each(|value| spread.add(value, 1));
        for share in [0.01, 0.1, 0.5, 0.9, 0.99] {
            let expected = share * 100_000.0;
            assert!((spread.percentile(share) / expected - 1.0).abs() < 0.004, "{share}");
        }
        assert!((spread.percentile(1.0) - 100_000.0).abs() < 1e-9);
        assert!(Spread::default().percentile(0.5).abs() < 1e-9);
    }

    #[test]
    fn tables_add_up() {
        let (mut one, mut other, mut all) = (Spread::default(), Spread::default(), Spread::default());
        for value in (0..5000).map(|at| at * at) {
            let times = 1 + value % 2;
            (if value % 3 == 0 { &mut one } else { &mut other }).add(value, times);
            (0..times).for_each(|_| all.add(value, 1));
        }
        one.merge(&other);
        assert_eq!(one, all);
        assert_eq!(all.up_to(0), 1);
    }
}
