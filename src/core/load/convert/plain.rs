//! The sections that need nothing but their required keys: attributes, needs, systems, the model of falls.

use super::form::Form;
use super::{Draft, Merged, keep};
use crate::diagnostic::{Code, quoted};
use crate::domain::{Attribute, BySurface, Model, Need, NeedRule, Pooling, System};
use crate::load::file::Surfaces;
use crate::load::findings::{Findings, Place};
use crate::load::numbers::{Amount, Events, Factor};
use fardel_words::say;

/// Attributes of bikes.
pub(super) fn attributes(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.attributes {
        let mut form = Form::new(findings, entry.place.clone());
        let name = form.name(entry.shape.name.clone());
        let values: Vec<String> = entry.shape.values.iter().flatten().map(|text| text.0.clone()).collect();
        twice(&values, &entry.place.key("values"), findings);
        keep!(draft, Attributes, attributes, id.clone(), entry.place.clone(), Attribute { name, values });
    }
}

/// Tells of texts listed twice.
pub(super) fn twice(texts: &[String], place: &Place, findings: &mut Findings) {
    let mut seen = indexmap::IndexSet::new();
    for (at, text) in texts.iter().enumerate() {
        if !seen.insert(text.as_str()) {
            let expected = say!("every name once in the list");
            findings.add(Code::DefinedTwice, &place.index(at), say!("{} again", quoted(text)), expected, None);
        }
    }
}

/// Needs of a trip.
pub(super) fn needs(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.needs {
        let shape = entry.shape.clone();
        let mut form = Form::new(findings, entry.place.clone());
        let name = form.name(shape.name);
        let unit = form.need_any("unit", shape.unit);
        let rule = form.need("rule", shape.rule, NeedRule::Hygiene);
        keep!(draft, Needs, needs, id.clone(), entry.place.clone(), Need { name, unit, rule });
    }
}

/// Parts of the bike.
pub(super) fn systems(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.systems {
        let shape = entry.shape.clone();
        let mut form = Form::new(findings, entry.place.clone());
        let system = System {
            name: form.name(shape.name),
            share: shape.share.map(|share| share.0),
            per_1000_km: shape.per_1000_km.map(|rate| rate.0),
            basis: form.basis(shape.basis),
        };
        if system.share.is_some_and(|share| share > 100.0) {
            let found = say!("the number `{}`", system.share.unwrap_or_default());
            findings.add(Code::OutOfRange, &entry.place.key("share"), found, say!("a percentage up to 100"), None);
        }
        keep!(draft, Systems, systems, id.clone(), entry.place.clone(), system);
    }
}

/// Falls and handling; without the section no falls are modelled.
pub(super) fn model(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    let Some(entry) = &merged.model else { return };
    let shape = entry.shape.clone();
    let mut form = Form::new(findings, entry.place.clone());
    let falls = form.need_any("falls_per_1000_km", shape.falls_per_1000_km);
    let skills = form.need_any("riding_skill", shape.riding_skill);
    let load_sensitivity = form.need_any("load_sensitivity", shape.load_sensitivity).0;
    let hours_per_fall = form.need_any("hours_per_fall", shape.hours_per_fall);
    let basis = form.basis(shape.basis);
    let falls_per_1000_km = every_surface(falls, &entry.place.key("falls_per_1000_km"), findings);
    let mut form = Form::new(findings, entry.place.key("riding_skill"));
    let riding_skill = [
        form.need_any("novice", skills.novice).0,
        form.need_any("intermediate", skills.intermediate).0,
        form.need_any("advanced", skills.advanced).0,
        form.need_any("expert", skills.expert).0,
    ];
    draft.catalogue.model = Model {
        falls_per_1000_km,
        typed_falls: None,
        falls_basis: None,
        falls_worth_events: shape.falls_worth_events.map_or(1.0, |events| events.0),
        riding_skill,
        load_sensitivity,
        hours_per_fall,
        pooling: Pooling::default(),
        basis,
    };
    fall_rate(merged, draft, findings);
}

/// Falls by evidence or by a rider's own rides, in place of those of the model.
fn fall_rate(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    let Some(entry) = &merged.fall_rate else { return };
    let mut form = Form::new(findings, entry.place.clone());
    let falls = form.need_any("per_1000_km", entry.shape.per_1000_km);
    let worth = form.need("worth_events", entry.shape.worth_events, Events(1.0)).0;
    let basis = form.basis(entry.shape.basis.clone());
    let model = &mut draft.catalogue.model;
    model.typed_falls = Some(model.falls_per_1000_km);
    model.falls_per_1000_km = every_surface(falls, &entry.place.key("per_1000_km"), findings);
    model.falls_worth_events = worth;
    if let Some(sensitivity) = entry.shape.load_sensitivity {
        model.load_sensitivity = sensitivity.0;
    }
    model.falls_basis = Some(basis);
}

pub(super) fn every_surface(values: Surfaces<Amount>, place: &Place, findings: &mut Findings) -> BySurface<f64> {
    Form::new(findings, place.clone()).every_surface(values).map(|amount| amount.0)
}

/// The multipliers of a ladder.
pub(super) fn ladder(id: &str, merged: &Merged, findings: &mut Findings) -> Option<BySurface<f64>> {
    let entry = merged.ladders.get(id)?;
    let shape = &entry.shape;
    let mut form = Form::new(findings, entry.place.clone());
    let one = Factor(1.0);
    let steps = BySurface::new([
        form.need("sealed", shape.sealed, one).0,
        form.need("gravel", shape.gravel, one).0,
        form.need("track", shape.track, one).0,
        form.need("rough", shape.rough, one).0,
    ]);
    form.basis(shape.basis.clone());
    Some(steps)
}
