//! How often things go wrong, from what was seen: trip logs, call-outs, inspections and life tests made into rates.
//!
//! Only arithmetic: sources come in as plain data from the catalogue, and what comes out is written by
//! `fardel evidence --rates` into a catalogue file that is loaded like any other.
//!
//! Rates are typed in with the failures, from memory or as shares of a survey of workshop repairs, so they say how a failure
//! rises off the road and how it stands to others like it. How often things come at all is worked out from the sources under
//! `evidence`. Source l has seen `n[g,l]` events of group g where `E[g,l]` are expected by the typed-in rates, in its
//! kilometres, days or falls:
//!
//! ```text
//! n[g,l] ~ Poisson(theta[g] u[g,l] bias[g,l] E[g,l])     u ~ Gamma, mean 1, shape a: riders, bikes, ways of counting
//! theta[g] ~ Gamma(alpha, beta)                           alpha ~ exponential(1), beta ~ Gamma(0.1, 1)
//! shares within g ~ Dirichlet(typed-in shares x failures of g), and the counts of those that are told by name
//! worth = 1 / ((1 + 1/s) (1 + 1/a) (1 + v) - 1)           s, v: shape of theta, squared spread of the share
//! ```
//!
//! - **Logs** have the shape `a` of their group, estimated beside the others of its family: groups with typed-in rates from
//!   the survey, from memory, damage by the fall, falls. Their counts are overdispersed: falls go from 0 to 3.2 per 1000 km.
//! - **Call-outs, inspections and life tests** state their bias and `within`, the factor that they may be off by in nine
//!   cases of ten; `a = (1.645 / ln within)^2`. Call-outs know no distance: theirs is the one that their punctures come to.
//! - **The survey** is not counted: the typed-in shares are made from it. Groups typed in from it share one `alpha` and
//!   `beta`, the others another pair, so a group that nobody counted leans on those that were typed in on the same ground.
//! - **Everything is integrated on fixed grids** ([`hierarchy`]; George, Makov & Smith 1993, Scandinavian Journal of
//!   Statistics 20, 147-156). Tested on the ten pumps of Gaver & O'Muircheartaigh 1987 against printed posteriors.
//! - `worth` is for *one* rider's bike: the mean of all riders is known better than that.
//!
//! What it cannot do: few logs name surfaces, so how rates rise off the road stays as typed in; riders who publish logs are
//! not all riders; small repairs are told by few.

pub mod cell;
mod derive;
mod exposure;
pub mod grid;
pub mod hierarchy;
mod leave_out;
mod scatter;
pub mod shares;
mod told;

pub use cell::{log_count, shape_within};
pub use derive::{Derivation, Derived, LEAST, Pooled, derive};
pub use exposure::Reader;
pub use leave_out::{Foretold, leave_one_out};
pub use told::{Bearing, Overview, Rested, falls, overview, rested_on, rounded, updated};
