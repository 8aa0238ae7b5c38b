//! Preparations.

use super::failures::applies;
use super::form::Form;
use super::money::Purse;
use super::{Draft, Merged, keep};
use crate::domain::{Preparation, PreparationType};
use crate::load::file::PreparationShape;
use crate::load::findings::Findings;

/// Converts all preparations.
pub(super) fn preparations(merged: &Merged, draft: &mut Draft, purse: &mut Purse, findings: &mut Findings) {
    for (id, entry) in &merged.preparations {
        let form = Form::new(findings, entry.place.clone());
        let preparation = preparation(id, entry.shape.clone(), purse, form);
        keep!(draft, Preparations, preparations, id.clone(), entry.place.clone(), preparation);
    }
}

fn preparation(id: &str, shape: PreparationShape, purse: &mut Purse, mut form: Form<'_>) -> Preparation {
    let price = shape.price.map(|price| purse.take(price, &form.place.key("price"), form.findings));
    Preparation {
        id: id.to_owned(),
        name: form.name(shape.name),
        kind: form.need("type", shape.kind, PreparationType::Check),
        applies: applies(shape.applies),
        price: form.need_any("price", price),
        mass: form.need_any("mass", shape.mass),
        time: form.need_any("time", shape.time),
        effects: shape.effects.unwrap_or_default().into_iter().map(|(failure, factor)| (failure, factor.0)).collect(),
        basis: form.basis(shape.basis),
    }
}
