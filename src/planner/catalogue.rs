//! What the page shows of the catalogue: bikes, bags, things, failures, samples, prices. Units stand in the names.

use crate::host::Host;
use crate::refused::Refused;
use fardel_core::answer::cautions;
use fardel_core::domain::{
    BySurface, Catalogue, Kind, Map, PreparationType, Prices, RepairSkill, RidingSkill, Surface,
};
use fardel_core::find::mends;
use fardel_core::load;
use fardel_core::starter::{Ground, OwnedSet, Season};
use fardel_words::Language;
use include_dir::{Dir, include_dir};
use serde_json::{Value, json};
use std::path::Path;

static SCENARIOS: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/../../scenarios");

/// All of it.
#[allow(clippy::unnecessary_wraps, reason = "every call has one shape")]
pub(crate) fn catalogue(host: &Host) -> Result<String, Refused> {
    let known = host.catalogue();
    let whole = json!({
        "version": env!("CARGO_PKG_VERSION"),
        "currency": known.currency.to_string(),
        "bikes": bikes(known),
        "attributes": attributes(known),
        "bags": bags(known),
        "items": items(known),
        "failures": failures(known),
        "preparations": preparations(known),
        "checks": known.checks.values().map(|check| json!({ "id": check.id, "name": check.name })).collect::<Vec<_>>(),
        "needs": known.needs.iter().map(|(id, need)| json!({ "id": id, "name": need.name, "unit": need.unit })).collect::<Vec<_>>(),
        "surfaces": Surface::WORDS,
        "kinds": Kind::WORDS,
        "riding_skills": RidingSkill::WORDS,
        "repair_skills": RepairSkill::WORDS,
        "grounds": told(Ground::ALL.iter().map(|ground| (ground.word(), ground.means()))),
        "seasons": told(Season::ALL.iter().map(|season| (season.word(), season.means()))),
        "owned_sets": told(OwnedSet::ALL.iter().map(|set| (set.word(), set.told()))),
        "prices": prices(&known.prices),
        "samples": samples(),
        "cautions": cautions(Kind::ALL),
        "languages": Language::all().map(|own| json!({ "code": own.code(), "name": own.name() })).collect::<Vec<_>>(),
    });
    Ok(whole.to_string())
}

fn told(words: impl Iterator<Item = (&'static str, &'static str)>) -> Vec<Value> {
    words.map(|(word, means)| json!({ "word": word, "means": means })).collect()
}

fn attributes(known: &Catalogue) -> Vec<Value> {
    let each = known.attributes.iter();
    each.map(|(id, own)| json!({ "id": id, "name": own.name, "values": own.values })).collect()
}

fn bikes(known: &Catalogue) -> Vec<Value> {
    let each = known.bikes.values();
    each.map(|bike| {
        json!({
            "id": bike.id,
            "name": bike.name,
            "mass_g": bike.mass.grams(),
            "max_mass_g": bike.max_mass.grams(),
            "front_share": bike.front_share,
            "wheelbase_mm": bike.wheelbase.millimetres(),
            "front_axle_limit_g": bike.front_axle_limit.map(fardel_core::units::Mass::grams),
            "rear_axle_limit_g": bike.rear_axle_limit.map(fardel_core::units::Mass::grams),
            "front_load_index": bike.front_load_index,
            "rear_load_index": bike.rear_load_index,
            "tank_ml": bike.energy.tank().map(fardel_core::units::Volume::millilitres),
            "range_km": bike.energy.range().map(|range| by_surface(range.map(fardel_core::units::Distance::km))),
            "rider_ahead_mm": bike.rider_ahead.millimetres(),
            "passenger_ahead_mm": bike.passenger_ahead.millimetres(),
            "attributes": bike.attributes,
            "toolkit": bike.toolkit,
            "bags": bike.bags,
            "fitted": bike.fitted,
            "basis": bike.basis.to_string(),
        })
    })
    .collect()
}

fn bags(known: &Catalogue) -> Vec<Value> {
    let each = known.bags.values();
    each.map(|bag| {
        json!({
            "id": bag.id,
            "name": bag.name,
            "volume_ml": bag.volume.millilitres(),
            "usable_ml": bag.usable().millilitres(),
            "mass_g": bag.mass.grams(),
            "max_load_g": bag.max_load.grams(),
            "longest_mm": bag.longest.millimetres(),
            "quick": bag.quick,
            "weatherproof": bag.weatherproof,
            "side": bag.side,
            "ahead_mm": bag.ahead.millimetres(),
            "out_mm": bag.out.millimetres(),
            "height_mm": bag.height.millimetres(),
            "refuses": bag.refuses,
            "price": bag.price.units(),
        })
    })
    .collect()
}

fn items(known: &Catalogue) -> Vec<Value> {
    let mends: Map<Vec<&str>> = mends(known);
    let each = known.items.values();
    each.map(|item| {
        json!({
            "id": item.id,
            "name": item.name,
            "short": item.short,
            "kind": item.kind,
            "mass_g": item.mass.grams(),
            "volume_ml": item.volume.millilitres(),
            "longest_mm": item.longest.millimetres(),
            "price": item.price.units(),
            "at_most": item.at_most,
            "quick": item.quick,
            "dry": item.dry,
            "personal": item.personal,
            "on_request": item.on_request,
            "mends": mends.get(&item.id).map_or(&[][..], Vec::as_slice),
            "basis": item.basis.to_string(),
        })
    })
    .collect()
}

fn failures(known: &Catalogue) -> Vec<Value> {
    let each = known.failures.values();
    each.map(|failure| {
        json!({
            "id": failure.id,
            "name": failure.name,
            "system": known.systems.get(&failure.system).map_or(failure.system.as_str(), |system| system.name.as_str()),
            "outcome": failure.outcome.word(),
            "applies": failure.applies,
        })
    })
    .collect()
}

fn preparations(known: &Catalogue) -> Vec<Value> {
    let each = known.preparations.values();
    each.map(|own| {
        json!({
            "id": own.id,
            "name": own.name,
            "sort": own.kind,
            "fitted": own.kind == PreparationType::Fitted,
            "applies": own.applies,
            "minutes": own.time.get() * 60.0,
            "price": own.price.units(),
            "mass_g": own.mass.grams(),
        })
    })
    .collect()
}

fn by_surface(values: BySurface<f64>) -> Value {
    values
        .iter()
        .map(|(surface, value)| (surface.word().to_owned(), Value::from(value)))
        .collect::<serde_json::Map<_, _>>()
        .into()
}

fn prices(prices: &Prices) -> Value {
    json!({
        "weight": prices.weight,
        "speed_km_h": by_surface(prices.speed),
        "strain": by_surface(prices.strain),
        "hour": prices.hour.units(),
        "buying": prices.buying,
        "thing_h": prices.thing.get(),
        "rest_of_day_h": prices.rest_of_day.get(),
        "recovery": prices.recovery.units(),
        "night": prices.night.units(),
        "night_from_h": prices.night_from.get(),
        "dread": prices.dread,
        "basis": prices.basis.to_string(),
    })
}

/// The shipped trips.
fn samples() -> Vec<Value> {
    let mut files: Vec<_> = SCENARIOS.files().filter(|file| load::is_yaml(file.path())).collect();
    files.sort_by_key(|file| file.path());
    let sample = |file: &include_dir::File<'static>| {
        let (name, text) = (name(file.path())?, file.contents_utf8()?);
        let title = text.lines().find_map(|line| line.strip_prefix("name:")).unwrap_or(name).trim();
        Some(json!({ "name": name, "title": title, "text": text }))
    };
    files.into_iter().filter_map(sample).collect()
}

fn name(path: &Path) -> Option<&str> {
    path.file_name()?.to_str()
}
