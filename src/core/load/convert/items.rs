//! Items.

use super::form::Form;
use super::inherit::resolved;
use super::money::Purse;
use super::{Draft, Merged, keep};
use crate::diagnostic::Code;
use crate::domain::{Contribution, Item, Kind, Map};
use crate::load::file::{ContributionShape, Counted, ItemShape};
use crate::load::findings::Findings;
use crate::load::words::Access;
use fardel_words::say;

/// Converts all items.
pub(super) fn items(merged: &Merged, draft: &mut Draft, purse: &mut Purse, findings: &mut Findings) {
    for (id, entry) in &merged.items {
        let Some((shape, lenient)) = resolved(id, &merged.items, findings) else { continue };
        let form = Form { findings, place: entry.place.clone(), lenient };
        let item = item(id, shape, purse, form);
        keep!(draft, Items, items, id.clone(), entry.place.clone(), item);
    }
}

fn item(id: &str, shape: ItemShape, purse: &mut Purse, mut form: Form<'_>) -> Item {
    let price = shape.price.map(|price| purse.take(price, &form.place.key("price"), form.findings));
    let at_most = shape.at_most.map_or(1, |count| count.0);
    if at_most == 0 {
        let expected = say!("at least 1; leave an item at home with `never` in the scenario");
        form.findings.add(Code::OutOfRange, &form.place.key("at_most"), "`0`".to_owned(), expected, None);
    }
    let name = form.name(shape.name);
    Item {
        id: id.to_owned(),
        short: form.short(shape.short, &name),
        name,
        kind: form.need("kind", shape.kind, Kind::Tool),
        mass: form.need_any("mass", shape.mass),
        volume: form.need_any("volume", shape.volume),
        longest: form.need_any("longest", shape.longest),
        price: form.need_any("price", price),
        at_most,
        provides: counts(shape.provides),
        holds: counts(shape.holds),
        meets: contributions(shape.meets.unwrap_or_default(), &mut form),
        requires: counts(shape.requires),
        quick: shape.access == Some(Access::Quick),
        dry: shape.dry.unwrap_or(false),
        apart_from: shape.apart_from.unwrap_or_default(),
        personal: shape.personal.unwrap_or(false),
        on_request: shape.on_request.unwrap_or(false),
        basis: form.basis(shape.basis),
    }
}

/// Counts of zero say nothing and are dropped.
pub(super) fn counts(shape: Option<Counted>) -> Map<u32> {
    shape.unwrap_or_default().0.into_iter().filter(|(_, count)| *count > 0).collect()
}

fn contributions(shapes: Map<ContributionShape>, form: &mut Form<'_>) -> Map<Contribution> {
    let mut met = Map::new();
    for (need, shape) in shapes {
        let place = form.place.key("meets").key(&need);
        let mut inner = Form { findings: form.findings, place, lenient: form.lenient };
        let amount = inner.need_any("amount", shape.amount).0;
        met.insert(need, Contribution { amount, down_to: shape.down_to });
    }
    met
}
