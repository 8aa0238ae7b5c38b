//! Before you leave: what can still be done to the bike, ranked by what it saves, free things first.
//!
//! Expected loss is hours lost with nothing aboard less the net hours that the kit saves; both change when something is
//! done. For the kit as packed that is arithmetic, and packing anew can only make it better. How much better has a limit:
//! what is done leaves less to save for every kit, so no kit saves more afterwards than the best one does now, and packing
//! anew wins back at most what the present kit saves less afterwards. Where that is less than would be seen in print, the
//! figure stands; of the others the most valuable few are packed anew, or all of them.

use super::ready::Ready;
use super::solve::{Solved, solve_near};
use crate::domain::{Preparation, PreparationType};
use crate::parallel;
use crate::resolve::resolve;
use crate::risk;
use crate::serial::{Number, OrNull};
use crate::units::{Hours, Mass, Money};
use fardel_milp::SolveOptions;
use schemars::JsonSchema;
use serde::Serialize;

/// Which preparations are packed anew; each takes about as long as packing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Anew {
    /// None: what the kit in hand makes of them is enough.
    None,
    /// The two most valuable.
    #[default]
    Few,
    /// All where it could be seen.
    All,
}

impl Anew {
    const fn most(self) -> usize {
        match self {
            Self::None => 0,
            Self::Few => 2,
            Self::All => usize::MAX,
        }
    }
}

/// Less than this is not seen in print, where a tenth of a minute is the last digit: 3 seconds.
const UNSEEN: Hours = Hours::new(3.0 / 3600.0);

/// Something to do before leaving.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Chore {
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// Check, adjustment or fitted part.
    pub kind: PreparationType,
    /// What it costs.
    #[serde(with = "Number")]
    pub price: Money,
    /// What it adds to the bike.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Work at home.
    #[serde(rename = "work_h", with = "Number")]
    pub time: Hours,
    /// Expected hours lost less if this alone is done and the kit stays as it is.
    #[serde(rename = "hours_saved_with_this_kit", with = "Number")]
    pub gain: Hours,
    /// The most that packing anew could add to that.
    #[serde(rename = "hours_packing_anew_may_add", with = "Number")]
    pub room: Hours,
    /// The same with the kit packed anew, where that could be seen.
    #[serde(rename = "hours_saved_packed_anew", with = "OrNull")]
    pub gain_anew: Option<Hours>,
}

impl Chore {
    /// The better of what is known.
    #[must_use]
    pub fn best_gain(&self) -> Hours {
        self.gain_anew.unwrap_or(self.gain)
    }
}

/// Preparations that make sense on the bike and are not done, with a gain; free ones first, then by hours for the money.
pub(super) fn chores(ready: &Ready<'_>, counts: &[u32], anew: Anew, options: &SolveOptions) -> Vec<Chore> {
    let Some(bike) = ready.catalogue.bikes.get(&ready.rider.bike) else { return Vec::new() };
    let scenario = &ready.scenario;
    let open =
        ready.catalogue.preparations.values().filter(|own| {
            bike.matches(&own.applies) && !bike.fitted.contains(&own.id) && !scenario.done.contains(&own.id)
        });
    let best = net(ready, counts);
    let kit = ready.instance.kit(counts);
    let before = ready.risk_model.hours_empty() - best;
    let chore = |own: &Preparation| {
        let done = with_done(ready, &own.id)?;
        let after = net(&done, &done.instance.counts(&kit));
        let gain = Hours::new(before - (done.risk_model.hours_empty() - after));
        let room = Hours::new((best - after).max(0.0));
        let Preparation { id, name, kind, price, mass, time, .. } = own.clone();
        (gain.get() > 1e-9).then_some(Chore { id, name, kind, price, mass, time, gain, room, gain_anew: None })
    };
    let mut chores: Vec<Chore> = open.filter_map(chore).collect();
    chores.sort_by(|a, b| b.gain.get().total_cmp(&a.gain.get()));
    // Where packing anew fails, the plan stands and what is known for its own kit is told.
    let pack = |chore: &mut Chore| {
        let done = with_done(ready, &chore.id);
        let solved = done.and_then(|done| {
            let known = done.instance.counts(&kit);
            Some((solve_near(&done.instance, &done.risk_model, &known, options).ok()?, done))
        });
        let loss =
            |(solved, done): (Solved, Ready<'_>)| done.risk_model.hours_empty() - net(&done, &solved.choice.counts);
        chore.gain_anew = solved.map(|anew| Hours::new(before - loss(anew)));
    };
    let open: Vec<&mut Chore> = chores.iter_mut().filter(|chore| chore.room > UNSEEN).take(anew.most()).collect();
    parallel::map(open, pack);
    let worth = |chore: &Chore| chore.best_gain().get() / chore.price.units().max(0.01);
    let costs = |chore: &Chore| chore.price > Money::ZERO;
    chores.sort_by(|a, b| costs(a).cmp(&costs(b)).then(worth(b).total_cmp(&worth(a))));
    chores
}

/// The trip with one more preparation done.
fn with_done<'a>(ready: &Ready<'a>, id: &str) -> Option<Ready<'a>> {
    let mut done = ready.clone();
    done.scenario.done.push(id.to_owned());
    done.instance = resolve(&done.catalogue, &done.scenario, done.rider)?;
    done.risk_model = risk::assess(&done.instance);
    Some(done)
}

/// Expected hours that a kit saves on the trip, less what its weight costs.
fn net(ready: &Ready<'_>, counts: &[u32]) -> f64 {
    risk::value(&ready.instance, &ready.risk_model, counts).objective()
}
