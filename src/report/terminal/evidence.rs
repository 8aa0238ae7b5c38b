//! What rates rest on, as a rider reads it.

use super::table::{Set, table};
use super::{Look, how_to_read, strong, wrapped};
use fardel_core::domain::{Catalogue, Failure};
use fardel_core::evidence::{Bearing, Overview, Rested};
use fardel_words::{mark, plain, say, word};

/// All groups of events.
#[must_use]
pub fn evidence(groups: &[Overview], look: &Look) -> String {
    let head =
        [word!("group of events"), word!("sources"), word!("seen"), word!("typed in"), word!("now"), word!("factor")];
    let set = [
        Set::Left(Some(30)),
        Set::Right(Some(9)),
        Set::Right(Some(6)),
        Set::Right(Some(9)),
        Set::Right(Some(7)),
        Set::Right(Some(24)),
    ];
    table(&head, &set, groups.iter().map(row).collect(), look) + "\n" + &how_to_read(NOTES.map(plain), look)
}

const NOTES: [&str; 4] = [
    mark!(
        "Sources are trip logs, and beside them call-outs, inspections and life tests. Seen is what the logs count; typed in and now \
     are what the rates before and after the evidence would have in them."
    ),
    mark!(
        "The factor is that on the typed-in rates; in brackets what it lies between nine times out of ten, for the mean of all riders."
    ),
    mark!(
        "Riders who keep a log are not all riders, and most logs name no surfaces: how a rate rises off the road is as it was typed in."
    ),
    mark!(
        "Where few sources bear on a group, it leans on the other groups whose rates were typed in on the same ground."
    ),
];

fn row(group: &Overview) -> Vec<String> {
    let (mean, low, high) = group.factor;
    let others = if group.sources.1 > 0 { format!(" + {}", group.sources.1) } else { String::new() };
    vec![
        group.name.clone(),
        format!("{}{others}", group.sources.0),
        format!("{}", group.seen),
        say!("{:.2}", group.typed),
        say!("{:.1}", group.found),
        say!("{} ({} to {})", short(mean), short(low), short(high)),
    ]
}

/// One failure.
#[must_use]
pub fn rested(catalogue: &Catalogue, failure: &Failure, rested: Option<&Rested>, look: &Look) -> String {
    let mut text = wrapped(&format!("{}, {}", strong(&failure.name), failure.rate.basis), look, "  ");
    let Some(rested) = rested else {
        return text + &wrapped(word!("No source bears on it: the rate is as it was typed in."), look, "  ");
    };
    let (low, high) = rested.width;
    text += &wrapped(
        &say!(
            "Counted under {}. The typed-in rate is multiplied by {} (its group by {}). It is worth {} events for one bike: \
             nine times out of ten that bike's rate is between {} and {} times the mean.",
            rested.group,
            short(rested.factors.1),
            short(rested.factors.0),
            short(rested.worth),
            short(low),
            short(high)
        ),
        look,
        "  ",
    );
    let head = [word!("source, and what it cannot see"), word!("seen"), word!("typed in"), word!("now")];
    let set = [Set::Left(None), Set::Right(Some(8)), Set::Right(Some(9)), Set::Right(Some(9))];
    text.push('\n');
    text + &table(&head, &set, rested.bearings.iter().map(|own| bearing(catalogue, own)).collect(), look)
}

fn bearing(catalogue: &Catalogue, own: &Bearing) -> Vec<String> {
    let source = catalogue.evidence.sources.get(&own.source);
    let about = source.map_or_else(String::new, |source| say!(" ({}). Blind to: {}", source.basis, source.blind));
    vec![format!("{}{about}", own.name), short(own.seen), short(own.typed), short(own.found)]
}

/// Two figures that count.
fn short(value: f64) -> String {
    let rounded: f64 = format!("{value:.1e}").parse().unwrap_or(value);
    format!("{rounded}")
}
