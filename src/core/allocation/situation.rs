//! Who is there when something breaks, and what they have with them.
//!
//! A group that splits for some legs, or loses a rider, has only what is on the bikes that are there, and only their
//! riders' skill. A [`Situation`] is a set of riders and the legs that they ride together; the trip is a list of them,
//! and so is the trip without one rider. Stocks are reckoned against the demand of the whole trip in each of them: what
//! a part of the group uses up is not there later, so this is never too good.

use super::Holdings;
use crate::resolve::{Exposure, Instance, LegExposure};
use crate::risk::{self, KitValue, RiskModel};

/// Riders who are together, and what is at stake on the legs that they ride so.
#[derive(Debug, Clone)]
pub struct Situation {
    /// For each rider of the group: there?
    pub present: Vec<bool>,
    /// The group's case with only the riding of this situation, and repairs within the skill of those present.
    pub instance: Instance,
    /// Its stakes; ladders are those of the whole trip.
    pub risk_model: RiskModel,
    /// Is it all there is of the trip? Then its stocks are wanted for what better repairs leave over; otherwise every part of
    /// the group is reckoned as if all others drew on them in full.
    pub all_of_it: bool,
}

impl Situation {
    /// Is nobody missing?
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.present.iter().all(|present| *present)
    }

    /// Those present.
    #[must_use]
    pub fn riders(&self) -> Vec<usize> {
        (0..self.present.len()).filter(|rider| self.present[*rider]).collect()
    }

    /// What those present have with them: without what is useless, because what it needs is with somebody else.
    #[must_use]
    pub fn held(&self, holdings: &Holdings) -> Vec<u32> {
        let mut held = vec![0; self.instance.items.len()];
        for own in holdings.iter().zip(&self.present).filter(|(_, present)| **present).map(|(own, _)| own) {
            held.iter_mut().zip(own).for_each(|(held, own)| *held += own);
        }
        risk::value::useful(&self.instance, &held)
    }

    /// What these units do in this situation.
    #[must_use]
    pub fn value(&self, held: &[u32]) -> KitValue {
        if self.all_of_it {
            risk::value(&self.instance, &self.risk_model, held)
        } else {
            risk::value_in_model(&self.instance, &self.risk_model, held)
        }
    }

    /// Expected hours that repairs with these units save in this situation.
    #[must_use]
    pub fn saved(&self, held: &[u32]) -> f64 {
        self.value(held).hours_saved()
    }
}

/// The trip as the group rides it: legs with the same riders together.
#[must_use]
pub fn stretches(instance: &Instance) -> Vec<Situation> {
    without(instance, None)
}

/// The trip if one rider, and what is on that bike, is not there; legs that nobody else rides are gone.
#[must_use]
pub fn absence(instance: &Instance, rider: usize) -> Vec<Situation> {
    without(instance, Some(rider))
}

fn without(instance: &Instance, absent: Option<usize>) -> Vec<Situation> {
    let legs = instance.exposures.iter().flat_map(|e| e.legs.iter().map(|leg| leg.number + 1)).max().unwrap_or(0);
    let rides = |rider: usize, leg: usize| {
        Some(rider) != absent && instance.exposures[rider].legs.iter().any(|own| own.number == leg)
    };
    let riders = instance.exposures.len();
    let mut sets: Vec<(Vec<bool>, Vec<usize>)> = Vec::new();
    for leg in 0..legs {
        let present: Vec<bool> = (0..riders).map(|rider| rides(rider, leg)).collect();
        match sets.iter_mut().find(|(set, _)| *set == present) {
            Some((_, own)) => own.push(leg),
            None if present.contains(&true) => sets.push((present, vec![leg])),
            None => {}
        }
    }
    let whole = risk::assess(&ridden(instance, rides));
    let all_of_it = sets.len() == 1;
    sets.into_iter().map(|(present, legs)| situation(instance, &whole, (present, all_of_it), &legs)).collect()
}

fn situation(
    instance: &Instance,
    whole: &RiskModel,
    (present, all_of_it): (Vec<bool>, bool),
    legs: &[usize],
) -> Situation {
    let own = ridden(instance, |rider, leg| present[rider] && legs.contains(&leg));
    let risk_model = risk::assess(&own).as_part_of(whole);
    Situation { present, instance: own, risk_model, all_of_it }
}

/// The case with only some of the riding, repairs within the skill of those who ride at all, and on every leg as many
/// riders together as ride it.
fn ridden(instance: &Instance, rides: impl Fn(usize, usize) -> bool) -> Instance {
    let together = |leg: usize| (0..instance.exposures.len()).filter(|rider| rides(*rider, leg)).count();
    let together = |leg| u32::try_from(together(leg)).unwrap_or(u32::MAX);
    let leg = |leg: &LegExposure| LegExposure { riders: together(leg.number), ..leg.clone() };
    let exposure = |(rider, exposure): (usize, &Exposure)| Exposure {
        legs: exposure.legs.iter().filter(|leg| rides(rider, leg.number)).map(leg).collect(),
        ..exposure.clone()
    };
    let mut own =
        Instance { exposures: instance.exposures.iter().enumerate().map(exposure).collect(), ..instance.clone() };
    let skill = own.exposures.iter().filter(|own| !own.legs.is_empty()).map(|own| own.repair_skill).max();
    // A repair that nobody there can do restores nothing; it keeps its number.
    for repair in own.failures.iter_mut().flat_map(|failure| &mut failure.repairs) {
        if Some(repair.skill) > skill {
            repair.restores = 0.0;
        }
    }
    own
}
