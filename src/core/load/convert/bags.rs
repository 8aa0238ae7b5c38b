//! Bags.

use super::form::Form;
use super::inherit::resolved;
use super::money::Purse;
use super::{Draft, Merged, keep};
use crate::domain::{Bag, Side};
use crate::load::file::BagShape;
use crate::load::findings::Findings;
use crate::load::words::Access;

/// Converts all bags.
pub(super) fn bags(merged: &Merged, draft: &mut Draft, purse: &mut Purse, findings: &mut Findings) {
    for (id, entry) in &merged.bags {
        let Some((shape, lenient)) = resolved(id, &merged.bags, findings) else { continue };
        let form = Form { findings, place: entry.place.clone(), lenient };
        let bag = bag(id, shape, purse, form);
        keep!(draft, Bags, bags, id.clone(), entry.place.clone(), bag);
    }
}

fn bag(id: &str, shape: BagShape, purse: &mut Purse, mut form: Form<'_>) -> Bag {
    let price = shape.price.map(|price| purse.take(price, &form.place.key("price"), form.findings));
    Bag {
        id: id.to_owned(),
        name: form.name(shape.name),
        volume: form.need_any("volume", shape.volume),
        packing: form.need_any("packing", shape.packing).0,
        mass: form.need_any("mass", shape.mass),
        max_load: form.need_any("max_load", shape.max_load),
        longest: form.need_any("longest", shape.longest),
        quick: form.need("access", shape.access, Access::Deep) == Access::Quick,
        weatherproof: form.need_any("weatherproof", shape.weatherproof),
        side: form.need("side", shape.side, Side::Centre),
        ahead: form.need_any("ahead", shape.ahead),
        out: form.need_any("out", shape.out),
        height: form.need_any("height", shape.height),
        refuses: shape.refuses.unwrap_or_default(),
        price: form.need_any("price", price),
        basis: form.basis(shape.basis),
    }
}
