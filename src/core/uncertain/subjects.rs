//! What somebody could find out: one number, or several that are found out together.

use super::draw::{Drawn, Uncertain};
use super::number::Target;
use crate::domain::{BasisKind, Surface};
use crate::resolve::Instance;

/// Something to find out.
#[derive(Debug, Clone, PartialEq)]
pub struct Subject {
    /// What sort of thing.
    pub what: What,
    /// Key: of the failure, the failure and its repair (`failure/repair`), the system, the rider; empty for what there is only one of.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// What the number rests on; the worst where there are several.
    pub basis: BasisKind,
    /// Numbers and their weights: the value is the weighted sum of the factors on them.
    terms: Vec<(usize, f64)>,
    /// The number whose factor multiplies the sum.
    times: Option<usize>,
}

/// What sort of thing somebody could find out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// How often a rider falls on this trip.
    Falls,
    /// What weight does to falls.
    LoadSensitivity,
    /// What a fall costs by itself.
    HoursPerFall,
    /// How often a failure comes.
    Rate,
    /// How often anything in a system fails.
    System,
    /// How long a repair takes.
    Time,
    /// How good a repair is.
    Restores,
    /// What limping with a failure costs.
    Limps,
    /// What a nuisance costs.
    Nags,
    /// How long help takes.
    Help,
    /// What a kilogram costs in riding.
    Weight,
    /// What an hour is worth.
    Hour,
    /// What packing a thing costs.
    Thing,
    /// Riding lost on the day of a breakdown.
    RestOfDay,
    /// What being fetched costs.
    Recovery,
    /// What a night costs.
    Night,
    /// How bad it is to be stranded.
    Dread,
}

impl What {
    /// The word for it in answers for machines.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Falls => "falls",
            Self::LoadSensitivity => "load_sensitivity",
            Self::HoursPerFall => "hours_per_fall",
            Self::Rate => "rate",
            Self::System => "system",
            Self::Time => "repair_time",
            Self::Restores => "repair_restores",
            Self::Limps => "limps_share",
            Self::Nags => "nags_hours",
            Self::Help => "hours_to_help",
            Self::Weight => "price_weight",
            Self::Hour => "price_hour",
            Self::Thing => "price_thing",
            Self::RestOfDay => "price_rest_of_day",
            Self::Recovery => "price_recovery",
            Self::Night => "price_night",
            Self::Dread => "price_dread",
        }
    }
}

impl Subject {
    /// Its value in a draw, in units in which only differences count.
    #[must_use]
    pub fn value(&self, drawn: &Drawn) -> f64 {
        let sum: f64 = self.terms.iter().map(|(number, weight)| weight * drawn.factors[*number]).sum();
        sum * self.times.map_or(1.0, |number| drawn.factors[number])
    }

    fn alone(what: What, id: impl Into<String>, name: impl Into<String>, (at, basis): (usize, BasisKind)) -> Self {
        Self { what, id: id.into(), name: name.into(), basis, terms: vec![(at, 1.0)], times: None }
    }
}

impl Uncertain<'_> {
    /// All that could be found out, in the order of the numbers.
    #[must_use]
    pub fn subjects(&self, riders: &[String]) -> Vec<Subject> {
        let mut subjects = self.by_rider(riders);
        subjects.extend(self.by_system());
        subjects.extend(self.help());
        let each = self.numbers.iter().enumerate();
        subjects.extend(each.filter_map(|(at, number)| self.single(number.target, (at, number.basis))));
        subjects
    }

    fn single(&self, target: Target, number: (usize, BasisKind)) -> Option<Subject> {
        let failure = |at: usize| &self.instance.failures[at];
        let of_failure = |what, at: usize| Some(Subject::alone(what, &failure(at).id, &failure(at).name, number));
        let of_repair = |what, at: usize, repair: usize| {
            let (failure, repair) = (failure(at), &failure(at).repairs[repair]);
            let id = format!("{}/{}", failure.id, repair.id);
            Some(Subject::alone(what, id, format!("{}: {}", failure.name, repair.name), number))
        };
        let general = |what| Some(Subject::alone(what, "", "", number));
        match target {
            Target::Rate(at) => of_failure(What::Rate, at),
            Target::Limps(at) => of_failure(What::Limps, at),
            Target::Nags(at) => of_failure(What::Nags, at),
            Target::Time(at, repair) => of_repair(What::Time, at, repair),
            Target::Restores(at, repair) => of_repair(What::Restores, at, repair),
            // Found out together with others.
            Target::Falls(_) | Target::Skill(_) | Target::Help(_) => None,
            Target::LoadSensitivity => general(What::LoadSensitivity),
            Target::HoursPerFall => general(What::HoursPerFall),
            Target::Weight => general(What::Weight),
            Target::Hour => general(What::Hour),
            Target::Thing => general(What::Thing),
            Target::RestOfDay => general(What::RestOfDay),
            Target::Recovery => general(What::Recovery),
            Target::Night => general(What::Night),
            Target::Dread => general(What::Dread),
        }
    }

    /// A rider's falls on this trip: those of each surface, times what is the rider's own.
    fn by_rider(&self, riders: &[String]) -> Vec<Subject> {
        let rider = |(at, number): (usize, &super::Number)| {
            let Target::Skill(rider) = number.target else { return None };
            let legs = || &self.instance.exposures[rider].legs;
            let on = |surface: Surface| legs().iter().map(|leg| leg.thousand_km.on(surface)).sum::<f64>();
            let surfaces = self.numbers.iter().enumerate().filter_map(|(at, number)| match number.target {
                Target::Falls(surface) => {
                    let surface = Surface::ALL[surface];
                    Some((at, self.falls.on(surface) * on(surface)))
                }
                _ => None,
            });
            let name = riders.get(rider).cloned().unwrap_or_default();
            let terms = surfaces.collect();
            Some(Subject { what: What::Falls, id: name.clone(), name, basis: number.basis, terms, times: Some(at) })
        };
        self.numbers.iter().enumerate().filter_map(rider).collect()
    }

    /// Failures of one system, each as often as it is expected.
    fn by_system(&self) -> Vec<Subject> {
        let mut systems: Vec<Subject> = Vec::new();
        for (at, number) in self.numbers.iter().enumerate() {
            let Target::Rate(failure) = number.target else { continue };
            let failure = &self.instance.failures[failure];
            let term = (at, expected(self.instance, failure));
            if let Some(known) = systems.iter_mut().find(|subject| subject.id == failure.system) {
                known.terms.push(term);
                known.basis = known.basis.max(number.basis);
            } else {
                let (id, name) = (failure.system.clone(), failure.system.clone());
                let basis = number.basis;
                systems.push(Subject { what: What::System, id, name, basis, terms: vec![term], times: None });
            }
        }
        systems.retain(|subject| subject.terms.len() > 1);
        systems
    }

    /// Hours to help, each leg by its days.
    fn help(&self) -> Option<Subject> {
        let terms = self.numbers.iter().enumerate().filter_map(|(at, number)| match number.target {
            Target::Help(leg) => Some((at, number.basis, self.days_to_help(leg))),
            _ => None,
        });
        let terms: Vec<(usize, BasisKind, f64)> = terms.collect();
        let basis = terms.first()?.1;
        let terms = terms.into_iter().map(|(at, _, weight)| (at, weight)).collect();
        Some(Subject { what: What::Help, id: String::new(), name: String::new(), basis, terms, times: None })
    }

    fn days_to_help(&self, number: usize) -> f64 {
        let legs = self.instance.exposures.iter().flat_map(|exposure| &exposure.legs);
        legs.filter(|leg| leg.number == number).map(|leg| leg.days * leg.hours_to_help.get()).sum()
    }
}

fn expected(instance: &Instance, failure: &crate::resolve::InstanceFailure) -> f64 {
    instance.stretches(failure).map(|leg| failure.on_leg(leg)).sum()
}
