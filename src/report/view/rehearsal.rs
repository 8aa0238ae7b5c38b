//! What happened on the trips, in words.

use super::{Bar, Cell, Figure, Names, Section, Typed, View, fuel};
use crate::Look;
use crate::told::Line;
use crate::words::{at_least, list, minutes, percent};
use fardel_core::answer::RehearseAnswer;
use fardel_core::rehearse::party::PER_HOUR;
use fardel_core::units::Hours;
use fardel_words::{catalogue, mark, say, several, word};

/// Rows of each table; the JSON has all.
const SHOWN: usize = 8;
/// Rows of the table of things used.
const USED: usize = 12;
/// Below so many cases of either sort a share has no error to speak of.
const FEW: u64 = 5;
/// Hours that the classes of the picture end at.
const CLASSES: [f64; 7] = [0.0, 1.0, 2.0, 4.0, 8.0, 16.0, 32.0];

/// Who rides what, how far and how often.
pub(crate) fn who(answer: &RehearseAnswer, look: &Look) -> String {
    let trip = &answer.trip;
    say!(
        "{} on a {}: {}, {}, with a kit of {}. Ridden {} times (seed {}){}.",
        trip.rider,
        trip.bike,
        several!(trip.days, "{n} day", "{n} days"),
        look.show(trip.distance),
        look.show(answer.mass),
        grouped(answer.tally.trips),
        answer.plan.seed,
        drawn(answer),
    )
}

/// What was drawn beside the trips themselves.
fn drawn(answer: &RehearseAnswer) -> String {
    match answer.tally.worlds.count {
        0 if answer.plan.uncertain => say!(", every rate drawn anew for each trip"),
        0 => String::new(),
        worlds => say!(", all that is uncertain drawn anew {} times", grouped(worlds)),
    }
}

/// What matters first, each with its opening word.
pub(crate) fn lines(answer: &RehearseAnswer, look: &Look) -> Vec<Line> {
    let lines = [
        Line::new("Hours", hours(answer, look)),
        Line::new("Home", home(answer)),
        Line::new("Nights", nights(answer, look)),
    ];
    fuel::lines(answer.fuel.as_ref(), answer.charge.as_ref(), look).into_iter().chain(lines).collect()
}

fn hours(answer: &RehearseAnswer, look: &Look) -> String {
    let lost = answer.tally.hours_lost();
    let reckoned = answer.predicted.hours_lost;
    let apart = (lost.mean - reckoned.get()) / reckoned.get().max(1e-9) * 100.0;
    let than = if apart < 0.0 { word!("less") } else { word!("more") };
    say!(
        "{:.2} h lost on an average trip, give or take {:.2} h ({} broke, {} falls). Worked out beforehand: {:.2} h; the rides \
         lost {:.1} % {than}. With nothing aboard it would be {}.",
        lost.mean,
        2.0 * lost.error,
        several!(tenths(answer.tally.each(answer.tally.breakdowns)), "{n} thing", "{n} things"),
        say!("{:.1}", answer.tally.each(answer.tally.falls)),
        reckoned.get(),
        apart.abs(),
        look.show(answer.predicted.hours_empty),
    )
}

fn home(answer: &RehearseAnswer) -> String {
    let (home, tally) = (answer.tally.self_recovery(), &answer.tally);
    let reckoned = at_least(answer.predicted.self_recovery);
    if tally.stranded.min(tally.trips - tally.stranded) < FEW {
        let (low, high) = home.between(tally.trips);
        return say!(
            "{:.1} % of trips left nobody stranded; so few say no more than that it is between {:.1} and {:.1} %. Worked out \
             beforehand: {reckoned}.",
            home.mean * 100.0,
            low * 100.0,
            high * 100.0,
        );
    }
    say!(
        "{:.2} % of trips left nobody stranded, give or take {:.2} %. Worked out beforehand: {reckoned}.",
        home.mean * 100.0,
        200.0 * home.error,
    )
}

fn nights(answer: &RehearseAnswer, look: &Look) -> String {
    let tally = &answer.tally;
    say!(
        "{} of trips had a night somewhere else than planned ({:.1} nights in 100 trips): more than {} lost in one day.",
        percent(tally.night_out().mean),
        100.0 * tally.nights_out_each().mean,
        look.show(answer.plan.in_hand),
    )
}

fn tenths(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}

/// `1 234 567`, with spaces that do not break.
fn grouped(count: u64) -> String {
    let digits = count.to_string();
    let mut text = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push('\u{a0}');
        }
        text.push(digit);
    }
    text
}

/// `1 trip in 3 030`, to two digits: the count behind it knows no more.
fn one_in(trips: u64, count: u64) -> String {
    let whole = trips / count.max(1);
    let step = 10_u64.pow(whole.max(1).ilog10().saturating_sub(1));
    say!("1 trip in {}", grouped((whole + step / 2) / step * step))
}

/// Classes of trips by the hours they lost, and the share of trips in each.
pub(crate) fn classes(answer: &RehearseAnswer) -> Vec<(String, Figure)> {
    let tally = &answer.tally;
    let mut below = 0;
    let mut classes = Vec::new();
    for (at, hours) in CLASSES.iter().enumerate() {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "small and not negative")]
        let up_to = tally.hours.up_to((hours * PER_HOUR) as u64);
        let label = if at == 0 { say!("none") } else { say!("up to {hours:.0}") };
        classes.push((label, Figure::tenths_of_percent(tally.share(up_to - below).mean)));
        below = up_to;
    }
    classes.push((say!("more"), Figure::tenths_of_percent(tally.share(tally.trips - below).mean)));
    classes
}

/// What half of all trips lose, and the worst.
pub(crate) fn percentiles(answer: &RehearseAnswer, look: &Look) -> String {
    let percentile = |share| match answer.tally.hours_percentile(share) {
        Hours::ZERO => say!("nothing"),
        hours => say!("no more than {}", look.show(hours)),
    };
    let half = match answer.tally.hours_percentile(0.5) {
        Hours::ZERO => say!("Half of all trips and more lose nothing"),
        hours => say!("Half of all trips lose no more than {}", look.show(hours)),
    };
    say!(
        "{half}, nine in ten {}, 99 in 100 {}; the worst lost \
         {}.",
        percentile(0.9),
        percentile(0.99),
        look.show(answer.tally.hours_worst())
    )
}

/// Heads of [`harm_rows`].
pub(crate) const HARM: [&str; 4] =
    [mark!("what cost the hours"), mark!("in 100 trips"), mark!("repaired"), mark!("lost a trip")];

/// The failures that cost most, with how often, how often repaired, and what they cost.
pub(crate) fn harm_rows(answer: &RehearseAnswer) -> Vec<Vec<String>> {
    let tally = &answer.tally;
    let mut order: Vec<usize> = (0..tally.troubles.len()).filter(|at| tally.troubles[*at].lost > 0).collect();
    order.sort_by_key(|at| std::cmp::Reverse(tally.troubles[*at].lost));
    let rows = order.iter().take(SHOWN).map(|at| {
        let own = &tally.troubles[*at];
        vec![
            answer.party.troubles[*at].name.clone(),
            say!("{:.1}", 100.0 * tally.each(own.times)),
            percent(ratio(own.repaired, own.times)),
            minutes(tally.hours_each(own.lost)),
        ]
    });
    rows.collect()
}

#[allow(clippy::cast_precision_loss, reason = "counts")]
fn ratio(part: u64, whole: u64) -> f64 {
    part as f64 / (whole as f64).max(1.0)
}

/// Heads of [`stranding_rows`].
pub(crate) const STRANDINGS: [&str; 3] = [mark!("what stranded somebody"), mark!("how often"), mark!("of strandings")];

/// What stranded somebody, how often, and its share.
pub(crate) fn stranding_rows(answer: &RehearseAnswer) -> Vec<Vec<String>> {
    let tally = &answer.tally;
    let mut order: Vec<usize> = (0..tally.troubles.len()).filter(|at| tally.troubles[*at].strandings > 0).collect();
    order.sort_by_key(|at| std::cmp::Reverse(tally.troubles[*at].strandings));
    let all: u64 = tally.troubles.iter().map(|own| own.strandings).sum();
    let rows = order.iter().take(SHOWN).map(|at| {
        let own = tally.troubles[*at].strandings;
        let name = answer.party.troubles[*at].name.clone();
        vec![name, one_in(tally.trips, own), percent(ratio(own, all))]
    });
    rows.collect()
}

/// Items that are there for breakdowns, the most used first.
fn by_use(answer: &RehearseAnswer) -> Vec<usize> {
    let mut order: Vec<usize> =
        (0..answer.party.items.len()).filter(|at| !answer.party.items[*at].for_the_trip).collect();
    order.sort_by_key(|at| std::cmp::Reverse(answer.tally.items[*at].trips));
    order
}

/// Heads of [`used_rows`].
pub(crate) const USE: [&str; 3] = [mark!("what was used most"), mark!("on trips"), mark!("repairs in 100 trips")];

/// What was used most, on how many trips, for how many repairs.
pub(crate) fn used_rows(answer: &RehearseAnswer) -> Vec<Vec<String>> {
    let tally = &answer.tally;
    let order = by_use(answer).into_iter().filter(|at| tally.items[*at].trips > 0).take(USED);
    order
        .map(|at| {
            let own = &tally.items[at];
            let share = tally.share(own.trips).mean;
            let shown = if share < 0.01 { say!("{:.2} %", share * 100.0) } else { percent(share) };
            vec![answer.party.items[at].name.clone(), shown, say!("{:.1}", 100.0 * tally.each(own.repairs))]
        })
        .collect()
}

/// What was used on few trips and on none.
pub(crate) fn idle(answer: &RehearseAnswer) -> Vec<String> {
    let order = by_use(answer);
    let names = |wanted: &dyn Fn(u64) -> bool| -> Vec<String> {
        let earns = order.iter().filter(|at| !answer.party.items[**at].asked_for);
        let some = earns.filter(|at| wanted(answer.tally.items[**at].trips));
        some.map(|at| answer.party.items[*at].name.clone()).collect()
    };
    let seldom = names(&|trips| trips > 0 && trips * 1000 < answer.tally.trips);
    let never = names(&|trips| trips == 0);
    let mut lines = Vec::new();
    if !seldom.is_empty() {
        lines.push(say!("On fewer than 1 trip in 1000: {}.", list(&seldom)));
    }
    if !never.is_empty() {
        lines.push(say!("Never: {}.", list(&never)));
    }
    lines
}

/// Heads of [`short_rows`].
pub(crate) const SHORT: [&str; 4] =
    [mark!("what ran out"), mark!("units aboard"), mark!("used in 100 trips"), mark!("too few on")];

/// What ran out: units aboard, units used, and how often they did not suffice.
pub(crate) fn short_rows(answer: &RehearseAnswer) -> Vec<Vec<String>> {
    let tally = &answer.tally;
    let mut order: Vec<usize> = (0..tally.stocks.len())
        .filter(|at| tally.stocks[*at].short > 0 && answer.party.stocks[*at].units > 0)
        .collect();
    order.sort_by_key(|at| std::cmp::Reverse(tally.stocks[*at].short));
    let rows = order.iter().take(SHOWN).map(|at| {
        let (stock, own) = (&answer.party.stocks[*at], &tally.stocks[*at]);
        vec![
            catalogue(&stock.id).to_owned(),
            stock.units.to_string(),
            say!("{:.1}", 100.0 * tally.each(own.used)),
            one_in(tally.trips, own.short),
        ]
    });
    rows.collect()
}

/// What the words mean.
pub(crate) fn reading(answer: &RehearseAnswer, look: &Look) -> [String; 4] {
    [
        say!(
            "Hours lost are what breakdowns cost, repairs included, and the time of those falls that the kit's weight brings. \
         Other falls would happen anyway: what they break is counted, picking the bike up is not."
        ),
        say!(
            "Stranded means a breakdown that stops the bike, with no repair left that the things aboard allow. Where help is \
         there sooner than the repair would be done, the bike is fetched, and that does not count."
        ),
        say!(
            "A night out is a day that loses more than {}, and one more for every further 24 h (--hours-in-hand sets \
             that). After every breakdown the trip goes on; what is used up is not replaced.",
            look.show(answer.plan.in_hand)
        ),
        say!(
            "The trips are drawn from the catalogue's rates, most of them from memory: they tell whether the sums are right, \
         not whether the rates are. The owner's manual and your own training come first."
        ),
    ]
}

/// So many rows of each table a screen shows.
const FEW_ROWS: usize = 5;

/// The view of `rehearse`.
#[must_use]
pub fn rehearsal(answer: &RehearseAnswer, names: &Names, typed: &Typed, look: &Look) -> View {
    let one = Figure::tenths_of_percent(1.0);
    let bar = |(label, share): (String, Figure)| {
        let text = share.text.clone();
        Bar::new(&class_name(&label), share, one.clone()).saying(text)
    };
    let bars: Vec<Bar> = classes(answer).into_iter().map(bar).collect();
    let cells = |row: Vec<String>| -> Vec<Cell> { row.iter().map(|cell| names.short(cell).into()).collect() };
    let section = |title: &str, head: &[&str], rows: Vec<Vec<String>>| {
        let head: Vec<String> = head
            .iter()
            .enumerate()
            .map(|(at, text)| if at > 0 { format!("#{text}") } else { (*text).to_owned() })
            .collect();
        let head: Vec<&str> = head.iter().map(String::as_str).collect();
        Section::new(title, &head, rows.into_iter().map(cells).collect(), FEW_ROWS)
            .with_rest(|more| say!("{more} more"))
    };
    let sections = [
        section("", &HARM, harm_rows(answer)),
        section("", &STRANDINGS, stranding_rows(answer)),
        section("", &USE, used_rows(answer)),
    ];
    let mut remarks = vec![Line::new("Spread", percentiles(answer, look))];
    remarks.push(Line::new("Care", word!("the rates are mostly from memory: this tests the sums, not the rates")));
    View {
        title: answer.trip.scenario.clone(),
        who: who(answer, look),
        verdict: lines(answer, look),
        bars,
        sections: sections.into_iter().filter(|section| !section.rows.is_empty()).collect(),
        remarks,
        next: vec![
            typed.next("card", word!("a card of what is likely to break")),
            typed.again("rehearse", "--full", word!("what was never used, what ran out")),
        ],
        ..View::default()
    }
}

/// `Trips that lost nothing`, `up to 4 h`.
fn class_name(label: &str) -> String {
    match label {
        label if label == word!("none") => say!("Trips that lost nothing"),
        label if label == word!("more") => label.to_owned(),
        _ => say!("{label} h"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn large_counts_are_grouped() {
        assert_eq!(grouped(7), "7");
        assert_eq!(one_in(100_000, 33), "1 trip in 3\u{a0}000");
        assert_eq!(one_in(100_000, 3), "1 trip in 33\u{a0}000");
        assert_eq!(one_in(7, 7), "1 trip in 1");
        assert_eq!(grouped(1_234_567), "1\u{a0}234\u{a0}567");
    }
}
