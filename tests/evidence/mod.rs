//! Rates from evidence: the files agree with the derivation, and the derivation foretells what it does not know.

mod bases;
mod held_out;
mod magnitudes;
mod pooled;

use fardel::domain::{Catalogue, Failure};
use fardel::evidence::{Derivation, Reader, derive};
use fardel::load;
use std::sync::LazyLock;

/// The shipped catalogue.
static SHIPPED: LazyLock<Catalogue> = LazyLock::new(|| load::catalogue(&load::shipped(), &[]).unwrap());
/// What comes of its evidence.
static DERIVED: LazyLock<Derivation> = LazyLock::new(|| derive(&SHIPPED, None));

/// How the sources are read.
fn reader() -> Reader<'static> {
    Reader { catalogue: &SHIPPED, reading: SHIPPED.evidence.reading.as_ref().unwrap() }
}

/// Times in 1000 km of the usual mix, days counted.
fn on_the_mix(failure: &Failure) -> f64 {
    let per_day = 1000.0 / reader().reading.km_per_day;
    reader().on_the_mix(failure.rate.per_1000_km) + failure.rate.per_day * per_day
}
