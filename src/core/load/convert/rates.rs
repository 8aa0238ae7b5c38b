//! Rates: stated, or taken from the system's anchor.
//!
//! rate on surface s = `per_1000_km` of the system x share of the system's repairs x ladder at s.

use super::form::Form;
use super::plain::ladder;
use super::{Draft, Merged};
use crate::diagnostic::Code;
use crate::domain::{BySurface, Rate};
use crate::load::file::{FailureShape, RateShape};
use crate::load::numbers::{Amount, Events};
use crate::load::section::Section;
use fardel_words::{say, word};

/// The rate of a failure.
pub(super) fn rate(failure: &FailureShape, merged: &Merged, draft: &Draft, form: &mut Form<'_>) -> Rate {
    let told = form.findings.is_spoilt(&form.place.key("rate"));
    let shape = form.need_any("rate", failure.rate.clone());
    let lenient = told || failure.rate.is_none();
    read(failure, shape, lenient, merged, draft, form)
}

/// The rate typed in where evidence gives another one.
pub(super) fn typed(failure: &FailureShape, merged: &Merged, draft: &Draft, form: &mut Form<'_>) -> Option<Rate> {
    failure.typed.clone().map(|shape| read(failure, shape, false, merged, draft, form))
}

fn read(
    failure: &FailureShape,
    shape: RateShape,
    lenient: bool,
    merged: &Merged,
    draft: &Draft,
    form: &mut Form<'_>,
) -> Rate {
    let mut inner = Form { findings: form.findings, place: form.place.key("rate"), lenient };
    let worth_events = inner.need("worth_events", shape.worth_events, Events(1.0)).0;
    Rate {
        per_1000_km: per_1000_km(failure, &shape, merged, draft, &mut inner),
        per_day: shape.per_day.unwrap_or_default().0,
        per_fall: shape.per_fall.unwrap_or_default().0,
        basis: inner.basis(shape.basis),
        worth_events,
    }
}

fn per_1000_km(
    failure: &FailureShape,
    shape: &RateShape,
    merged: &Merged,
    draft: &Draft,
    form: &mut Form<'_>,
) -> BySurface<f64> {
    let none = BySurface::new([0.0; 4]);
    let stated = shape.per_1000_km.map(|rate| rate.or(Amount(0.0)).map(|amount| amount.0));
    let keys = ["per_1000_km", "per_day", "per_fall", "share_of_system", "ladder"];
    if form.lenient || !form.findings.sound(&form.place, &keys) {
        return stated.unwrap_or(none);
    }
    match (stated, shape.share_of_system, shape.ladder.as_deref()) {
        (Some(stated), None, None) => stated,
        (None, None, None) if shape.per_day.is_some() || shape.per_fall.is_some() => none,
        (None, Some(share), Some(name)) => {
            let steps = ladder_of(name, merged, draft, form);
            let anchor = anchor_of(failure, merged, form);
            steps.map(|step| step * anchor * share.0)
        }
        (None, None, None) => unclear(word!("no rate"), form),
        (Some(_), ..) => unclear(word!("a stated rate and a share of the system"), form),
        (None, Some(_), None) => unclear(word!("`share_of_system` without `ladder`"), form),
        (None, None, Some(_)) => unclear(word!("`ladder` without `share_of_system`"), form),
    }
}

fn unclear(found: &str, form: &mut Form<'_>) -> BySurface<f64> {
    let expected = say!("either `per_1000_km` (or `per_day`, `per_fall`), or `share_of_system` with `ladder`");
    form.findings.add(Code::UnclearRate, &form.place, found.to_owned(), expected, None);
    BySurface::new([0.0; 4])
}

fn ladder_of(name: &str, merged: &Merged, draft: &Draft, form: &mut Form<'_>) -> BySurface<f64> {
    draft.names.check(Section::Ladders, name, &form.place.key("ladder"), form.findings);
    ladder(name, merged, form.findings).unwrap_or_default()
}

/// The system's repairs per 1000 km on sealed roads.
fn anchor_of(failure: &FailureShape, merged: &Merged, form: &mut Form<'_>) -> f64 {
    // An unknown system has been told already.
    let Some(entry) = failure.system.as_deref().and_then(|id| merged.systems.get(id)) else { return 0.0 };
    let spoilt = form.findings.is_spoilt(&entry.place.key("per_1000_km"));
    if entry.shape.per_1000_km.is_none() && !spoilt {
        let found = say!("a share of `{}`, which has no `per_1000_km`", failure.system.as_deref().unwrap_or_default());
        let expected = say!("a system with an anchor, or a stated rate");
        form.findings.add(Code::UnclearRate, &form.place.key("share_of_system"), found, expected, None);
    }
    entry.shape.per_1000_km.unwrap_or_default().0
}
