//! Evidence: sources, groups of events, how to read them.

use super::form::Form;
use super::plain::every_surface;
use super::{Draft, Merged};
use crate::domain::{BySurface, EventGroup, EvidenceSource, Family, Map, Reading, SourceKind};
use crate::load::file::{EvidenceShape, Surfaces, Text};
use crate::load::findings::Findings;
use crate::load::numbers::{Amount, Share};
use crate::load::section::Section;

/// Converts all of it.
pub(super) fn evidence(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.evidence {
        draft.places.insert((Section::Evidence, id.clone()), entry.place.clone());
        let form = Form::new(findings, entry.place.clone());
        draft.catalogue.evidence.sources.insert(id.clone(), source(id, entry.shape.clone(), form));
    }
    for (id, entry) in &merged.event_groups {
        draft.places.insert((Section::EventGroups, id.clone()), entry.place.clone());
        draft.names.learn(Section::EventGroups, [id]);
        let mut form = Form::new(findings, entry.place.clone());
        let family = form.need("family", entry.shape.family, Family::Memory);
        let (system, failures) = if family == Family::Falls {
            (None, Vec::new())
        } else {
            let failures = form.need_any("failures", entry.shape.failures.clone());
            (Some(form.need_any("system", entry.shape.system.clone())), texts(Some(failures)))
        };
        let name = form.name(entry.shape.name.clone());
        let seldom_told = entry.shape.seldom_told.unwrap_or(false);
        let group = EventGroup { id: id.clone(), name, system, family, failures, seldom_told };
        draft.catalogue.evidence.groups.insert(id.clone(), group);
    }
    reading(merged, draft, findings);
}

fn reading(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    let Some(entry) = &merged.evidence_reading else { return };
    let mut form = Form::new(findings, entry.place.clone());
    let bikes = form.need_any("bikes", entry.shape.bikes.clone());
    let mix = form.need_any("mix", entry.shape.mix);
    let km_per_day = form.need("km_per_day", entry.shape.km_per_day, Amount(1.0)).0;
    let basis = form.basis(entry.shape.basis.clone());
    let mix = every_surface(amounts(mix), &entry.place.key("mix"), findings);
    draft.catalogue.evidence.reading = Some(Reading { bikes: texts(Some(bikes)), mix, km_per_day, basis });
}

fn source(id: &str, shape: EvidenceShape, mut form: Form<'_>) -> EvidenceSource {
    EvidenceSource {
        id: id.to_owned(),
        name: form.name(shape.name),
        kind: form.need("kind", shape.kind, SourceKind::TripLog),
        km: shape.km.unwrap_or_default().0,
        mix: shape.mix.map(|mix| mix.or(Share(0.0)).map(|share| share.0)),
        days: shape.days.map(|days| days.0),
        bikes: shape.bikes.map(|bikes| bikes.0),
        counts: plain(shape.counts.unwrap_or_default(), |count| count.0),
        whole: shape.whole.unwrap_or(false),
        silent_on: texts(shape.silent_on),
        bias: plain(shape.bias.unwrap_or_default(), |factor| factor.0),
        within: shape.within.map(|factor| factor.0),
        relative_to: shape.relative_to,
        blind: form.text("blind", shape.blind),
        held_out: shape.held_out.unwrap_or(false),
        basis: form.basis(shape.basis),
    }
}

fn plain<T>(shapes: Map<T>, number: fn(T) -> f64) -> Map<f64> {
    shapes.into_iter().map(|(id, shape)| (id, number(shape))).collect()
}

fn texts(shape: Option<Vec<Text>>) -> Vec<String> {
    shape.into_iter().flatten().map(|text| text.0).collect()
}

fn amounts(shares: Surfaces<Share>) -> Surfaces<Amount> {
    let amount = |share: Option<Share>| share.map(|share| Amount(share.0));
    Surfaces {
        sealed: amount(shares.sealed),
        gravel: amount(shares.gravel),
        track: amount(shares.track),
        rough: amount(shares.rough),
    }
}

/// The sum of the shares of a mix.
pub(crate) fn whole(mix: BySurface<f64>) -> f64 {
    mix.iter().map(|(_, share)| share).sum()
}
