//! Scenario x catalogue: what can happen on this bike, what could be carried for it, what the trip demands.
//!
//! The result, a [`Case`], is self-contained: functions, stocks and needs are numbered, templates are filled in, and
//! only items that can matter are left. Nothing after this stage looks names up again.

mod apart;
mod applies;
mod buying;
mod case;
mod containers;
mod exposure;
mod fits;
mod group;
mod measure;
mod member;
pub mod mount;
pub mod needs;
mod numbers;
mod reading;
mod relevant;
mod stage;

pub use applies::modifier;
pub use case::{Apart, Case, CaseFailure, CaseFunction, CaseItem, CaseRepair, Demand, LeftOut, Reason, amount};
pub use exposure::{Exposure, LegExposure};
pub use measure::{Amount, Measure};
pub use mount::{Limit, Mount, Scale, Setter};
pub use needs::camp::CLOTHING_CREDIT;
pub use needs::fuel::Range;
pub use stage::{resolve, resolve_group};
