//! Whole answers, command by command.

use super::document::{Document, Part, Tick, care, check_ticks, of_view};
use super::{
    Bag, Names, Typed, bags, checks, departure, headline, load, needs, notes, rehearsal, risks, setup, split, tradeoff,
    trim, why,
};
use crate::Look;
use crate::amount::money;
use crate::told::{Line, Rows};
use crate::words::{counted, sentence};
use fardel_core::answer::split::{Card, SplitAnswer};
use fardel_core::answer::{
    Chore, NeedLine, PackAnswer, Purchase, RehearseAnswer, RiskLine, TradeoffAnswer, TrimAnswer, WhyAnswer,
};
use fardel_core::units::Currency;
use fardel_words::{plain, say, word};

/// The document of `pack`.
pub(crate) fn pack(answer: &PackAnswer, look: &Look) -> Document {
    let mut parts =
        vec![Part { bags: filled(&answer.bags, look), ..Part::new(word!("What goes where"), plain(bags::LEGEND)) }];
    parts.extend(answer.loads.iter().flat_map(|own| [Some(loaded(own, look)), set(own, look)]).flatten());
    parts.extend(open(&answer.risks, look));
    parts.extend(Part::to_tick(plain(checks::TITLE), plain(checks::LEGEND), check_ticks(&answer.checks)));
    parts.extend(chores(answer, look));
    parts.extend(needed(&answer.needs, needs::ranges(answer), look));
    parts.extend(buying(&answer.purchases, answer.totals.currency));
    parts.extend(Part::list(word!("Notes"), notes::lines(answer, look)));
    Document {
        title: answer.trip.scenario.clone(),
        who: headline::who(answer, look),
        lines: headline::lines(answer, look),
        parts,
        care: care(&[], &answer.kinds),
    }
}

/// The document of `split`.
pub(crate) fn group(answer: &SplitAnswer, look: &Look) -> Document {
    let rows = Rows::new(&split::SHARES, split::share_rows(answer, look));
    let mut parts: Vec<Part> = Part::table(word!("Who carries how much"), "", rows).into_iter().collect();
    parts.extend(answer.cards.iter().map(|card| carried(card, look)));
    parts.extend(split::moves(answer).and_then(|moves| Part::list(word!("What changes hands"), moves)));
    let left = Rows::new(&split::LEFT, split::leaving_rows(answer, look));
    parts.extend(Part::table(plain(split::LEAVING), "", left));
    for (title, all) in [(plain(split::ONCE), &answer.once), (plain(split::TWICE), &answer.twice)] {
        parts.extend(Part::table(title, "", Rows::new(&split::CARRIED, split::carried_rows(all, look))));
    }
    parts.extend(open(&answer.risks, look));
    let checked = answer.checks.iter().filter_map(|group| {
        let title = format!("{}, {}", plain(checks::TITLE), checks::whose(group));
        Part::to_tick(title, plain(checks::LEGEND), check_ticks(&group.checks))
    });
    parts.extend(checked);
    parts.extend(needed(&answer.needs, Vec::new(), look));
    let alone = ["", word!("kit"), word!("saves"), &say!("to buy, {}", answer.totals.currency)].map(str::to_owned);
    let alone: Vec<&str> = alone.iter().map(String::as_str).collect();
    parts.extend(Part::table(plain(split::ALONE), "", Rows::new(&alone, split::alone_rows(answer, look))));
    parts.extend(buying(&answer.purchases, answer.totals.currency));
    Document {
        title: answer.scenario.clone(),
        who: split::who(answer, look),
        lines: split::lines(answer, look),
        parts,
        care: care(&answer.warnings, &answer.kinds),
    }
}

/// The document of one rider of a group.
pub(crate) fn rider(answer: &SplitAnswer, card: &Card, look: &Look) -> Document {
    Document {
        title: answer.scenario.clone(),
        who: split::card_title(card, look),
        lines: split::lacks(answer, card).into_iter().map(|text| Line::new("Apart", text)).collect(),
        parts: [carried(card, look), loaded(&card.load, look)].into_iter().chain(set(&card.load, look)).collect(),
        care: care(&[], &answer.kinds),
    }
}

/// The document of `trim`.
pub(crate) fn trimmed(answer: &TrimAnswer, look: &Look) -> Document {
    let starred = answer.order.iter().any(|going| going.best_is_better_by.is_some());
    let rows = answer.order.iter().enumerate().map(|(at, going)| trim::row(answer, at, going, look)).collect();
    let head = ["#", word!("leave at home"), "#takes", "#kit then", "#on average", "#in all", ""];
    let legend = if starred { plain(trim::STARRED) } else { "" };
    let mut parts: Vec<Part> =
        Part::table(word!("First to go first"), legend, Rows::new(&head, rows)).into_iter().collect();
    let entering = answer.entering.iter().map(|change| trim::priced(answer, change)).collect();
    parts.extend(Part::list(word!("Take instead"), entering));
    Document {
        title: answer.trip.scenario.clone(),
        who: say!("{} on a {}.", answer.trip.rider, answer.trip.bike),
        lines: trim::lines(answer, look),
        parts,
        care: care(&answer.warnings, &answer.kinds),
    }
}

/// The document of `tradeoff`.
pub(crate) fn curve(answer: &TradeoffAnswer, look: &Look) -> Document {
    let each = say!("#per {} more", crate::amount::next(answer.measure, answer.currency, look));
    let head = ["#limit", "#kit takes", "#things", "#saves", "#net", "#gets home", &each, ""];
    let rows = Rows::new(&head, tradeoff::rows(answer, look));
    let mut parts: Vec<Part> = Part::table(word!("The curve"), plain(tradeoff::LEGEND), rows).into_iter().collect();
    let money = answer.measure == fardel_core::resolve::Measure::Money;
    let steps = if money { tradeoff::purchases(answer, look) } else { tradeoff::steps(answer, look) };
    let title = if money { word!("What to buy first") } else { word!("What comes and goes from row to row") };
    let legend = if money { plain(tradeoff::BUYING) } else { "" };
    let steps = steps.into_iter().map(|(limit, line)| vec![limit, line]).collect();
    parts.extend(Part::table(title, legend, Rows::new(&["#limit", word!("change")], steps)));
    Document {
        title: answer.trip.scenario.clone(),
        who: tradeoff::opening(answer),
        lines: tradeoff::ends(answer, look),
        parts,
        care: care(&answer.warnings, &answer.kinds),
    }
}

/// The document of `rehearse`.
pub(crate) fn rehearsed(answer: &RehearseAnswer, look: &Look) -> Document {
    let classes = rehearsal::classes(answer).into_iter().map(|(label, share)| vec![label, share.text]).collect();
    let spread = Part::table(
        word!("Hours lost on a trip"),
        &rehearsal::percentiles(answer, look),
        Rows::new(&[word!("hours"), "#trips"], classes),
    );
    let tables = [
        (word!("What cost the hours"), Rows::new(&rehearsal::HARM, rehearsal::harm_rows(answer))),
        (word!("What stranded somebody"), Rows::new(&rehearsal::STRANDINGS, rehearsal::stranding_rows(answer))),
        (word!("What was used most"), Rows::new(&rehearsal::USE, rehearsal::used_rows(answer))),
        (word!("What ran out"), Rows::new(&rehearsal::SHORT, rehearsal::short_rows(answer))),
    ];
    let tables = tables.into_iter().filter_map(|(title, rows)| Part::table(title, "", rows));
    let mut parts: Vec<Part> = spread.into_iter().chain(tables).collect();
    parts.extend(Part::list(word!("What hardly left the bag"), rehearsal::idle(answer)));
    Document {
        title: answer.trip.scenario.clone(),
        who: rehearsal::who(answer, look),
        lines: rehearsal::lines(answer, look),
        parts,
        care: rehearsal::reading(answer, look).to_vec(),
    }
}

/// The document of `why`.
pub(crate) fn reasons(answer: &WhyAnswer, look: &Look) -> Document {
    let view = why::told(answer, &Names::default(), usize::MAX, &Typed::default(), look);
    of_view(view, care(&answer.warnings, &answer.kinds))
}

fn filled(all: &[fardel_core::answer::PackedBag], look: &Look) -> Vec<Bag> {
    bags::bags(all, &Names::default(), look)
}

fn carried(card: &Card, look: &Look) -> Part {
    Part { bags: filled(&card.bags, look), ..Part::new(split::card_title(card, look), "") }
}

fn loaded(own: &fardel_core::answer::Loading, look: &Look) -> Part {
    let load::Load { title, rows, notes } = load::load(own, look);
    Part { rows: Some(rows), notes, ..Part::new(title, "") }
}

fn set(own: &fardel_core::answer::Loading, look: &Look) -> Option<Part> {
    let told = setup::told(own.setup.as_ref()?, look);
    Part::table(plain(setup::TITLE), plain(setup::LEGEND), told.rows).map(|part| Part { notes: told.notes, ..part })
}

fn open(all: &[RiskLine], look: &Look) -> Option<Part> {
    let head = [word!("trouble"), word!("how likely"), "#expected", word!("what it would have taken")];
    Part::table(plain(risks::TITLE), "", Rows::new(&head, risks::rows(all, look)))
}

fn chores(answer: &PackAnswer, look: &Look) -> Option<Part> {
    let tick = |chore: &Chore| {
        let [name, saves, costs, work, mass] = departure::cells(answer, chore, look);
        let mass = if mass.is_empty() { mass } else { format!(", {mass}") };
        Tick { name, text: say!("saves {saves}, costs {costs}, {work} of work{mass}") }
    };
    let ticks = answer.chores.iter().take(departure::SHOWN).map(tick).collect();
    let more = answer.chores.len().saturating_sub(departure::SHOWN);
    let part = Part::to_tick(plain(departure::TITLE), plain(departure::LEGEND), ticks);
    part.map(|part| Part { notes: (more > 0).then(|| departure::rest(more)).into_iter().collect(), ..part })
}

fn needed(lines: &[NeedLine], ranges: Vec<String>, look: &Look) -> Option<Part> {
    let head = [word!("need"), "#demanded", "#carried", word!("reckoned from")];
    let rows = Rows::new(&head, lines.iter().map(|need| needs::row(need, look)).collect());
    let part = Part::table(plain(needs::TITLE), "", rows).or_else(|| Part::list(plain(needs::TITLE), ranges.clone()));
    part.map(|part| Part { notes: ranges, ..part })
}

fn buying(purchases: &[Purchase], currency: Currency) -> Option<Part> {
    let tick =
        |own: &Purchase| Tick { name: sentence(&counted(own.count, &own.name)), text: money(own.price, currency) };
    Part::to_tick(word!("To buy"), "", purchases.iter().map(tick).collect())
}
