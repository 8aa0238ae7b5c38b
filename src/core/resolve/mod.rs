//! Scenario x catalogue: what can happen on this bike, what could be carried for it, what the trip demands.
//!
//! The result, a [`Instance`], is self-contained: functions, stocks and needs are numbered, templates are filled in, and
//! only items that can matter are left. Nothing after this stage looks names up again.

mod apart;
mod applies;
mod buying;
mod containers;
mod exposure;
mod fits;
mod group;
mod instance;
mod measure;
mod member;
pub mod mount;
pub mod needs;
mod numbers;
mod reading;
mod relevant;
mod sets;
mod stage;

pub use applies::modifier;
pub use exposure::{Exposure, LegExposure};
pub use instance::{
    Apart, Demand, Instance, InstanceFailure, InstanceFunction, InstanceItem, InstanceRepair, InstanceSet, LeftOut,
    Reason, amount,
};
pub use measure::{Amount, Measure};
pub use mount::{Limit, Mount, Scale, Setter};
pub use needs::camp::CLOTHING_CREDIT;
pub use needs::charge::ChargeRange;
pub use needs::fuel::Range;
pub use stage::{resolve, resolve_group};
