//! Rates x exposure: how often each failure is to be expected, what each repair saves, how far each stock reaches.
//!
//! [`assess`] turns a [`Instance`] into [`RiskModel`], the numbers that `select` optimises, and [`RiskModel::at`] into those that
//! hold with a given kit aboard. [`value`](value()) says what a kit saves and costs by its own stakes,
//! [`value_in_model`] by those that `select` was given. At the kit that `select` settles on, the two are the same.

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
