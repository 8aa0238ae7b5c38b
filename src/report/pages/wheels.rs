//! What rests on the wheels, as a table with its remarks, and what is set for it.

use crate::Look;
use crate::told::Rows;
use crate::view::load::{binding, sets, setter, sides, weight};
use crate::view::setup::{LEGEND, TITLE, told};
use crate::words::percent;
use fardel_core::answer::{Loading, Wheels};
use fardel_core::resolve::Scale;
use fardel_words::{plain, say, word};
use serde::Serialize;

/// One loaded bike.
#[derive(Serialize)]
pub(super) struct Load {
    rows: Rows,
    remarks: Vec<String>,
    setup: Option<Setup>,
}

/// What is set for the load before leaving.
#[derive(Serialize)]
struct Setup {
    title: &'static str,
    legend: &'static str,
    short: String,
    rows: Rows,
    notes: Vec<String>,
}

fn setup(load: &Loading, look: &Look) -> Option<Setup> {
    let told = told(load.setup.as_ref()?, look);
    Some(Setup { title: plain(TITLE), legend: plain(LEGEND), short: told.short, rows: told.rows, notes: told.notes })
}

/// The table, a row for each scale: a phone has room for few columns.
pub(super) fn load(load: &Loading, look: &Look) -> Load {
    let row = |(name, scale): (&str, Scale)| {
        let limit = load.limits.iter().find(|limit| limit.scale == scale);
        let on = |wheels: Wheels| weight(wheels.on(scale), look);
        vec![
            name.to_owned(),
            on(load.ridden),
            on(load.bagged),
            on(load.loaded),
            limit.map_or_else(
                || say!("not stated"),
                |limit| format!("{} ({})", weight(limit.mass.kilograms(), look), setter(limit.setter)),
            ),
            load.used(scale).map_or_else(|| say!("not known"), percent),
        ]
    };
    let scales =
        [(word!("Front wheel"), Scale::Front), (word!("Rear wheel"), Scale::Rear), (word!("Together"), Scale::Gross)];
    let head = [word!("On the"), "#with people", "#with empty bags", "#with the kit", "#allowed", "#used"];
    let shares = [load.ridden, load.bagged, load.loaded].map(|wheels| percent(wheels.front_share()));
    let [ridden, bagged, loaded] = shares;
    let mut remarks = vec![
        say!(
            "Bike {}, people {}, empty bags {}, kit {}.",
            look.show(load.bike),
            look.show(load.people),
            look.show(load.bags),
            look.show(load.kit)
        ),
        say!("On the front wheel: {ridden} with people, {bagged} with empty bags, {loaded} with the kit."),
        binding(load, look),
    ];
    remarks.extend(sides(load, look));
    remarks.extend(sets(load).map(|text| text + "."));
    Load { rows: Rows::new(&head, scales.map(row).to_vec()), remarks, setup: setup(load, look) }
}
