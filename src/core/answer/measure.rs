//! What to measure first: what it is worth on this trip to know each uncertain number before the kit is chosen.
//!
//! The kits to choose from are those that are best for some draw; see `src/core/uncertain/information.rs` for the estimator.

use super::candidates::{Candidates, lost};
use super::pack::{PackError, pack};
use super::ready::resolved;
use crate::domain::{Catalogue, Rider, Scenario};
use crate::parallel;
use crate::uncertain::information::{Gain, Losses};
use crate::uncertain::{Drawn, Subject, Uncertain, What};
use fardel_milp::SolveOptions;
use schemars::JsonSchema;
use serde::Serialize;

/// Draws under which the gains are judged, if nothing else is said.
pub const DRAWS: u64 = 2000;
/// Streams of these draws begin here, beyond any other.
const FROM: u64 = 1 << 33;
/// Kits to choose from.
const KITS: usize = 12;
/// A gain counts where it is so many standard errors above nothing: of a thousand numbers that are worth nothing, one or two
/// pass.
pub const SURE: f64 = 3.0;

/// What it is worth to know each number.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// Draws of all numbers.
    pub draws: u64,
    /// Kits to choose from.
    pub kits: usize,
    /// Numbers that are drawn.
    pub numbers: usize,
    /// What it would be worth to know them all.
    pub everything: Gain,
    /// All that could be found out, what is worth most first, surely or not.
    pub lines: Vec<Worthwhile>,
}

impl Measure {
    /// What is surely worth knowing, what is worth most first.
    pub fn first(&self) -> impl Iterator<Item = &Worthwhile> {
        self.lines.iter().filter(|own| own.gain.is_sure(SURE))
    }
}

/// Something that is worth knowing.
#[derive(Debug, Clone, PartialEq)]
pub struct Worthwhile {
    /// What to find out.
    pub subject: Subject,
    /// What it is worth to know it.
    pub gain: Gain,
}

/// What to measure first, as it is written for machines.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct MeasureFirst {
    /// Draws of all numbers.
    draws: u64,
    /// Kits to choose from.
    kits: usize,
    /// Numbers that are drawn.
    numbers: usize,
    /// Numbers that somebody could find out.
    looked_at: usize,
    /// Hours that it would be worth on this trip to know them all.
    everything_h: f64,
    /// Its standard error.
    everything_standard_error_h: f64,
    /// What is surely worth knowing, what is worth most first.
    first: Vec<First>,
}

/// One number that is worth knowing.
#[derive(Debug, Clone, Serialize, JsonSchema)]
struct First {
    /// What sort of number.
    what: &'static str,
    /// Key: of the failure, the failure and its repair, the system, the rider; empty where there is only one.
    id: String,
    /// As a rider would say it.
    name: String,
    /// What the number rests on.
    basis: &'static str,
    /// Hours that it is worth on this trip to know it.
    gain_h: f64,
    /// Its standard error.
    gain_standard_error_h: f64,
}

impl From<&Measure> for MeasureFirst {
    fn from(measure: &Measure) -> Self {
        let first = |own: &Worthwhile| First {
            what: own.subject.what.key(),
            id: own.subject.id.clone(),
            name: own.subject.name.clone(),
            basis: own.subject.basis.opening(),
            gain_h: own.gain.hours,
            gain_standard_error_h: own.gain.error,
        };
        Self {
            draws: measure.draws,
            kits: measure.kits,
            numbers: measure.numbers,
            looked_at: measure.lines.len(),
            everything_h: measure.everything.hours,
            everything_standard_error_h: measure.everything.error,
            first: measure.first().map(first).collect(),
        }
    }
}

/// Writes it in this shape where it is part of another answer.
pub(super) fn serialize<S: serde::Serializer>(measure: &Measure, serializer: S) -> Result<S::Ok, S::Error> {
    MeasureFirst::from(measure).serialize(serializer)
}

/// Packs, finds kits for so many draws, and works out what to measure first.
///
/// # Errors
/// As [`pack`].
pub fn measure_first(
    (catalogue, scenario, rider): (&Catalogue, &Scenario, &Rider),
    (kits, draws, seed): (u64, u64, u64),
    options: &SolveOptions,
    done: &(dyn Fn(u64) + Sync),
) -> Result<Measure, PackError> {
    let packed = pack(catalogue, scenario, rider, options)?;
    let instance = resolved(catalogue, scenario, rider)?;
    let uncertain = Uncertain::new(catalogue, scenario, &instance);
    let candidates = Candidates::find(&uncertain, &instance.counts(&packed.kit), (kits, seed), options, done)?;
    Ok(measure(catalogue, &uncertain, rider, &candidates, (draws, seed)))
}

/// What it is worth to know each number, choosing among a few of these kits.
pub(super) fn measure(
    catalogue: &Catalogue,
    uncertain: &Uncertain<'_>,
    rider: &Rider,
    candidates: &Candidates,
    (draws, seed): (u64, u64),
) -> Measure {
    let kits = candidates.few(KITS);
    let each = |draw: u64| {
        let drawn = uncertain.draw(seed, FROM + draw);
        let lost = lost(&uncertain.world(&drawn), &kits);
        (drawn, lost)
    };
    let (drawn, by_draw): (Vec<Drawn>, Vec<Vec<f64>>) = parallel::map((0..draws).collect(), each).into_iter().unzip();
    let losses = Losses::new(by_draw);
    let subjects = uncertain.subjects(std::slice::from_ref(&rider.name));
    let gain = |subject: Subject| {
        let values: Vec<f64> = drawn.iter().map(|drawn| subject.value(drawn)).collect();
        let gain = losses.partial(&values);
        Worthwhile { subject: named(catalogue, subject), gain }
    };
    let mut lines = parallel::map(subjects, gain);
    lines.sort_by(|a, b| b.gain.hours.total_cmp(&a.gain.hours));
    Measure { draws, kits: kits.len(), numbers: uncertain.numbers().len(), everything: losses.perfect(), lines }
}

/// Systems by the name that the catalogue gives them.
fn named(catalogue: &Catalogue, mut subject: Subject) -> Subject {
    if let (What::System, Some(system)) = (subject.what, catalogue.systems.get(&subject.id)) {
        subject.name.clone_from(&system.name);
    }
    subject
}
