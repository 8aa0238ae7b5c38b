//! What rests on the wheels before and after, what they may bear, and which limit binds the kit.

use super::table::{Set, table};
use super::{Look, wrapped};
use crate::view::load::{binding, setter, sides, weight};
use crate::words::percent;
use fardel_core::answer::{Loading, PackAnswer, Wheels};
use fardel_core::resolve::Scale;

pub(super) fn load(answer: &PackAnswer, look: &Look) -> String {
    answer.loads.iter().map(|load| one(load, look)).collect::<Vec<_>>().join("\n")
}

pub(super) fn one(load: &Loading, look: &Look) -> String {
    let scales = [Scale::Front, Scale::Rear, Scale::Gross];
    let carried = |label: String, wheels: Wheels| {
        let cells = scales.iter().map(|scale| weight(wheels.on(*scale), look));
        std::iter::once(label).chain(cells).chain([percent(wheels.front_share())]).collect::<Vec<_>>()
    };
    let limit = |scale: &Scale| load.limits.iter().find(|limit| limit.scale == *scale);
    let allowed = scales.iter().map(|scale| {
        limit(scale).map_or_else(String::new, |limit| {
            format!("{}: {}", setter(limit.setter), weight(limit.mass.kilograms(), look))
        })
    });
    let used = scales.iter().map(|scale| load.used(*scale).map_or_else(String::new, percent));
    let rows = vec![
        carried(format!("bike {} and people {}", look.show(load.bike), look.show(load.people)), load.ridden),
        carried(format!("with empty bags, {}", look.show(load.bags)), load.bagged),
        carried(format!("with the kit, {}", look.show(load.kit)), load.loaded),
        std::iter::once("allowed".to_owned()).chain(allowed).chain([String::new()]).collect(),
        std::iter::once("used".to_owned()).chain(used).chain([String::new()]).collect(),
    ];
    let head = ["", "front wheel", "rear wheel", "together", "on the front"];
    let right = Set::Right(None);
    let mut text = super::titled(&format!("Load on the wheels of the {}", load.bike_name), look);
    text += &table(&head, &[Set::Left(None), right, right, right, right], rows, look);
    text += &wrapped(&format!("- {}", binding(load, look)), look, "  ");
    if let Some(sides) = sides(load, look) {
        text += &wrapped(&format!("- {sides}"), look, "  ");
    }
    text
}
