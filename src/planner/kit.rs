//! A kit that is given: what it comes to, and what it mends.

use crate::check::load;
use crate::host::Host;
use crate::line::one_line;
use crate::refused::Refused;
use crate::trip::Trip;
use fardel_core::answer::{self, PackError};
use fardel_core::domain::{Catalogue, Kit, Stowage};
use fardel_core::live::Evaluation;
use fardel_core::load::{self, PackedKit, Source};
use fardel_core::units::{Mass, Money, UnitSystem};
use fardel_report::Look;
use fardel_report::json::{self as answers, Unmet};
use fardel_words::{say, word};
use indexmap::IndexMap;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use serde_json::{Value, json};

/// Failures on a card, the likeliest first, as on the command line.
const ON_THE_CARD: u16 = 16;
/// Width of words for a page, which wraps them itself.
const WIDTH: usize = 110;

/// How quantities are shown in words.
pub(crate) const LOOK: Look = Look { units: UnitSystem::Metric, width: WIDTH };

/// Things that are aboard: ids with counts, or the bags of a packed kit.
#[derive(Debug, Deserialize)]
#[serde(transparent)]
pub(crate) struct Aboard(Box<RawValue>);

/// The shapes of a kit that are files of their own.
#[derive(Debug, Deserialize)]
struct Shape {
    bags: Option<serde::de::IgnoredAny>,
    items: Option<serde::de::IgnoredAny>,
}

impl Aboard {
    /// Reads it.
    pub fn read(&self, catalogue: &Catalogue) -> Result<PackedKit, Refused> {
        let text = self.0.get();
        let whole = serde_json::from_str(text).is_ok_and(|shape: Shape| shape.bags.is_some() || shape.items.is_some());
        let text = if whole { text.to_owned() } else { format!("{{\"items\":{text}}}") };
        Ok(load::kit_text(Source { name: "kit.yaml".to_owned(), text }, catalogue)?)
    }
}

/// Why there is no kit.
pub(crate) fn no_kit(command: &'static str, catalogue: &Catalogue, error: PackError) -> Refused {
    match error {
        PackError::Infeasible { shortfalls, ways } => {
            let unmet = Unmet { catalogue, shortfalls: &shortfalls, ways: &ways, look: &LOOK };
            answers::infeasible(command, &unmet).map_or_else(Refused::from, |answer| Refused::NoKit(one_line(&answer)))
        }
        PackError::OutOfTime => Refused::words(word!("Time ran out before any kit was found: allow more.")),
        error @ PackError::TooMuch(_) => Refused::words(error.to_string()),
        PackError::Engine(fault) => Refused::Defect(fault.to_string()),
        error @ PackError::Unverified { .. } => Refused::Defect(error.to_string()),
    }
}

/// What a call asks the figures of.
#[derive(Debug, Deserialize)]
pub(crate) struct Given {
    kit: Aboard,
}

/// What a kit comes to.
#[derive(Serialize)]
struct Figures<'a> {
    figures: &'a Evaluation,
    limits: Value,
    loads: Vec<Value>,
}

/// The figures of a kit, by arithmetic: it need not keep any limit.
pub(crate) fn evaluate(host: &Host, trip: &Trip, given: &Given) -> Result<String, Refused> {
    let session = host.sessions.open(host, trip)?;
    let (live, instance) = (&session.live, session.live.instance());
    let packed = given.kit.read(live.catalogue())?;
    let figures = live.evaluate(&packed.kit);
    let limits = json!({
        "mass_g": instance.kit_mass.map(Mass::grams),
        "room_ml": instance.usable_volume().millilitres(),
        "budget": instance.budget.map(Money::units),
        "stranded_at_most": instance.stranded,
        "currency": live.catalogue().currency.to_string(),
    });
    let loads = instance.mounts.iter().map(load).collect();
    Ok(serde_json::to_string(&Figures { figures: &figures, limits, loads })?)
}

/// What a call asks a card of.
#[derive(Debug, Deserialize)]
pub(crate) struct Card {
    kit: Aboard,
    /// What of it is used up.
    #[serde(default)]
    used: IndexMap<String, u32>,
    #[serde(default)]
    top: Option<u16>,
}

/// What to reach for when something breaks, with what is left of the kit.
pub(crate) fn card(host: &Host, trip: &Trip, asked: &Card) -> Result<String, Refused> {
    let mut opened = trip.open(host)?;
    let packed = asked.kit.read(&opened.loaded.catalogue)?;
    opened.loaded.catalogue.items.extend(packed.own.clone());
    let rider = opened.rider();
    let (kit, stowage) = left(&packed, &asked.used);
    let aboard = answer::Aboard { kit: &kit, stowage: stowage.as_ref() };
    let top = usize::from(asked.top.unwrap_or(ON_THE_CARD));
    let answer = answer::card(&opened.loaded.catalogue, &opened.loaded.scenario, rider, aboard, top);
    let mut answer = answer.ok_or_else(|| Refused::Defect(say!("no bike `{}`", rider.bike)))?;
    answer.warnings.extend(opened.loaded.notes.iter().cloned());
    Ok(answers::card_of_failures(&answer)?)
}

/// The kit without what is used up, which goes from the first bag that has it.
fn left(packed: &PackedKit, used: &IndexMap<String, u32>) -> (Kit, Option<Stowage>) {
    let gone = |id: &str| used.get(id).copied().unwrap_or(0);
    let kit = Kit::new(packed.kit.iter().map(|(id, count)| (id.to_owned(), count.saturating_sub(gone(id)))));
    let stowage = packed.stowage.clone().map(|mut stowage| {
        for (id, count) in used {
            let mut open = *count;
            for there in stowage.values_mut().filter_map(|bag| bag.get_mut(id)) {
                let taken = open.min(*there);
                *there -= taken;
                open -= taken;
            }
        }
        stowage.values_mut().for_each(|bag| bag.retain(|_, count| *count > 0));
        stowage
    });
    (kit, stowage)
}
