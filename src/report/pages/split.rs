//! The pages of `split`: the whole group in one, and one for each rider.

use super::bags::{Bag, bags};
use super::checks::{List, groups};
use super::frame::{page, whole};
use super::pack::{Buy, Plate, needs_rows, to_buy};
use super::systems::{System, open_troubles, systems};
use super::wheels::{Load, load};
use super::{PageError, certainty, picture};
use crate::Look;
use crate::amount::money;
use crate::cautions::cautions;
use crate::told::{Line, Rows};
use crate::view::{checks as legend, split as told};
use crate::words::percent;
use fardel_core::answer::split::{Card, SplitAnswer};
use fardel_core::domain::{Catalogue, Scenario};
use serde::Serialize;

/// Where bags hang and who rides what.
#[derive(Debug, Clone, Copy)]
pub struct Group<'a> {
    /// Bikes and bags.
    pub catalogue: &'a Catalogue,
    /// Riders and bikes.
    pub scenario: &'a Scenario,
}

#[derive(Serialize)]
struct Split {
    who: String,
    lines: Vec<Line>,
    plates: Vec<Plate>,
    shares: Rows,
    riders: Vec<Rider>,
    moves: Option<Vec<String>>,
    tables: Vec<(&'static str, Rows)>,
    systems: Vec<System>,
    open: Rows,
    checks: Vec<List>,
    checks_legend: &'static str,
    needs: Rows,
    to_buy: Vec<Buy>,
    to_buy_in_all: String,
    proof: String,
    bases: Rows,
    notes: Vec<String>,
    cautions: Vec<&'static str>,
}

/// One rider's part.
#[derive(Serialize)]
struct Rider {
    /// For anchors: `rider-1`.
    id: String,
    name: String,
    title: String,
    bags: Vec<Bag>,
    picture: Option<picture::Picture>,
    load: Load,
}

#[derive(Serialize)]
struct Own {
    apart: Vec<String>,
    rider: Rider,
    cautions: Vec<&'static str>,
}

/// The whole group.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn split(answer: &SplitAnswer, group: &Group<'_>, look: &Look) -> Result<String, PageError> {
    let frame = page(&answer.scenario, "Kit of the group", &ticked(answer));
    let content = Split {
        who: told::who(answer, look),
        lines: told::lines(answer, look),
        plates: plates(answer, look),
        shares: Rows::new(
            &["Rider", "bike", "role", "#carries", "#own things", "#of a fair share", "#limit", "#on the front wheel"],
            told::share_rows(answer, look),
        ),
        riders: answer.cards.iter().enumerate().map(|(at, card)| rider(at, card, group, look)).collect(),
        moves: told::moves(answer),
        tables: tables(answer, look),
        systems: systems(&answer.risks, look),
        open: open_troubles(&answer.risks, look),
        checks: groups(&answer.checks),
        checks_legend: legend::LEGEND,
        needs: needs_rows(&answer.needs, look),
        to_buy: to_buy(&answer.purchases, answer.totals.currency),
        to_buy_in_all: money(answer.totals.to_buy, answer.totals.currency),
        proof: certainty::proof(answer.proof.objective, answer.proof.bound, answer.proof.gap),
        bases: bases(answer, group.catalogue),
        notes: answer.warnings.clone(),
        cautions: cautions(&answer.kinds),
    };
    whole("split.html", frame, content, look)
}

/// One rider alone; `at` is the place in the group.
///
/// # Errors
/// As [`split`].
pub fn rider_page(
    answer: &SplitAnswer,
    (at, card): (usize, &Card),
    group: &Group<'_>,
    look: &Look,
) -> Result<String, PageError> {
    // The ticks are those of the group's page: whichever is opened, they are the same.
    let frame = page(&answer.scenario, "Kit of one rider", &ticked(answer));
    let rider = rider(at, card, group, look);
    whole("rider.html", frame, Own { apart: told::lacks(answer, card), rider, cautions: cautions(&answer.kinds) }, look)
}

fn rider(at: usize, card: &Card, group: &Group<'_>, look: &Look) -> Rider {
    let number = at + 1;
    let bike = group.scenario.riders.get(at).and_then(|rider| group.catalogue.bikes.get(&rider.bike));
    Rider {
        id: format!("rider-{number}"),
        name: card.rider.clone(),
        title: told::card_title(card, look),
        bags: bags(&card.bags, &number.to_string(), look),
        picture: bike.map(|bike| picture::picture(group.catalogue, bike, &card.bags, &card.load, look)),
        load: load(&card.load, look),
    }
}

/// Whatever decides which ticks belong to this plan.
fn ticked(answer: &SplitAnswer) -> Vec<String> {
    let items = answer.cards.iter().flat_map(|card| {
        let item = |bag: &fardel_core::answer::PackedBag| -> Vec<String> {
            bag.items.iter().map(|item| format!("{} {} {}", bag.id, item.id, item.count)).collect()
        };
        std::iter::once(card.rider.clone()).chain(card.bags.iter().flat_map(item)).collect::<Vec<_>>()
    });
    std::iter::once(answer.scenario.clone()).chain(items).collect()
}

fn plates(answer: &SplitAnswer, look: &Look) -> Vec<Plate> {
    vec![
        Plate { figure: answer.cards.len().to_string(), of: "riders" },
        Plate { figure: answer.totals.units.to_string(), of: "things" },
        Plate { figure: look.show(answer.totals.mass), of: "kit mass" },
        Plate { figure: percent(answer.figures.coverage), of: "of trouble covered" },
    ]
}

fn tables(answer: &SplitAnswer, look: &Look) -> Vec<(&'static str, Rows)> {
    let head = ["Without", "#whole kit saves", "#what is left saves", "#kept", "the others can still mend"];
    let carried = ["Thing", "with", "#mass", "#hours lost without"];
    let buying = format!("#to buy, {}", answer.totals.currency);
    let all = vec![
        (told::LEAVING, Rows::new(&head, told::leaving_rows(answer, look))),
        (told::ONCE, Rows::new(&carried, told::carried_rows(&answer.once, look))),
        (told::TWICE, Rows::new(&carried, told::carried_rows(&answer.twice, look))),
        (told::ALONE, Rows::new(&["Who", "#kit", "#saves", &buying], told::alone_rows(answer, look))),
    ];
    all.into_iter().filter(|(_, rows)| !rows.rows.is_empty()).collect()
}

fn bases(answer: &SplitAnswer, catalogue: &Catalogue) -> Rows {
    let bags = || answer.cards.iter().flat_map(|card| &card.bags);
    let items = bags().flat_map(|bag| &bag.items).map(|item| item.id.as_str());
    certainty::bases(catalogue, items, bags().map(|bag| bag.id.as_str()), &answer.risks)
}
