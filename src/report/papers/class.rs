//! The coach's sheet and one for each rider of a class.

use super::words::{few, share};
use super::{Paper, Part};
use crate::Look;
use crate::amount::money;
use crate::cautions::cautions;
use crate::terminal::shortfall;
use crate::told::Line;
use crate::view::bags::reason;
use crate::words::{home, list, percent};
use fardel_core::answer::class::{ClassAnswer, Member, Shopping, Unturned};
use fardel_core::answer::{PackAnswer, PackError};
use fardel_core::domain::{Catalogue, Kind};
use fardel_core::units::{Mass, Money};
use fardel_words::{mark, plain, say, several, word};
use std::collections::BTreeMap;

/// Jobs and tools named beside a fastener.
const NAMED: usize = 2;

const ONE_FOR_ALL: &str = mark!(
    "One for all: while everybody rides together, one of these tools serves the class; whoever rides \
ahead, turns back or leads a second group is then without it. Spares and personal things everybody has for themselves."
);
const WOULD_TURN: &str = mark!(
    "Of each bike's fasteners that a repair on the road asks for; sizes are the catalogue's for the \
class of bike. Try every tool on its fastener at home."
);
const LEADER: &str = mark!(
    "What the leader has packed, what could matter on that bike too, and what nothing in that kit stands in for. \
Not everything has to be there twice while the leader is near."
);

/// The coach's sheet.
#[must_use]
pub fn coach(answer: &ClassAnswer, catalogue: &Catalogue, look: &Look) -> Paper {
    let leader = answer.members.get(answer.leader).map_or("", |member| member.rider.as_str());
    let parts = [
        Part::new(
            word!("Who carries what"),
            "",
            &[
                word!("Rider"),
                word!("bike"),
                "#things",
                "#kit",
                "#to buy",
                "#gets home",
                "#cannot turn",
                word!("remarks"),
            ],
            answer.members.iter().map(|member| overview(answer, member, catalogue, look)).collect(),
        ),
        Part::new(
            word!("To buy"),
            if answer.shopping.iter().any(|line| line.once.is_some()) { plain(ONE_FOR_ALL) } else { "" },
            &[word!("Thing"), word!("for"), "#price", word!("one for all saves")],
            answer.shopping.iter().map(|line| purchase(answer, line, look)).collect(),
        ),
        Part::new(
            word!("Fasteners that a toolkit cannot turn"),
            plain(WOULD_TURN),
            &[word!("Rider"), word!("fastener"), word!("size"), word!("asked for by"), word!("would turn it")],
            answer.members.iter().flat_map(|own| own.unturned.iter().map(|line| fastener(&own.rider, line))).collect(),
        ),
        Part::new(
            word!("What the leader carries and others do not"),
            plain(LEADER),
            &[word!("Thing"), word!("who lacks it")],
            lacking(answer),
        ),
    ];
    let count = u32::try_from(answer.members.len()).unwrap_or(u32::MAX);
    Paper {
        title: answer.scenario.clone(),
        kind: word!("Class"),
        who: say!(
            "{}, each with a kit of their own; {leader} leads.",
            several!(f64::from(count), "{n} rider", "{n} riders")
        ),
        lines: summary(answer, look),
        parts: parts.into_iter().flatten().collect(),
        notes: answer.warnings.clone(),
        cautions: cautions(&kinds(answer.members.iter())),
    }
}

fn summary(answer: &ClassAnswer, look: &Look) -> Vec<Line> {
    let without: Vec<String> =
        answer.members.iter().filter(|member| member.kit.is_err()).map(|member| member.rider.clone()).collect();
    let packed = if without.is_empty() {
        say!("Everybody has a kit that meets all needs within all limits.")
    } else {
        say!("No kit meets all needs within all limits for {}.", list(&without))
    };
    let all: Money = answer.shopping.iter().fold(Money::ZERO, |sum, line| sum + line.price);
    let saved = answer.shopping.iter().filter_map(|line| line.once.as_ref());
    let (spared, lighter) =
        saved.fold((Money::ZERO, Mass::from_grams(0)), |(spent, mass), own| (spent + own.money, mass + own.mass));
    let currency = answer.currency;
    let mut lines = vec![Line::new("Packed", packed), Line::new("To buy", say!("{} in all.", money(all, currency)))];
    if spared > Money::ZERO {
        let text = say!(
            "{} and {} less, where one tool serves all who ride together.",
            money(spared, currency),
            look.show(lighter)
        );
        lines.push(Line::new("One for all", text));
    } else if !answer.together {
        lines.push(Line::new("One for all", word!("not reckoned: not everybody rides every leg.")));
    }
    lines
}

fn overview(answer: &ClassAnswer, member: &Member, catalogue: &Catalogue, look: &Look) -> Vec<String> {
    let mut row = vec![member.rider.clone(), member.bike.clone()];
    match &member.kit {
        Ok(kit) => row.extend([
            kit.totals.units.to_string(),
            look.show(kit.totals.mass),
            money(kit.totals.to_buy, answer.currency),
            percent(kit.figures.home.chance()),
            say!("{} of {}", member.unturned.len(), member.fasteners),
            String::new(),
        ]),
        Err(error) => {
            row.extend(std::iter::repeat_n("-".to_owned(), 5));
            row.push(why(catalogue, error, look));
        }
    }
    row
}

/// Why there is no kit, in a line.
fn why(catalogue: &Catalogue, error: &PackError, look: &Look) -> String {
    match error {
        PackError::Infeasible { shortfalls, .. } => {
            let short: Vec<String> = shortfalls.iter().map(|own| shortfall(catalogue, own, look)).collect();
            say!("no kit; what it would take: {}", short.join("; "))
        }
        error => say!("no kit: {error}"),
    }
}

fn purchase(answer: &ClassAnswer, line: &Shopping, look: &Look) -> Vec<String> {
    let buyers: Vec<String> = line.buyers.iter().map(|(name, count)| share(name, *count)).collect();
    let once = line.once.as_ref().map_or_else(String::new, |once| {
        say!("{} and {}; {} carries it", money(once.money, answer.currency), look.show(once.mass), once.carrier)
    });
    vec![line.name.clone(), list(&buyers), money(line.price, answer.currency), once]
}

fn fastener(rider: &str, line: &Unturned) -> Vec<String> {
    vec![rider.to_owned(), line.what.clone(), line.size.clone(), few(&line.jobs, NAMED), few(&line.would_turn, NAMED)]
}

fn lacking(answer: &ClassAnswer) -> Vec<Vec<String>> {
    let mut things: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for member in &answer.members {
        for lack in &member.lacks {
            things.entry(&lack.name).or_default().push(member.rider.clone());
        }
    }
    let mut rows: Vec<(&str, Vec<String>)> = things.into_iter().collect();
    rows.sort_by_key(|(_, riders)| std::cmp::Reverse(riders.len()));
    rows.into_iter().map(|(thing, riders)| vec![thing.to_owned(), list(&riders)]).collect()
}

fn kinds<'a>(members: impl Iterator<Item = &'a Member>) -> Vec<Kind> {
    members.filter_map(|member| member.kit.as_ref().ok()).flat_map(|kit| kit.kinds.clone()).collect()
}

/// A rider's sheet.
#[must_use]
pub fn member(answer: &ClassAnswer, member: &Member, catalogue: &Catalogue, look: &Look) -> Paper {
    let kit = member.kit.as_ref().ok();
    let parts = [
        kit.and_then(|kit| {
            Part::new(
                word!("In the bags"),
                "",
                &[word!("Thing"), word!("bag"), "#weighs", word!("what for")],
                packed(kit, look),
            )
        }),
        Part::new(
            word!("To buy"),
            "",
            &[word!("Thing"), "#price"],
            kit.into_iter().flat_map(|kit| &kit.purchases).map(|own| bought(answer, own)).collect(),
        ),
        Part::new(
            word!("Fasteners that your tools cannot turn"),
            plain(WOULD_TURN),
            &[word!("Fastener"), word!("size"), word!("asked for by"), word!("would turn it")],
            member.unturned.iter().map(|line| fastener("", line).split_off(1)).collect(),
        ),
        Part::new(
            word!("The leader has it, you have not"),
            plain(LEADER),
            &[word!("Thing"), "#weighs"],
            member.lacks.iter().map(|lack| vec![lack.name.clone(), look.show(lack.mass)]).collect(),
        ),
    ];
    let lines = match &member.kit {
        Ok(kit) => vec![
            Line::new("Carry", say!("{} things, {}.", kit.totals.units, look.show(kit.totals.mass))),
            Line::new("To buy", format!("{}.", money(kit.totals.to_buy, answer.currency))),
            Line::new(word!("Chance that no breakdown leaves you stranded"), format!("{}.", home(&kit.figures.home))),
        ],
        Err(error) => vec![Line::new("No kit", why(catalogue, error, look))],
    };
    Paper {
        title: answer.scenario.clone(),
        kind: word!("Class"),
        who: say!("{} on a {}.", member.rider, member.bike),
        lines,
        parts: parts.into_iter().flatten().collect(),
        notes: kit.map_or_else(Vec::new, |kit| kit.warnings.clone()),
        cautions: cautions(&kinds(std::iter::once(member))),
    }
}

fn packed(kit: &PackAnswer, look: &Look) -> Vec<Vec<String>> {
    let row = |bag: &str, item: &fardel_core::answer::PackedItem| {
        vec![share(&item.name, item.count), bag.to_owned(), look.show(item.mass), reason(item)]
    };
    kit.bags.iter().flat_map(|bag| bag.items.iter().map(|item| row(&bag.name, item))).collect()
}

fn bought(answer: &ClassAnswer, own: &fardel_core::answer::Purchase) -> Vec<String> {
    vec![share(&own.name, own.count), money(own.price, answer.currency)]
}
