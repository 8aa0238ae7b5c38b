//! Numbers that are not known well, and what it is worth to know them better.
//!
//! Every number that a kit is chosen by is listed with its distribution ([`Number`]), which follows from what it is and what
//! it rests on ([`widths`]). A draw gives each a value, those of one system together with a common factor ([`draw`]); a case
//! with those values in it is a world like any other (`world`). What is gained by knowing a number before the kit is chosen
//! is worked out from many worlds ([`information`]).
//!
//! What is drawn: rates of failures, what limping costs, hours that a nuisance takes, times of repairs and what they restore,
//! falls by surface, what is the rider's own about them, load sensitivity, hours per fall, hours to help of each leg, and the
//! prices that the scenario does not state (`list`).
//!
//! ```text
//! rate      x Gamma factor of mean 1, shape = events that its evidence is worth, FEWEST_EVENTS at least
//! share     odds x log-normal factor of median 1          (restores, limps; 0 and 1 stay)
//! the rest  x log-normal factor of mean 1
//! score     = sqrt(IN_COMMON) x common + sqrt(1 - IN_COMMON) x own, both standard normal; value = quantile at the score
//! ```
//!
//! Rates of one system have a common factor, and so have its times, its restores, its limps and its nuisances, falls on all
//! surfaces, and hours to help of all legs; the rest is independent. A Gaussian copula, so each number keeps its own
//! distribution. How wide it is follows from what the number is and what it rests on
//! (from memory; [`widths`]); `fardel help certainty` has the table.
//!
//! What to measure first ([`information`]): what a number is
//! worth is what a better choice saves on average once it is known, the expected value of partial perfect information,
//!
//! ```text
//! gain(x) = min over kits of E[hours lost]  -  E over x of ( min over kits of E[hours lost | x] )
//! ```
//!
//! among a few of the kits that are best for some draw, picked greedily for what the best of them loses. The inner mean is a
//! regression over draws of everything (Strong, Oakley & Brennan 2014, Medical Decision Making 34, 311-326), here on `x` and on
//! its normal score to the third power. No draw judges a fit that it took part in: draws are dealt into `PARTS` parts, the kit is
//! chosen by the other parts, and the gain is the mean of what that choice saves, with the standard error of a mean. So the
//! estimate is unbiased for a rider who chooses by the fit, and not above the true gain but for chance. What is less than
//! `SURE` standard errors above nothing is not shown. A rider's falls count as one subject (all surfaces and what is the
//! rider's own), all rates of a system as another.

pub mod draw;
pub mod information;
mod list;
pub mod number;
mod quantile;
mod subjects;
pub mod widths;
mod world;

pub use draw::{Drawn, Uncertain};
pub use number::{Law, Number, Target};
pub use quantile::gamma;
pub use subjects::{Subject, What};
