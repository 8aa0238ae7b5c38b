//! The curve of best kits, in words.

use super::{Cell, Names, Section, Typed, View};
use crate::Look;
use crate::amount::{amount, money, next};
use crate::told::Line;
use crate::words::{counted, list, percent};
use fardel_core::answer::{Change, TradeoffAnswer, TradeoffPoint};
use fardel_core::resolve::{Amount, Measure};
use fardel_core::units::Hours;
use fardel_words::{mark, say, several, word};

fn word(measure: Measure) -> &'static str {
    match measure {
        Measure::Mass => word!("weight"),
        Measure::Volume => word!("room"),
        Measure::Money => word!("money"),
    }
}

/// What the rows are.
pub(crate) fn opening(answer: &TradeoffAnswer) -> String {
    let all = if answer.points.iter().all(|point| point.proven) {
        word!("Each row is the best kit under its limit, proven.")
    } else {
        word!("Rows are the best kits found under their limits; those not proven say so.")
    };
    say!("What more {} buys {} on a {}. {all}", word(answer.measure), answer.trip.rider, answer.trip.bike)
}

/// Where the curve begins and ends, and where it flattens.
pub(crate) fn ends(answer: &TradeoffAnswer, look: &Look) -> Vec<Line> {
    let show = |value: Amount| amount(answer.measure, value, answer.currency, look);
    let mut lines = vec![if answer.least_exact {
        Line::new("Least", say!("{}: with less, the needs of the trip cannot be met.", show(answer.least)))
    } else {
        let text = say!(
            "{}: with less, the needs of the trip cannot be met. Whether that little can be stowed is not settled.",
            show(answer.least)
        );
        Line::new("Least", text)
    }];
    if !answer.too_low.is_empty() {
        let low: Vec<String> = answer.too_low.iter().map(|limit| show(*limit)).collect();
        lines.push(Line::new("Too little", say!("for any kit: {}.", list(&low))));
    }
    if let Some(worth) = answer.worth {
        lines.push(Line::new("Pays to", say!("{}: beyond that, {}.", show(worth), own_price(answer))));
    }
    if let Some(from) = answer.not_worth_a_minute {
        let text = say!(
            "from {} on, {} more save less than a minute on average.",
            show(from),
            next(answer.measure, answer.currency, look)
        );
        lines.push(Line::new("Flattens", text));
    }
    let why = match answer.measure {
        Measure::Mass => word!("nothing more is worth its own weight"),
        Measure::Volume => word!("more room would stay empty"),
        Measure::Money => word!("nothing more is worth buying, at any price"),
    };
    lines.push(Line::new("Enough", say!("{}: beyond that, {why}.", show(answer.enough))));
    lines
}

/// Where the rider's own price stops the curve.
fn own_price(answer: &TradeoffAnswer) -> String {
    if answer.measure == Measure::Mass {
        let kilogram = minutes(Hours::new(answer.prices.kilogram.hours()));
        return say!("a kilogram costs you more ({kilogram} on this trip) than it saves");
    }
    let hour = money(answer.prices.hour, answer.currency);
    say!("what is bought costs you more (at {hour} an hour) than it saves")
}

/// Limit, what the kit takes, things, hours saved, net of weight, chance of getting home, gain of a step, remarks.
pub(crate) fn rows(answer: &TradeoffAnswer, look: &Look) -> Vec<Vec<String>> {
    groups(answer).into_iter().map(|group| row(answer, group, look)).collect()
}

/// What the marks mean.
pub(crate) const LEGEND: &str = mark!(
    "  \"net\": what is saved less what the kit costs by your prices, but for the price of what is limited here. \"gets home\": chance that no breakdown leaves you stranded. *: on the envelope; a row \
without it gives less for what it takes than a mixture of the rows with it on either side."
);

/// Limits under which the kit is the same make one row.
fn groups(answer: &TradeoffAnswer) -> Vec<&[TradeoffPoint]> {
    answer.points.chunk_by(|a, b| a.kit == b.kit).collect()
}

fn row(answer: &TradeoffAnswer, group: &[TradeoffPoint], look: &Look) -> Vec<String> {
    let show = |value: Amount| amount(answer.measure, value, answer.currency, look);
    let (point, last) = (&group[0], &group[group.len() - 1]);
    let mut marks = Vec::new();
    if point.on_envelope {
        marks.push("*".to_owned());
    }
    if group.iter().any(|point| answer.own_limit == Some(point.limit)) {
        marks.push(say!("your limit"));
    }
    if !point.proven {
        let more = Hours::new((point.bound.get() - point.net().get()).max(0.0));
        marks.push(say!("not proven: up to {} more", look.show(more)));
    }
    vec![
        if group.len() > 1 { say!("{} to {}", show(point.limit), show(last.limit)) } else { show(point.limit) },
        show(point.used),
        point.units.to_string(),
        fine(point.saved),
        fine(point.net()),
        percent(point.self_recovery),
        point.step.gain.map_or_else(String::new, minutes),
        marks.join(" "),
    ]
}

/// Hours with two digits: neighbours differ by little.
fn fine(hours: Hours) -> String {
    // Adding zero keeps a weight that costs seconds from showing as minus nothing.
    say!("{:.2} h", (hours.get() * 100.0).round() / 100.0 + 0.0)
}

fn minutes(hours: Hours) -> String {
    let minutes = hours.get() * 60.0;
    if minutes < 9.95 { say!("{minutes:.1} min") } else { say!("{minutes:.0} min") }
}

/// For each row but the first: its limit, and what comes and goes.
pub(crate) fn steps(answer: &TradeoffAnswer, look: &Look) -> Vec<(String, String)> {
    let mut steps = Vec::new();
    for group in groups(answer).into_iter().skip(1) {
        let point = &group[0];
        let limit = amount(answer.measure, point.limit, answer.currency, look);
        let line = match (named(&point.step.entering), named(&point.step.leaving)) {
            (None, None) => say!("the same things"),
            (Some(entering), None) => say!("in: {entering}"),
            (None, Some(leaving)) => say!("out: {leaving}"),
            (Some(entering), Some(leaving)) => say!("in: {entering}. Out: {leaving}"),
        };
        steps.push((limit, line));
    }
    steps
}

fn named(changes: &[Change]) -> Option<String> {
    let names: Vec<String> = changes.iter().map(|change| counted(change.count, &change.name)).collect();
    // Names hold commas.
    (!names.is_empty()).then(|| names.join("; "))
}

/// How to read what each budget buys.
pub(crate) const BUYING: &str =
    mark!("Things you own cost nothing. Each line: what a budget buys that the one before it does not.");

/// For each row: its budget, and what that buys.
pub(crate) fn purchases(answer: &TradeoffAnswer, look: &Look) -> Vec<(String, String)> {
    let mut steps = Vec::new();
    let groups = groups(answer);
    for (at, group) in groups.iter().enumerate() {
        let point = &group[0];
        let budget = amount(answer.measure, point.limit, answer.currency, look);
        let step = &point.step;
        let line = match (priced(answer, &step.bought), named(&step.not_bought)) {
            (None, None) if at == 0 => say!("nothing"),
            (None, None) => say!("nothing new"),
            (Some(bought), None) => bought,
            (None, Some(not)) => say!("no longer {not}"),
            (Some(bought), Some(not)) => say!("{bought} instead of {not}"),
        };
        let saves = match at.checked_sub(1).map(|before| &groups[before][0]) {
            Some(before) => {
                let more = point.net().get() - before.net().get();
                say!(": saves {} more", look.show(Hours::new(more.max(0.0))))
            }
            None => say!(": with what you own, saves {}", look.show(point.net())),
        };
        steps.push((budget, line + &saves));
    }
    steps
}

fn priced(answer: &TradeoffAnswer, changes: &[Change]) -> Option<String> {
    let price =
        |change: &Change| format!("{} ({})", counted(change.count, &change.name), money(change.price, answer.currency));
    let names: Vec<String> = changes.iter().map(price).collect();
    (!names.is_empty()).then(|| names.join("; "))
}

/// So many rows of the curve, and so many steps, are shown.
const FEW: usize = 12;
/// Of the remarks of a row, a screen shows what is short.
const COLUMNS: usize = 7;

/// The view of `tradeoff`.
#[must_use]
pub fn tradeoff(answer: &TradeoffAnswer, names: &Names, typed: &Typed, look: &Look) -> View {
    let cells = |row: Vec<String>| row.into_iter().take(COLUMNS).map(Cell::from).collect::<Vec<_>>();
    let each = say!("#per {} more", next(answer.measure, answer.currency, look));
    let head = ["#limit", "#kit takes", "#things", "#saves", "#net", "#gets home", each.as_str()];
    let rows = rows(answer, look).into_iter().map(cells).collect();
    let mut sections =
        vec![Section::new("", &head, rows, FEW).with_rest(|more| several!(more, "{n} more row", "{n} more rows"))];
    let steps = if answer.measure == Measure::Money { purchases(answer, look) } else { steps(answer, look) };
    let title =
        if answer.measure == Measure::Money { word!("What to buy first") } else { word!("What comes and goes") };
    let rows =
        steps.into_iter().map(|(limit, line)| vec![limit.into(), shortened(&line, answer, names).into()]).collect();
    sections.push(
        Section::new(title, &["#", ""], rows, FEW / 2)
            .with_rest(|more| several!(more, "{n} more step", "{n} more steps")),
    );
    let mut remarks: Vec<Line> =
        answer.warnings.iter().map(|warning| Line::new("Note", crate::words::sentence(warning))).collect();
    remarks.push(Line::new(
        "Net",
        word!("what is saved less what the kit costs by your prices, but for what is limited here"),
    ));
    remarks.push(super::pack::care());
    View {
        title: answer.trip.scenario.clone(),
        who: opening(answer),
        verdict: ends(answer, look),
        sections: sections.into_iter().filter(|section| !section.rows.is_empty()).collect(),
        remarks,
        next: vec![
            typed.again("tradeoff", "--plot curve.svg", word!("draws the curve")),
            typed.again("tradeoff", "--full", word!("every step, mark and caution")),
        ],
        ..View::default()
    }
}

/// A line with the names in it cut short.
fn shortened(line: &str, answer: &TradeoffAnswer, names: &Names) -> String {
    let changes = answer.points.iter().flat_map(|point| {
        let step = &point.step;
        [&step.entering, &step.leaving, &step.bought, &step.not_bought].into_iter().flatten()
    });
    let mut long: Vec<&str> = changes.map(|change| change.name.as_str()).collect();
    // A name may be part of a longer one.
    long.sort_by_key(|name| (std::cmp::Reverse(name.len()), *name));
    long.dedup();
    long.into_iter().fold(line.to_owned(), |line, name| line.replace(name, names.short(name)))
}
