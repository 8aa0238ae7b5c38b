//! The trip: a leg a day, every figure with what it rests on.

mod figures;
mod leg;
mod splice;
mod summary;
mod wrap;
mod yaml;

pub use leg::{Figure, Leg};
pub use splice::into_scenario;
pub use summary::summary;
pub use yaml::trip;

use crate::survey::{Survey, Wishes};

/// The legs of the trip, one for each day.
#[must_use]
pub fn legs(survey: &Survey, wishes: &Wishes) -> Vec<Leg> {
    let starts = std::iter::once(0.0).chain(survey.days.ends.iter().copied());
    let parts: Vec<(f64, f64)> = starts.zip(survey.days.ends.iter().copied()).collect();
    (0..parts.len()).map(|day| leg::leg(survey, wishes, &parts, day)).collect()
}
