//! What is said of an item or a failure.

use crate::answer::plan::{ItemCosts, Standing, TripSummary};
use crate::answer::shapes::Cautions;
use crate::answer::shapes::ReasonWords;
use crate::answer::shapes::TripParts;
use crate::answer::sufficient::Set;
use crate::answer::tradeoff::Change;
use crate::domain::Kind;
use crate::resolve::Reason;
use crate::serial::{Number, Shown};
use crate::units::{Currency, Hours, Mass, Money};
use fardel_words::word;
use schemars::{JsonSchema, Schema};
use serde::Serialize;
use serde_json::Value;

/// The reasons.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct WhyAnswer {
    /// Where and who.
    #[serde(flatten, with = "TripParts")]
    pub trip: TripSummary,
    /// Currency of all money.
    #[serde(with = "Shown")]
    pub currency: Currency,
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// What there is to say.
    #[serde(flatten)]
    pub about: About,
    /// Was the trip packed anew, without the item or with it, to compare? If not, `packed_anew_without` and `packed_anew_with` are
    /// null.
    #[serde(rename = "packed_anew")]
    pub anew: bool,
    /// Is every kit compared here the best of its sort?
    #[serde(rename = "proven_optimal")]
    pub proven: bool,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the kit; written as the cautions that they call for, in words.
    #[serde(rename = "cautions", with = "Cautions")]
    pub kinds: Vec<Kind>,
}

/// What there is to say.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[serde(tag = "about", content = "reasons")]
#[schemars(transform = described)]
pub enum About {
    /// An item in the kit.
    #[serde(rename = "item in the kit")]
    Carried(Carried),
    /// An item that could be taken and is not.
    #[serde(rename = "item left out")]
    Left(Left),
    /// An item that was never weighed.
    #[serde(rename = "item not weighed")]
    Dropped(#[serde(with = "ReasonWords")] Reason),
    /// A failure that can happen on this bike.
    #[serde(rename = "failure")]
    Failure(FailureReasons),
    /// A failure that cannot.
    #[serde(rename = "failure of other bikes")]
    NotOnThisBike,
}

/// Says in the schema what the two fields are.
fn described(schema: &mut Schema) {
    let branches = schema.get_mut("oneOf").and_then(Value::as_array_mut).into_iter().flatten();
    for branch in branches {
        let reasons = branch["description"].clone();
        for (name, words) in [("about", Value::from(word!("What the name stands for."))), ("reasons", reasons)] {
            let property = branch.pointer_mut(&format!("/properties/{name}")).and_then(Value::as_object_mut);
            property.into_iter().for_each(|own| drop(own.insert("description".to_owned(), words.clone())));
        }
    }
}

/// An item in the kit.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Carried {
    /// Units of it.
    pub count: u32,
    /// Their mass.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Why it is there, beside what it saves.
    pub standing: Standing,
    /// Needs and failures it serves, and items that are useless without it.
    pub purposes: Vec<String>,
    /// What would be lost at each failure if it stayed at home and nothing else changed, the greatest first.
    pub covers: Vec<Cover>,
    /// All of that together, less what it costs.
    #[serde(rename = "hours_lost_nothing_else_changed", with = "Number")]
    pub alone: Hours,
    /// What it costs.
    pub costs: ItemCosts,
    /// Names of needs that would not be met then.
    #[serde(rename = "needs_unmet_then")]
    pub unmet: Vec<String>,
    /// The best kit without it; `None`: there is none.
    #[serde(rename = "packed_anew_without")]
    pub without: Option<Other>,
}

/// What an item does for one failure.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Cover {
    /// As a rider would say it.
    pub failure: String,
    /// Expected hours lost more without the item.
    #[serde(rename = "hours_lost", with = "Number")]
    pub hours: Hours,
    /// Names of the other things in the kit that this takes as well; empty: it does it alone.
    #[serde(rename = "together_with")]
    pub with: Vec<String>,
}

/// An item that could be taken.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Left {
    /// Mass of one.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Money for one; zero if it is owned.
    #[serde(with = "Number")]
    pub price: Money,
    /// What one would save on top of the kit as it is, limits aside, less what carrying it costs.
    #[serde(rename = "hours_saved_on_top", with = "Number")]
    pub on_top: Hours,
    /// What one costs.
    pub costs: ItemCosts,
    /// The best kit with it; `None`: there is none.
    #[serde(rename = "packed_anew_with")]
    pub with: Option<Other>,
}

/// The best kit when one thing is settled beforehand.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Other {
    /// Net hours that it saves less than the best kit.
    #[serde(rename = "hours_lost", with = "Number")]
    pub loss: Hours,
    /// What comes in instead.
    pub entering: Vec<Change>,
    /// What goes out.
    pub leaving: Vec<Change>,
    /// Mass of that kit.
    #[serde(rename = "mass_g", with = "Number")]
    pub mass: Mass,
    /// Chance of getting home with it, at least.
    pub self_recovery: f64,
}

/// A failure and how it is dealt with.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct FailureReasons {
    /// `stops`, `limps` or `nags`.
    pub outcome: &'static str,
    /// Expected occurrences.
    #[serde(rename = "expected_occurrences")]
    pub mean: f64,
    /// Expected hours lost to it with nothing aboard.
    #[serde(rename = "hours_lost_empty", with = "Number")]
    pub hours_empty: Hours,
    /// Expected hours lost to it with the kit.
    #[serde(rename = "hours_lost_with_kit", with = "Number")]
    pub hours_left: Hours,
    /// The repairs within the rider's skill, the most valuable first.
    pub repairs: Vec<RepairReasons>,
    /// The least skill that would allow more repairs.
    pub skill_wanted: Option<&'static str>,
}

/// One way to deal with a failure.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct RepairReasons {
    /// As a rider would say it.
    pub name: String,
    /// Expected hours it saves if it can always be done.
    #[serde(rename = "hours_saved_if_always_done", with = "Number")]
    pub hours: Hours,
    /// Share of the occurrences that the kit meets with it.
    #[serde(rename = "share_of_occurrences")]
    pub share: f64,
    /// Things in the kit that it takes.
    #[serde(rename = "with")]
    pub uses: Vec<String>,
    /// Where the kit cannot do it: the lightest things that would make it possible.
    #[serde(rename = "lightest_set")]
    pub lightest: Option<Set>,
    /// The same for the least money.
    #[serde(rename = "cheapest_set")]
    pub cheapest: Option<Set>,
}
