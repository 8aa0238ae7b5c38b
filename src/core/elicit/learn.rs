//! Pooled answers put into a catalogue: what changes, and into what.

use super::pool::{Opinion, Pooled};
use super::question::{About, FALLS_KILOMETRES, Riding};
use crate::debrief::{MOST_EVENTS, gamma::Belief};
use crate::domain::{Basis, BasisKind, BySurface, Catalogue, Failure, Map, Model, Outcome, Rate, Surface};
use crate::evidence::shape_within;
use crate::uncertain::widths::{FEWEST_EVENTS, Quantity, within};
use crate::units::Hours;

/// What answers change in a catalogue.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Elicited {
    /// The model of falls, if that changes.
    pub model: Option<Model>,
    /// Failures that change, whole, and what of them.
    pub failures: Map<(Failure, Changed)>,
    /// Each number that was asked for: what the catalogue says and what the riders say, in the unit of the question.
    pub changes: Vec<Change>,
}

/// Which parts of a failure change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Changed {
    /// Its rate.
    pub rate: bool,
    /// What limping costs.
    pub limps: bool,
    /// Its repairs.
    pub repairs: bool,
}

/// A number before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Id of the question.
    pub id: String,
    /// What the catalogue says.
    pub before: f64,
    /// What the riders say together: the mean of the pooled distribution.
    pub after: f64,
}

/// What pooled answers make of a catalogue; `choose` picks the pool of each question that counts.
#[must_use]
pub fn learn(catalogue: &Catalogue, pooled: &[Pooled], choose: &dyn Fn(&Pooled) -> (Opinion, String)) -> Elicited {
    let mut elicited = Elicited::default();
    for own in pooled {
        let (opinion, how) = choose(own);
        let note = format!("{} by lowest, highest, best guess and confidence; {how}", riders(own.riders));
        let basis = Basis { kind: BasisKind::Elicited, note };
        if let Some((before, after)) = elicited.take(catalogue, &own.about, &opinion, &basis) {
            elicited.changes.push(Change { id: own.id.clone(), before, after });
        }
    }
    elicited
}

fn riders(count: usize) -> String {
    if count == 1 { "of one rider".to_owned() } else { format!("of {count} riders") }
}

impl Elicited {
    /// Puts one number in, and gives what it was and is in the unit of the question.
    fn take(&mut self, catalogue: &Catalogue, about: &About, opinion: &Opinion, basis: &Basis) -> Option<(f64, f64)> {
        let mean = opinion.mean;
        match about {
            About::Known(_) => None,
            About::Falls(_) | About::LoadSensitivity | About::HoursPerFall => {
                let model = self.model.get_or_insert_with(|| catalogue.model.clone());
                model.basis = Basis { note: told(&model.basis, basis, about), ..basis.clone() };
                if let About::Falls(_) = about {
                    set_worth(model, opinion);
                }
                Some(set_model(model, about, mean))
            }
            About::Rate(id, riding) => {
                let (failure, changed) = self.failure(catalogue, id)?;
                let before = expected(&failure.rate, *riding, &catalogue.model);
                if before <= 0.0 {
                    return None;
                }
                failure.rate = rate(&failure.rate, before, opinion, basis);
                changed.rate = true;
                Some((before, mean))
            }
            About::Time(id, repair) => {
                let (failure, changed) = self.failure(catalogue, id)?;
                let own = failure.repairs.iter_mut().find(|own| own.id == *repair)?;
                let before = own.time.get() * 60.0;
                (own.time, own.basis) = (Hours::new(mean / 60.0), basis.clone());
                changed.repairs = true;
                Some((before, mean))
            }
            About::Restores(id, repair) => {
                let (failure, changed) = self.failure(catalogue, id)?;
                let own = failure.repairs.iter_mut().find(|own| own.id == *repair)?;
                let before = own.restores * 100.0;
                (own.restores, own.basis) = ((mean / 100.0).clamp(0.0, 1.0), basis.clone());
                changed.repairs = true;
                Some((before, mean))
            }
            About::Limps(id) => {
                let (failure, changed) = self.failure(catalogue, id)?;
                let Outcome::Limps(before) = failure.outcome else { return None };
                failure.outcome = Outcome::Limps((mean / 100.0).clamp(0.0, 1.0));
                changed.limps = true;
                Some((before * 100.0, mean))
            }
        }
    }

    fn failure(&mut self, catalogue: &Catalogue, id: &str) -> Option<(&mut Failure, &mut Changed)> {
        if !self.failures.contains_key(id) {
            let own = catalogue.failures.get(id)?.clone();
            self.failures.insert(id.to_owned(), (own, Changed::default()));
        }
        self.failures.get_mut(id).map(|(failure, changed)| (failure, changed))
    }
}

/// The model has one basis: what was asked is named in it, and what the rest is based on stays.
fn told(before: &Basis, new: &Basis, about: &About) -> String {
    let what = about.id();
    if before.kind == BasisKind::Elicited {
        return format!("{what}, {}", before.note);
    }
    format!("{what} {}; the rest {before}", new.note)
}

/// What falls are worth for one rider: no more than on the surface that the riders know least about, and less by what one
/// rider differs from the next, whom the riders were not asked about.
fn set_worth(model: &mut Model, opinion: &Opinion) {
    let between_riders = shape_within(within(Quantity::Effect, BasisKind::FromMemory));
    let variance = (1.0 + events(opinion).recip()) * (1.0 + between_riders.recip()) - 1.0;
    let asked = model.falls_basis.as_ref().is_some_and(|basis| basis.kind == BasisKind::Elicited);
    let before = if asked { model.falls_worth_events } else { MOST_EVENTS };
    model.falls_worth_events = variance.recip().max(FEWEST_EVENTS).min(before);
    model.falls_basis = Some(model.basis.clone());
}

fn set_model(model: &mut Model, about: &About, mean: f64) -> (f64, f64) {
    match about {
        About::Falls(surface) => {
            let scale = FALLS_KILOMETRES / 1000.0;
            let before = model.falls_per_1000_km.on(*surface) * scale;
            let with = |at: Surface| if at == *surface { mean / scale } else { model.falls_per_1000_km.on(at) };
            model.falls_per_1000_km = BySurface::new([0, 1, 2, 3].map(|at| with(Surface::ALL[at])));
            (before, mean)
        }
        About::LoadSensitivity => {
            let before = model.load_sensitivity * 10.0;
            model.load_sensitivity = mean / 10.0;
            (before, mean)
        }
        _ => {
            let before = model.hours_per_fall.get() * 60.0;
            model.hours_per_fall = Hours::new(mean / 60.0);
            (before, mean)
        }
    }
}

/// Occurrences that a rate makes likely in so much riding, falls of a middling rider among them.
fn expected(rate: &Rate, riding: Riding, model: &Model) -> f64 {
    let km = riding.by_surface();
    let by_km: f64 = rate.per_1000_km.iter().map(|(surface, per)| per * km.on(surface) / 1000.0).sum();
    let falls: f64 = model.falls_per_1000_km.iter().map(|(surface, per)| per * km.on(surface) / 1000.0).sum();
    by_km + rate.per_day * f64::from(riding.days) + rate.per_fall * falls
}

/// All parts of the rate move by one factor, so that it comes to the mean of the answers; it is worth the events of the Gamma
/// distribution with the mean and variance of the answers.
fn rate(rate: &Rate, before: f64, opinion: &Opinion, basis: &Basis) -> Rate {
    let mean = opinion.mean.max(f64::MIN_POSITIVE);
    Rate { basis: basis.clone(), worth_events: events(opinion), ..rate.times(mean / before) }
}

/// Events of the Gamma distribution with the mean and variance of the answers.
fn events(opinion: &Opinion) -> f64 {
    let mean = opinion.mean.max(f64::MIN_POSITIVE);
    let events = if opinion.variance > 0.0 { Belief::with_moments(mean, opinion.variance).shape } else { MOST_EVENTS };
    events.clamp(FEWEST_EVENTS, MOST_EVENTS)
}
