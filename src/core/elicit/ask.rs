//! Which questions to ask: what is worth most to know on some trips, and the questions whose answers are known.

use super::calibration::CALIBRATION;
use super::question::{About, FALLS_KILOMETRES, Question, Riding};
use crate::answer::{Measure, Worthwhile};
use crate::diagnostic::sentence;
use crate::domain::{BySurface, Catalogue, Leg, Rider, Scenario, Surface};
use crate::uncertain::What;
use fardel_words::{say, word};

/// A gain counts for a question from so many standard errors above nothing on: answers cost little.
const LIKELY: f64 = 1.0;

/// A trip and what it is worth to know for it.
#[derive(Debug)]
pub struct Trip<'a> {
    /// The trip.
    pub scenario: &'a Scenario,
    /// Who rides.
    pub rider: &'a Rider,
    /// What it is worth to know each number.
    pub measure: &'a Measure,
}

/// Questions about at most so many numbers, those first that are worth most on any of the trips, and the questions with known
/// answers before them. Of what riders cannot know better than others (prices, hours to help somewhere) none are asked.
#[must_use]
pub fn ask(catalogue: &Catalogue, trips: &[Trip<'_>], most: usize) -> Vec<Question> {
    let mut wanted: Vec<(&Trip<'_>, &Worthwhile)> = trips
        .iter()
        .flat_map(|trip| trip.measure.lines.iter().map(move |own| (trip, own)))
        .filter(|(_, own)| own.gain.is_sure(LIKELY))
        .collect();
    wanted.sort_by(|a, b| b.1.gain.hours.total_cmp(&a.1.gain.hours));
    let mut asked: Vec<About> = Vec::new();
    for about in wanted.iter().flat_map(|(trip, own)| abouts(trip, own)) {
        if asked.len() < most && !asked.iter().any(|known| same(known, &about)) {
            asked.push(about);
        }
    }
    let known = CALIBRATION.iter().map(|known| About::Known(known.id));
    known.chain(asked).filter_map(|about| question(catalogue, about)).collect()
}

/// The same question, whatever the mixture of surfaces that it is put for?
fn same(a: &About, b: &About) -> bool {
    match (a, b) {
        (About::Rate(a, _), About::Rate(b, _)) => a == b,
        _ => a == b,
    }
}

/// What to ask about a subject; nothing where riders would not know.
fn abouts(trip: &Trip<'_>, own: &Worthwhile) -> Vec<About> {
    let id = &own.subject.id;
    let of_repair = |about: fn(String, String) -> About| {
        let parts = id.split_once('/').map(|(failure, repair)| (failure.to_owned(), repair.to_owned()));
        parts.map(|(failure, repair)| about(failure, repair)).into_iter().collect()
    };
    let km = |surface: Surface| legs(trip).map(|leg| leg.km.on(surface).km()).sum::<f64>();
    match own.subject.what {
        What::Falls => Surface::ALL.iter().filter(|surface| km(**surface) > 0.0).map(|s| About::Falls(*s)).collect(),
        What::LoadSensitivity => vec![About::LoadSensitivity],
        What::HoursPerFall => vec![About::HoursPerFall],
        What::Rate => {
            let days = legs(trip).map(|leg| leg.days).sum();
            let ridden = BySurface::new([0, 1, 2, 3].map(|at| km(Surface::ALL[at])));
            vec![About::Rate(id.clone(), Riding::like(ridden, days))]
        }
        What::Time => of_repair(About::Time),
        What::Restores => of_repair(About::Restores),
        What::Limps => vec![About::Limps(id.clone())],
        What::System
        | What::Nags
        | What::Help
        | What::Weight
        | What::Hour
        | What::Thing
        | What::RestOfDay
        | What::Recovery
        | What::Night
        | What::Dread => Vec::new(),
    }
}

fn legs<'a>(trip: &'a Trip<'_>) -> impl Iterator<Item = &'a Leg> {
    trip.scenario.trip.legs.iter().filter(|leg| leg.is_ridden_by(&trip.rider.name))
}

/// The question in words; `None` where the catalogue has no such failure or repair.
#[must_use]
pub fn question(catalogue: &Catalogue, about: About) -> Option<Question> {
    let failure = |id: &str| catalogue.failures.get(id);
    let repair = |id: &str, repair: &str| {
        let failure = failure(id)?;
        let repair = failure.repairs.iter().find(|own| own.id == repair)?;
        Some(format!("{}: {}.", sentence(&failure.name), repair.name))
    };
    let (text, unit) = match &about {
        About::Known(id) => (CALIBRATION.iter().find(|known| known.id == *id)?.text.to_owned(), "times"),
        About::Falls(surface) => (
            say!(
                "A rider of middling skill on a bike with empty bags rides {FALLS_KILOMETRES:.0} km of {}: how often does the \
                 bike end up on its side, slow drops included?",
                ground(*surface)
            ),
            "times",
        ),
        About::LoadSensitivity => (
            say!(
                "Luggage of a tenth of the bike's own mass is put on it: by how many per cent do falls become more frequent?"
            ),
            word!("per cent"),
        ),
        About::HoursPerFall => (
            say!(
                "How many minutes does an ordinary fall cost before anything is broken: breath, picking the bike up, \
             straightening a lever?"
            ),
            "minutes",
        ),
        About::Rate(id, riding) => {
            (say!("A bike is ridden {}. How often does this happen: {}?", ridden(*riding), failure(id)?.name), "times")
        }
        About::Time(id, own) => (
            say!(
                "{} How many minutes does it take beside the track, tools at hand, for somebody who has done it once?",
                repair(id, own)?
            ),
            "minutes",
        ),
        About::Restores(id, own) => (
            say!(
                "{} Of all the trouble that the failure would make if nothing were done (100), how much does this take away?",
                repair(id, own)?
            ),
            word!("per cent"),
        ),
        About::Limps(id) => (
            say!(
                "{}, and nothing is done about it. If having to be fetched counts 100, how much does carrying on with it count?",
                sentence(&failure(id)?.name)
            ),
            word!("per cent"),
        ),
    };
    Some(Question { about, text, unit })
}

fn ground(surface: Surface) -> &'static str {
    match surface {
        Surface::Sealed => word!("sealed road"),
        Surface::Gravel => word!("gravel road"),
        Surface::Track => "track",
        Surface::Rough => word!("rough ground"),
    }
}

fn ridden(riding: Riding) -> String {
    let each = Surface::ALL.iter().zip(riding.km).filter(|(_, km)| *km > 0);
    let each: Vec<String> = each.map(|(surface, km)| say!("{km} km of {}", ground(*surface))).collect();
    say!("{} in {} days", each.join(", "), riding.days)
}
