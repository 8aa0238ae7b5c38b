//! What to measure first: what it is worth on this trip to know each uncertain number before the kit is chosen.
//!
//! The kits to choose from are those that are best for some draw; see `src/core/uncertain/information.rs` for the estimator.

use super::candidates::{Candidates, lost};
use super::pack::{PackError, pack};
use crate::domain::{Catalogue, Kit, Rider, Scenario};
use crate::parallel;
use crate::resolve::resolve;
use crate::uncertain::information::{Gain, Losses};
use crate::uncertain::{Drawn, Subject, Uncertain, What};
use fardel_milp::{EngineError, SolveOptions};

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
    let instance = resolve(catalogue, scenario, rider)
        .ok_or_else(|| PackError::Engine(EngineError::Fault(format!("no bike `{}`", rider.bike))))?;
    let uncertain = Uncertain::new(catalogue, scenario, &instance);
    let counts = counts(&uncertain, &packed.kit);
    let candidates = Candidates::find(&uncertain, &counts, (kits, seed), options, done)?;
    Ok(measure(catalogue, &uncertain, rider, &candidates, (draws, seed)))
}

/// How many of each item of a case are in a kit.
pub(super) fn counts(uncertain: &Uncertain<'_>, kit: &Kit) -> Vec<u32> {
    uncertain.instance().items.iter().map(|item| kit.count(&item.id)).collect()
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
