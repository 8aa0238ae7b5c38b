//! Which points of a curve lie on the least concave curve above all of them.

use crate::resolve::Amount;

/// Points nearer to the line than this (relative to the height of the curve) lie on it.
const ON_THE_LINE: f64 = 1e-9;

/// One flag for each `(used, value)`, given by rising `used` and not falling `value`.
#[allow(clippy::cast_precision_loss, reason = "amounts stay below 2^53")]
pub(super) fn envelope(points: &[(Amount, f64)]) -> Vec<bool> {
    let height = points.iter().map(|(_, value)| value.abs()).fold(1.0, f64::max);
    let mut corners: Vec<(f64, f64)> = Vec::new();
    for (used, value) in points.iter().map(|(used, value)| (*used as f64, *value)) {
        // Of two with the same use the later is not worse.
        if corners.last().is_some_and(|(x, _)| *x >= used) {
            corners.pop();
        }
        while let [.., a, b] = corners.as_slice() {
            if (b.1 - a.1) * (used - a.0) > (value - a.1) * (b.0 - a.0) {
                break;
            }
            corners.pop();
        }
        corners.push((used, value));
    }
    let line = |used: f64| -> f64 {
        let at = corners.partition_point(|(x, _)| *x < used);
        match (at.checked_sub(1).map(|before| corners[before]), corners.get(at).copied()) {
            (_, Some((x, y))) if (x - used).abs() < 0.5 => y,
            (Some((x, y)), Some((x2, y2))) => y + (y2 - y) * (used - x) / (x2 - x),
            (_, Some((_, y))) | (Some((_, y)), None) => y,
            (None, None) => f64::NEG_INFINITY,
        }
    };
    points.iter().map(|(used, value)| line(*used as f64) - value <= ON_THE_LINE * height).collect()
}

#[cfg(test)]
mod tests {
    use super::envelope;

    #[test]
    fn a_dent_is_off_the_envelope_and_a_point_on_the_line_is_on_it() {
        let points = [(0, 0.0), (10, 4.0), (20, 6.0), (30, 7.0), (40, 8.0), (40, 8.0)];
        assert_eq!(envelope(&points), [true; 6]);
        assert_eq!(envelope(&[(0, 0.0), (10, 1.0), (20, 6.0)]), [true, false, true]);
        assert_eq!(envelope(&[(5, 2.0)]), [true]);
        assert!(envelope(&[]).is_empty());
    }
}
