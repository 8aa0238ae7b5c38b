//! Asking riders for numbers that nobody has published.
//!
//! The questions are put in four steps, as in the IDEA protocol (Hemming, Burgman, Hanea, McBride & Wintle 2018, A practical
//! guide to structured expert elicitation using the IDEA protocol, Methods in Ecology and Evolution 9, 169-181): lowest
//! plausible, highest plausible, best guess, and how sure one is that the truth lies between. Among them are questions
//! whose answers are published ([`calibration`]), by which the riders are scored (Cooke 1991, Experts in Uncertainty, Oxford
//! University Press; [`cooke`]). Answers are read back ([`answers`]) and pooled ([`pool`]).
//!
//! `ask` puts the numbers that `measure-first` finds likely to be worth knowing (one standard error) as questions in four steps:
//! lowest, highest, best guess, confidence (IDEA protocol, Hemming et al. 2018). Intervals are brought to nine in ten about the
//! best guess: `low = best - (best - lowest) x 0.9 / confidence`. Ten questions have published answers
//! (`src/core/elicit/calibration.rs`). `pool` averages everybody's distributions, each even between the 5, 50 and 95 % quantiles:
//! all alike, and by Cooke's weights (calibration x information; no one is cut off; only riders who answered all known
//! questions; `src/core/elicit/cooke.rs`). The catalogue gets the mean by the three quantiles
//! (Keefer & Bodily 1983). A rate moves in all its parts by one factor, and is worth the events of the
//! Gamma distribution with the mean and variance of the pool, `mean^2 / variance`.

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
