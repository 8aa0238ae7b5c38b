//! Axes of the pictures: round steps, and places in them. Pictures are made by templates, so that they follow the page
//! into the dark.

use serde::Serialize;

/// Where a picture's axes lie, in its own units.
#[derive(Debug, Clone, Copy, Serialize)]
pub(super) struct Area {
    pub left: f64,
    pub right: f64,
    pub top: f64,
    pub bottom: f64,
}

/// One axis.
#[derive(Debug, Clone, Copy)]
pub(super) struct Axis {
    from: f64,
    to: f64,
    /// Where `from` and `to` lie.
    start: f64,
    end: f64,
}

/// A mark on an axis.
#[derive(Debug, Clone, Serialize)]
pub(super) struct Tick {
    at: f64,
    text: String,
}

impl Area {
    /// An axis to the right.
    pub(super) fn across(self, from: f64, to: f64) -> Axis {
        Axis { from, to, start: self.left, end: self.right }
    }
    /// An axis upwards.
    pub(super) fn upwards(self, from: f64, to: f64) -> Axis {
        Axis { from, to, start: self.bottom, end: self.top }
    }
}

impl Axis {
    /// Where a value lies, to a hundredth.
    pub(super) fn place(self, value: f64) -> f64 {
        let share = (value - self.from) / (self.to - self.from).max(1e-12);
        hundredth(self.start + share * (self.end - self.start))
    }

    /// Round values, about so many.
    pub(super) fn ticks(self, about: f64) -> Vec<Tick> {
        let step = step((self.to - self.from) / (about * 1.4));
        let places = usize::from(step < 1.0) + usize::from(step < 0.1);
        let first = (self.from / step).ceil();
        let count = ((self.to / step).floor() - first).clamp(0.0, 50.0);
        let mut ticks = Vec::new();
        let mut at = 0.0;
        while at <= count {
            let value = (first + at) * step;
            // Adding zero keeps nought from showing as minus nought.
            ticks.push(Tick { at: self.place(value), text: format!("{:.places$}", value + 0.0) });
            at += 1.0;
        }
        ticks
    }
}

/// The next of 1, 2, 5, 10, 20 ... that is not smaller.
fn step(least: f64) -> f64 {
    let power = 10_f64.powf(least.max(1e-9).log10().floor());
    let steps = [1.0, 2.0, 5.0, 10.0].map(|step| step * power);
    steps.into_iter().find(|step| *step >= least * 0.999).unwrap_or(10.0 * power)
}

/// Coordinates to a hundredth: no eye sees more, and they are the same on every machine.
pub(super) fn hundredth(value: f64) -> f64 {
    (value * 100.0).round() / 100.0 + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    const AREA: Area = Area { left: 40.0, right: 340.0, top: 10.0, bottom: 210.0 };

    #[test]
    fn places_run_right_and_upwards() {
        let (x, y) = (AREA.across(17.0, 27.0), AREA.upwards(0.0, 8.0));
        assert_eq!((x.place(17.0), x.place(22.0), x.place(27.0)), (40.0, 190.0, 340.0));
        assert_eq!((y.place(0.0), y.place(8.0)), (210.0, 10.0));
    }

    #[test]
    fn ticks_are_round_and_inside() {
        let ticks = AREA.across(17.67, 27.82).ticks(5.0);
        assert_eq!(ticks.iter().map(|tick| tick.text.as_str()).collect::<Vec<_>>(), ["18", "20", "22", "24", "26"]);
        assert!(ticks.iter().all(|tick| (40.0..=340.0).contains(&tick.at)));
        assert_eq!(AREA.upwards(-0.03, 0.5).ticks(5.0)[0].text, "0.0");
        assert!(AREA.across(5.0, 5.0).ticks(5.0).len() < 60, "no axis without end");
    }
}
