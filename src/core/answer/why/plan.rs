//! What is said of an item or a failure.

use crate::answer::plan::{ItemCosts, Standing, TripSummary};
use crate::answer::sufficient::Set;
use crate::answer::tradeoff::Change;
use crate::domain::Kind;
use crate::resolve::Reason;
use crate::units::{Currency, Hours, Mass, Money};

/// The reasons.
#[derive(Debug, Clone)]
pub struct WhyAnswer {
    /// Where and who.
    pub trip: TripSummary,
    /// Currency of all money.
    pub currency: Currency,
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// What there is to say.
    pub about: About,
    /// Is every kit compared here the best of its sort?
    pub proven: bool,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the kit, which decide the cautions.
    pub kinds: Vec<Kind>,
}

/// What there is to say.
#[derive(Debug, Clone)]
pub enum About {
    /// An item in the kit.
    Carried(Carried),
    /// An item that could be taken and is not.
    Left(Left),
    /// An item that was never weighed.
    Dropped(Reason),
    /// A failure that can happen on this bike.
    Failure(FailureReasons),
    /// A failure that cannot.
    NotOnThisBike,
}

/// An item in the kit.
#[derive(Debug, Clone)]
pub struct Carried {
    /// Units of it.
    pub count: u32,
    /// Their mass.
    pub mass: Mass,
    /// Why it is there, beside what it saves.
    pub standing: Standing,
    /// Needs and failures it serves, and items that are useless without it.
    pub purposes: Vec<String>,
    /// What would be lost at each failure if it stayed at home and nothing else changed, the greatest first.
    pub covers: Vec<Cover>,
    /// All of that together, less what it costs.
    pub alone: Hours,
    /// What it costs.
    pub costs: ItemCosts,
    /// Names of needs that would not be met then.
    pub unmet: Vec<String>,
    /// The best kit without it; `None`: there is none.
    pub without: Option<Other>,
}

/// What an item does for one failure.
#[derive(Debug, Clone)]
pub struct Cover {
    /// As a rider would say it.
    pub failure: String,
    /// Expected hours lost more without the item.
    pub hours: Hours,
    /// Names of the other things in the kit that this takes as well; empty: it does it alone.
    pub with: Vec<String>,
}

/// An item that could be taken.
#[derive(Debug, Clone)]
pub struct Left {
    /// Mass of one.
    pub mass: Mass,
    /// Money for one; zero if it is owned.
    pub price: Money,
    /// What one would save on top of the kit as it is, limits aside, less what carrying it costs.
    pub on_top: Hours,
    /// What one costs.
    pub costs: ItemCosts,
    /// The best kit with it; `None`: there is none.
    pub with: Option<Other>,
}

/// The best kit when one thing is settled beforehand.
#[derive(Debug, Clone)]
pub struct Other {
    /// Net hours that it saves less than the best kit.
    pub loss: Hours,
    /// What comes in instead.
    pub entering: Vec<Change>,
    /// What goes out.
    pub leaving: Vec<Change>,
    /// Mass of that kit.
    pub mass: Mass,
    /// Chance of getting home with it, at least.
    pub self_recovery: f64,
}

/// A failure and how it is dealt with.
#[derive(Debug, Clone)]
pub struct FailureReasons {
    /// `stops`, `limps` or `nags`.
    pub outcome: &'static str,
    /// Expected occurrences.
    pub mean: f64,
    /// Expected hours lost to it with nothing aboard.
    pub hours_empty: Hours,
    /// Expected hours lost to it with the kit.
    pub hours_left: Hours,
    /// The repairs within the rider's skill, the most valuable first.
    pub repairs: Vec<RepairReasons>,
    /// The least skill that would allow more repairs.
    pub skill_wanted: Option<&'static str>,
}

/// One way to deal with a failure.
#[derive(Debug, Clone)]
pub struct RepairReasons {
    /// As a rider would say it.
    pub name: String,
    /// Expected hours it saves if it can always be done.
    pub hours: Hours,
    /// Share of the occurrences that the kit meets with it.
    pub share: f64,
    /// Things in the kit that it takes.
    pub uses: Vec<String>,
    /// Where the kit cannot do it: the lightest things that would make it possible.
    pub lightest: Option<Set>,
    /// The same for the least money.
    pub cheapest: Option<Set>,
}
