//! Metres climbed, from heights that err.
//!
//! Satellite heights wander by some metres from point to point, and each small rise would count. So heights are averaged
//! over 150 m of way first, then rises and falls of less than 3 m are taken out (common practice, no source). Both treat the
//! two directions alike: what is climbed one way is descended the other.

/// Way over which heights are averaged, in metres.
const WINDOW: f64 = 150.0;
/// Rises and falls that are not counted, in metres.
const BAND: f64 = 3.0;

/// Heights along the way, and the climb up to each of them.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Heights {
    /// Metres from the start and metres above the sea, as read.
    raw: Vec<(f64, f64)>,
    /// Metres from the start, climbed and descended up to there.
    climbed: Vec<(f64, f64, f64)>,
}

impl Heights {
    /// From metres along the way, rising, and heights there.
    #[must_use]
    pub fn new(raw: Vec<(f64, f64)>) -> Self {
        let turns = turns(&averaged(&raw));
        let mut climbed: Vec<(f64, f64, f64)> = Vec::with_capacity(turns.len());
        for (at, (metres, height)) in turns.iter().enumerate() {
            let (up, down) = climbed.last().map_or((0.0, 0.0), |(_, up, down)| (*up, *down));
            let rise = height - at.checked_sub(1).map_or(*height, |before| turns[before].1);
            climbed.push((*metres, up + rise.max(0.0), down + (-rise).max(0.0)));
        }
        Self { raw, climbed }
    }

    /// Metres climbed and descended between two places along the way; none without heights.
    #[must_use]
    pub fn climb(&self, from: f64, to: f64) -> Option<(f64, f64)> {
        let up = self.climbed.iter().map(|(at, up, _)| (*at, *up)).collect::<Vec<_>>();
        let down = self.climbed.iter().map(|(at, _, down)| (*at, *down)).collect::<Vec<_>>();
        let between = |known: &[(f64, f64)]| Some(at(known, to)? - at(known, from)?);
        between(&up).zip(between(&down))
    }

    /// The height at a place along the way.
    #[must_use]
    pub fn height(&self, metres: f64) -> Option<f64> {
        at(&self.raw, metres)
    }

    /// The lowest and the highest between two places along the way.
    #[must_use]
    pub fn range(&self, from: f64, to: f64) -> Option<(f64, f64)> {
        let between = self.raw.iter().filter(|(at, _)| (from..=to).contains(at)).map(|(_, height)| *height);
        let ends = [self.height(from), self.height(to)].into_iter().flatten();
        between.chain(ends).fold(None, |range, height| {
            let (low, high) = range.unwrap_or((height, height));
            Some((low.min(height), high.max(height)))
        })
    }
}

/// A value between those that are known; before the first and after the last it is theirs.
fn at(known: &[(f64, f64)], metres: f64) -> Option<f64> {
    let after = known.partition_point(|(at, _)| *at < metres);
    let (end, start) = (known.get(after), after.checked_sub(1).and_then(|before| known.get(before)));
    match (start, end) {
        (Some((from, low)), Some((to, high))) if to > from => Some(low + (high - low) * (metres - from) / (to - from)),
        (_, Some((_, value))) | (Some((_, value)), None) => Some(*value),
        (None, None) => None,
    }
}

/// Each height as the mean of those within half a window of it.
fn averaged(raw: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let (mut first, mut last, mut sum, mut count) = (0, 0, 0.0, 0.0);
    let mean = |(at, _): &(f64, f64)| {
        while last < raw.len() && raw[last].0 <= at + WINDOW / 2.0 {
            (sum, count, last) = (sum + raw[last].1, count + 1.0, last + 1);
        }
        while first < last && raw[first].0 < at - WINDOW / 2.0 {
            (sum, count, first) = (sum - raw[first].1, count - 1.0, first + 1);
        }
        (*at, sum / f64::max(count, 1.0))
    };
    raw.iter().map(mean).collect()
}

/// The heights between which the way only rises or only falls, small rises and falls left out: of four in a row the
/// middle two go where the step between them is small and no larger than those before and after it.
fn turns(heights: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut kept: Vec<(f64, f64)> = Vec::new();
    for height in heights {
        if let [.., before, last] = kept.as_slice()
            && (last.1 - before.1) * (height.1 - last.1) >= 0.0
        {
            kept.pop();
        }
        kept.push(*height);
        while let [.., a, b, c, d] = kept.as_slice() {
            let step = (c.1 - b.1).abs();
            if step >= BAND || step > (b.1 - a.1).abs() || step > (d.1 - c.1).abs() {
                break;
            }
            let end = *d;
            kept.truncate(kept.len() - 3);
            kept.push(end);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    fn every_ten_metres(heights: impl IntoIterator<Item = f64>) -> Heights {
        Heights::new((0..).map(|at| f64::from(at) * 10.0).zip(heights).collect())
    }

    #[test]
    fn a_hill_is_its_height() {
        let hill = every_ten_metres((0..=200).chain((0..200).rev()).map(f64::from));
        let (up, down) = hill.climb(0.0, 4000.0).unwrap();
        // The top and the ends are flattened by a quarter of the window.
        assert!((up - 200.0).abs() < 10.0 && (down - up).abs() < 1e-9, "{up} {down}");
    }

    #[test]
    fn noise_is_no_climb() {
        let mut random = fastrand::Rng::with_seed(3);
        let flat = every_ten_metres((0..10_000).map(|_| 500.0 + random.f64() * 6.0 - 3.0));
        let (up, down) = flat.climb(0.0, 100_000.0).unwrap();
        assert!(up < 30.0 && down < 30.0, "{up} {down} in 100 km: without smoothing it is ten thousand");
    }

    #[test]
    fn up_is_down_the_other_way_and_parts_add_up() {
        let mut random = fastrand::Rng::with_seed(5);
        let mut height = 800.0;
        let raw: Vec<(f64, f64)> = (0..2000)
            .map(|at| {
                height += random.f64() * 12.0 - 6.0;
                (f64::from(at) * 20.0, height)
            })
            .collect();
        let end = raw.last().unwrap().0;
        let there = Heights::new(raw.clone());
        let back = Heights::new(raw.iter().rev().map(|(at, height)| (end - at, *height)).collect());
        let (up, down) = there.climb(0.0, end).unwrap();
        let (back_up, back_down) = back.climb(0.0, end).unwrap();
        assert!((up - back_down).abs() < 1e-6 && (down - back_up).abs() < 1e-6, "{up} {down} {back_up} {back_down}");
        let parts = there.climb(0.0, 12_345.0).unwrap().0 + there.climb(12_345.0, end).unwrap().0;
        assert!((parts - up).abs() < 1e-6);
    }

    #[test]
    fn without_heights_there_is_no_climb() {
        assert_eq!(Heights::new(Vec::new()).climb(0.0, 10.0), None);
        assert_eq!(Heights::new(vec![(0.0, 5.0)]).climb(0.0, 10.0), Some((0.0, 0.0)));
    }
}
