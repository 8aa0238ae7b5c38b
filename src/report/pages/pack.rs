//! The page of `pack`.

use super::bags::{Bag, bags};
use super::checks::{List, one_bike};
use super::frame::{page, whole};
use super::systems::{System, open_troubles, systems};
use super::wheels::{Load, load};
use super::{PageError, certainty, curve, picture};
use crate::Look;
use crate::amount::money;
use crate::cautions::cautions;
use crate::told::{Line, Rows};
use crate::view::robust::{Told, told};
use crate::view::{bags as kit, checks, departure, headline, needs, notes};
use crate::words::{counted, home, percent};
use fardel_core::answer::{NeedLine, PackAnswer, Purchase, Robust, TradeoffAnswer};
use fardel_core::domain::{Bike, Catalogue};
use fardel_core::units::{Currency, Money};
use serde::Serialize;

/// What the page of a kit shows beside the answer itself.
#[derive(Debug, Clone, Copy)]
pub struct Kit<'a> {
    /// Where bags hang, and what the numbers rest on.
    pub catalogue: &'a Catalogue,
    /// The rider's bike.
    pub bike: &'a Bike,
    /// The same trip under other rates, if asked for.
    pub robust: Option<&'a Robust>,
    /// The curve that the kit lies on, if asked for.
    pub curve: Option<&'a TradeoffAnswer>,
}

#[derive(Serialize)]
struct Pack {
    who: String,
    lines: Vec<Line>,
    plates: Vec<Plate>,
    legend: &'static str,
    bags: Vec<Bag>,
    picture: Option<picture::Picture>,
    load: Option<Load>,
    systems: Vec<System>,
    open: Rows,
    curve: Option<curve::Picture>,
    checks: Vec<List>,
    checks_legend: &'static str,
    chores: Vec<Chore>,
    chores_more: Option<String>,
    chores_legend: &'static str,
    needs: Rows,
    ranges: Vec<String>,
    to_buy: Vec<Buy>,
    to_buy_in_all: String,
    robust: Option<Told>,
    proof: String,
    self_recovery: String,
    bases: Rows,
    notes: Vec<String>,
    cautions: Vec<&'static str>,
}

/// A figure that is read from afar.
#[derive(Serialize)]
pub(super) struct Plate {
    pub figure: String,
    pub of: &'static str,
}

#[derive(Serialize)]
struct Chore {
    tick: String,
    name: String,
    saves: String,
    costs: String,
    work: String,
    mass: String,
}

#[derive(Serialize)]
pub(super) struct Buy {
    tick: String,
    name: String,
    price: String,
}

/// The whole page.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn pack(answer: &PackAnswer, kit: &Kit<'_>, look: &Look) -> Result<String, PageError> {
    let trip = &answer.trip;
    let ticked = std::iter::once(trip.scenario.clone())
        .chain(answer.kit.iter().map(|(id, count)| format!("{id} {count}")))
        .collect::<Vec<_>>();
    whole("pack.html", page(&trip.scenario, "Kit", &ticked), content(answer, kit, look), look)
}

fn content(answer: &PackAnswer, own: &Kit<'_>, look: &Look) -> Pack {
    let here = (answer.totals.mass.milligrams(), answer.proof.objective);
    Pack {
        who: headline::who(answer, look),
        lines: headline::lines(answer, look),
        plates: plates(answer, look),
        legend: kit::LEGEND.trim(),
        bags: bags(&answer.bags, "1", look),
        picture: answer.loads.first().map(|load| picture::picture(own.catalogue, own.bike, &answer.bags, load, look)),
        load: answer.loads.first().map(|loaded| load(loaded, look)),
        systems: systems(&answer.risks, look),
        open: open_troubles(&answer.risks, look),
        curve: own.curve.and_then(|curve| curve::picture(curve, Some(here), look)),
        checks: one_bike(&answer.checks),
        checks_legend: checks::LEGEND,
        chores: answer.chores.iter().take(departure::SHOWN).map(|one| chore(answer, one, look)).collect(),
        chores_more: answer.chores.len().checked_sub(departure::SHOWN).filter(|more| *more > 0).map(departure::rest),
        chores_legend: departure::LEGEND.trim(),
        needs: needs_rows(&answer.needs, look),
        ranges: needs::ranges(answer),
        to_buy: to_buy(&answer.purchases, answer.totals.currency),
        to_buy_in_all: money(answer.totals.to_buy, answer.totals.currency),
        robust: own.robust.map(told),
        proof: certainty::proof(answer.proof.objective, answer.proof.bound, answer.proof.gap),
        self_recovery: home(&answer.figures.home),
        bases: bases(answer, own.catalogue),
        notes: notes::lines(answer, look),
        cautions: cautions(&answer.kinds),
    }
}

/// The figures that matter in the shed.
fn plates(answer: &PackAnswer, look: &Look) -> Vec<Plate> {
    let totals = &answer.totals;
    let buy = if totals.to_buy == Money::ZERO { "nothing".to_owned() } else { money(totals.to_buy, totals.currency) };
    vec![
        Plate { figure: totals.units.to_string(), of: "things" },
        Plate { figure: look.show(totals.mass), of: "kit mass" },
        Plate { figure: percent(answer.figures.coverage), of: "of trouble covered" },
        Plate { figure: buy, of: "to buy" },
    ]
}

fn chore(answer: &PackAnswer, chore: &fardel_core::answer::Chore, look: &Look) -> Chore {
    let mut cells = departure::row(answer, chore, look).into_iter();
    let mut next = || cells.next().unwrap_or_default();
    Chore {
        tick: format!("leave/{}", chore.id),
        name: next(),
        saves: next(),
        costs: next(),
        work: next(),
        mass: next(),
    }
}

/// The needs and their workings.
pub(super) fn needs_rows(lines: &[NeedLine], look: &Look) -> Rows {
    let rows = lines.iter().map(|need| needs::row(need, look)).collect();
    Rows::new(&["Need", "#demanded", "#carried", "reckoned from"], rows)
}

/// The shopping list.
pub(super) fn to_buy(purchases: &[Purchase], currency: Currency) -> Vec<Buy> {
    let buy = |own: &Purchase| Buy {
        tick: format!("buy/{}", own.name),
        name: counted(own.count, &own.name),
        price: money(own.price, currency),
    };
    purchases.iter().map(buy).collect()
}

fn bases(answer: &PackAnswer, catalogue: &Catalogue) -> Rows {
    let items = answer.kit.iter().map(|(id, _)| id);
    certainty::bases(catalogue, items, answer.bags.iter().map(|bag| bag.id.as_str()), &answer.risks)
}
