//! Rates x exposure: how often each failure is to be expected, what each repair saves, how far each stock reaches.
//!
//! [`assess`] turns a [`Instance`] into [`RiskModel`], the numbers that `select` optimises, and [`RiskModel::at`] into those that
//! hold with a given kit aboard. [`value`](value()) says what a kit saves and costs by its own stakes,
//! [`value_in_model`] by those that `select` was given. At the kit that `select` settles on, the two are the same.
//!
//! # From rates to hours
//!
//! For failure f, leg l, surface s and repair r, with `modifier` the product of the effects of fitted parts and
//! preparations that are done:
//!
//! ```text
//! falls[l]     = skill factor x sum over s of falls per 1000 km[s] x km[l,s] / 1000             (with an empty kit)
//! mean[f,l]    = modifier[f] x (sum over s of rate[f,s] x km[l,s] / 1000 + per day x days + per fall x falls[l])
//! fetched[l]   = hours to help[l] + rest of day + (recovery + night, where help is far) / worth of an hour
//! hours[f,l]   = fetched[l] if f stops the bike; limps share x that if it limps; nags hours if it nags
//! dread[f,l]   = dread x hours to help[l] if f stops the bike, else 0
//! benefit[f,r] = sum over l of mean[f,l] x max(0, restores[r] x (hours[f,l] + dread[f,l]) - time[r])
//! ```
//!
//! The first two lines are in `means`, the others in `model`. The maximum is taken for each leg, because nobody begins
//! a repair that takes longer than help does.
//!
//! A repair that takes a second rider (`riders: 2`) has no benefit on legs that fewer riders ride together, and counts
//! in no other sum over such legs. The riders are those of the scenario who ride the leg, whether they share a kit or
//! each pack their own. A passenger does not count, and nobody is expected to come by. The share of a failure's
//! occurrences that such a repair meets is one number for the whole trip. On a trip ridden partly alone it keeps lesser
//! repairs from what it cannot do itself. That errs on the low side; the rehearsal goes event by event and does better.
//!
//! # Stocks
//!
//! A repair meets what better repairs of the same failure leave over, as far as its stocks reach, and the repairs of
//! one failure share a stock. The units wanted of a stock are a compound Poisson number: each failure draws with what
//! the better repairs *of the kit in hand* leave over, and takes the units of its first repair that uses the stock.
//! Panjer's recursion gives `P(U = u)`; the k-th unit is worth the share `P(U >= k) / E[U]` of the demand (`demand`).
//! Shares and demands depend on each other and are iterated from above to their largest fixed point (`division`). So
//! the figures depend on the kit ([`RiskModel::at`]) and not on what else the catalogue holds. The rungs of a ladder
//! are as long as the greatest common divisor of what the items hold. The ladder ends where a rung is worth less than a
//! solver can see.
//!
//! # Weight
//!
//! One more kilogram makes the bike fall more often and hard riding slower:
//!
//! ```text
//! falls  = sum over l of falls[l] x load sensitivity / bike mass x
//!          (hours per fall + sum over f of modifier[f] x per fall[f] x hours left after the kit's own repairs)
//! riding = weight x sum over l, s of km[l,s] / speed[s] x strain[s] / kg moved          (bike, people, empty bags)
//! ```
//!
//! The means above use the falls of the empty kit; the rise with mass is in this price and nowhere else. What buying
//! and packing cost is in [`crate::domain`] (`prices`) and `resolve` (`buying`).
//!
//! # The chance of getting home
//!
//! The chance that is shown comes from a hundred thousand trips ridden event by event (`answer`, `home`), with its
//! standard error. [`recovery`] has a lower bound for a rider who keeps for each stop what it needs. Limping home
//! counts as home.

pub mod demand;
mod division;
pub mod means;
mod model;
pub mod recovery;
pub mod value;

pub use demand::{CompoundPoisson, Ladder};
pub use division::Division;
pub use model::{PerKilogram, RepairRisk, RiskModel, assess};
pub use value::{KitValue, Terms, value, value_in_model};

#[allow(unused_imports, reason = "named in the docs above")]
use crate::resolve::Instance;
