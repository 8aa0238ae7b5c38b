//! Asking riders for numbers that nobody has published.
//!
//! The questions are put in four steps, as in the IDEA protocol (Hemming, Burgman, Hanea, McBride & Wintle 2018, A practical
//! guide to structured expert elicitation using the IDEA protocol, Methods in Ecology and Evolution 9, 169-181): lowest
//! plausible, highest plausible, best guess, and how sure one is that the truth lies between. Among them are questions
//! whose answers are published ([`calibration`]), by which the riders are scored (Cooke 1991, Experts in Uncertainty, Oxford
//! University Press; [`cooke`]). Answers are read back ([`answers`]) and pooled ([`pool`]).

pub mod answers;
pub mod ask;
pub mod calibration;
pub mod cooke;
pub mod learn;
pub mod pool;
pub mod quantiles;
pub mod question;

pub use answers::{Answers, read};
pub use ask::ask;
pub use learn::{Change, Elicited, learn};
pub use pool::{Pooled, Score, pool};
pub use quantiles::Quantiles;
pub use question::{About, Question};
