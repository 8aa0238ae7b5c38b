//! The page of a season: what is bought most, which spare is carried where, coverage, what a support vehicle could bring,
//! and which numbers to measure first.

use super::{Paper, Part};
use crate::Look;
use crate::cautions::cautions;
use crate::told::Line;
use crate::words::{list, percent};
use fardel_core::domain::Kind;
use fardel_core::season::{Bought, Coverage, Season, Spare, Vehicle, most};
use fardel_core::units::{Hours, Mass, Quantity as _};
use fardel_words::{mark, plain, say, word};
use std::collections::BTreeMap;

/// Rows of each table on paper; the table for a spreadsheet and the JSON have all.
const SHOWN: usize = 20;
/// Bikes and routes named beside a spare.
const NAMED: usize = 3;

const VEHICLE: &str = mark!(
    "What no kit carries although it would mend something, by the hours still lost to that: the most that a vehicle \
could save if it were always there. What is short of one such thing may be short of others; riders alone on a leg have no vehicle."
);
const NUMBERS: &str = mark!(
    "Hours that a kit packed with the true rate would save, added up over the trips that were studied. From below: only kits \
were compared that some draw of all rates had asked for."
);
const TURNED: &str = mark!(
    "Hours lost, over the trips that were studied, by having packed for a number that is really so many times what was said."
);

/// The page of a season.
#[must_use]
#[allow(clippy::cast_precision_loss, reason = "counts of kits")]
pub fn season(season: &Season, look: &Look) -> Paper {
    let parts = [
        Part::new(
            word!("Bought most"),
            "",
            &[word!("Thing"), "#kits", "#how many", "#money"],
            top(most(&season.bought, |own: &Bought| own.kits as f64), |name, own| {
                vec![
                    name.to_owned(),
                    own.kits.to_string(),
                    own.units.to_string(),
                    say!("{:.0} {}", own.money, season.currency),
                ]
            }),
        ),
        Part::new(
            word!("Spares, and where they are carried"),
            word!("Hours: expected loss more, over all kits, if this spare alone had stayed at home."),
            &[word!("Spare"), "#kits", "#hours", word!("mostly on"), word!("mostly for")],
            top(most(&season.spares, |own: &Spare| own.hours), |_, own| {
                vec![
                    own.name.clone(),
                    own.kits.to_string(),
                    hours(own.hours, look),
                    first(&own.bikes),
                    first(&own.routes),
                ]
            }),
        ),
        covered(word!("Coverage by bike"), word!("Bike"), &season.by_bike(), look),
        covered(word!("Coverage by route"), word!("Route"), &season.by_route(), look),
        Part::new(
            word!("For the support vehicle"),
            plain(VEHICLE),
            &[word!("Things"), "#weigh", "#kits without", "#hours lost", word!("to"), "#expected times"],
            top(most(&season.vehicle, |own: &Vehicle| own.hours), |things, own| {
                let mass = look.show(grams(own.mass_g));
                let mends: Vec<String> =
                    most(&own.mends, |hours| *hours).iter().take(NAMED).map(|(name, _)| (*name).to_owned()).collect();
                let times = say!("{:.2}", own.occurrences);
                vec![things.to_owned(), mass, own.kits.to_string(), hours(own.hours, look), list(&mends), times]
            }),
        ),
        Part::new(
            word!("Rates to measure first"),
            plain(NUMBERS),
            &[word!("Failure"), "#trips", "#hours"],
            top(most(&season.numbers.rates, |own| own.2), |_, own| {
                vec![own.0.clone(), own.1.to_string(), hours(own.2, look)]
            }),
        ),
        Part::new(
            word!("Other numbers"),
            plain(TURNED),
            &[word!("Number"), "#hours"],
            top(most(&season.numbers.turned, |own| *own), |name, own| vec![name.to_owned(), hours(*own, look)]),
        ),
    ];
    Paper {
        title: say!("A season"),
        kind: word!("Season"),
        who: jobs(season),
        lines: summary(season, look),
        parts: parts.into_iter().flatten().collect(),
        notes: Vec::new(),
        cautions: cautions(&[Kind::Fuel]),
    }
}

fn jobs(season: &Season) -> String {
    let told = |(status, count): (&String, &u64)| {
        let words = match status.as_str() {
            "answered" => word!("answered"),
            "no_kit" => word!("without a kit"),
            "bad_input" => word!("with bad input"),
            _ => word!("ended by a defect"),
        };
        format!("{count} {words}")
    };
    let ended: Vec<String> = season.jobs.iter().map(told).collect();
    let all: u64 = season.jobs.values().sum();
    if ended.is_empty() { say!("No results.") } else { say!("{all} jobs: {}.", list(&ended)) }
}

#[allow(clippy::cast_precision_loss, reason = "counts of kits")]
fn summary(season: &Season, look: &Look) -> Vec<Line> {
    let mut lines = Vec::new();
    if season.kits > 0 {
        let all = season.by_bike().into_values().fold(Coverage::default(), Coverage::with);
        let mean = grams(season.mass_g / season.kits as f64);
        let money: f64 = season.bought.values().map(|own| own.money).sum();
        lines.push(Line::new("Kits", say!("{}, {} on average.", season.kits, look.show(mean))));
        lines.push(Line::new("To buy", say!("{money:.0} {} in all.", season.currency)));
        let text = say!(
            "the kits save {} of the hours that breakdowns would cost; on average, {} of the riders are not stranded.",
            percent(all.share()),
            percent(all.mean_home())
        );
        lines.push(Line::new("Covered", text));
    }
    if season.numbers.trips > 0 {
        let text = say!(
            "{} trips; to know every uncertain number before packing would save {} on all of them together.",
            season.numbers.trips,
            hours(season.numbers.all_rates, look)
        );
        lines.push(Line::new("Studied", text));
    }
    lines
}

fn top<T>(rows: Vec<(&str, &T)>, row: impl Fn(&str, &T) -> Vec<String>) -> Vec<Vec<String>> {
    rows.into_iter().take(SHOWN).map(|(name, own)| row(name, own)).collect()
}

fn covered(title: &'static str, what: &str, table: &BTreeMap<String, Coverage>, look: &Look) -> Option<Part> {
    let row = |(name, own): (&String, &Coverage)| {
        vec![
            name.clone(),
            own.kits.to_string(),
            hours(own.hours_empty, look),
            hours(own.hours_left, look),
            percent(own.share()),
            percent(own.mean_home()),
        ]
    };
    let head = [what, "#kits", "#lost without kit", "#with it", "#covered", "#gets home"];
    Part::new(title, "", &head, table.iter().map(row).collect())
}

fn first(table: &BTreeMap<String, u64>) -> String {
    #[allow(clippy::cast_precision_loss, reason = "a count of kits")]
    let rows = most(table, |count| *count as f64);
    let shown: Vec<String> = rows.iter().take(NAMED).map(|(name, count)| format!("{name} ({count})")).collect();
    list(&shown)
}

fn grams(grams: f64) -> Mass {
    Mass::from_base(grams * 1000.0)
}

fn hours(hours: f64, look: &Look) -> String {
    look.show(Hours::new(hours))
}
