//! The page of `pack`.

use super::bags::{Packing, packing};
use super::checks::{List, one_bike};
use super::frame::{key, page, whole};
use super::glance::{Glance, glance};
use super::systems::{System, Trouble, open_troubles, systems};
use super::wheels::{Load, load};
use super::{PageError, certainty, curve, picture};
use crate::Look;
use crate::amount::money;
use crate::cautions::cautions;
use crate::told::{Line, Rows};
use crate::view::robust::{Told, told};
use crate::view::{self, Names, Typed, checks, departure, headline, needs, notes};
use crate::words::{counted, home};
use fardel_core::answer::{NeedLine, PackAnswer, Purchase, Robust, TradeoffAnswer};
use fardel_core::domain::{Bike, Catalogue};
use fardel_core::units::Currency;
use fardel_words::{plain, word};
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
    glance: Glance,
    lines: Vec<Line>,
    key: String,
    packing: Packing,
    picture: Option<picture::Picture>,
    load: Option<Load>,
    systems: Vec<System>,
    open: Vec<Trouble>,
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
    whole("pack.html", page(&answer.trip.scenario, word!("Kit")), content(answer, kit, look), look)
}

fn content(answer: &PackAnswer, own: &Kit<'_>, look: &Look) -> Pack {
    let here = (answer.totals.mass.milligrams(), answer.proof.objective);
    let names = Names::of(own.catalogue);
    let view = view::pack(answer, &names, &Typed::default(), look);
    let key = key(&answer.trip.scenario, &answer.trip.rider);
    Pack {
        glance: glance(view, headline::who_in_short(answer, look), true),
        lines: headline::lines(answer, look),
        packing: packing(&answer.bags, key.clone(), &names, look),
        key,
        picture: answer.loads.first().map(|load| picture::picture(own.catalogue, own.bike, &answer.bags, load, look)),
        load: answer.loads.first().map(|loaded| load(loaded, look)),
        systems: systems(&answer.risks, look),
        open: open_troubles(&answer.risks, look),
        curve: own.curve.and_then(|curve| curve::picture(curve, Some(here), look)),
        checks: one_bike(&answer.checks),
        checks_legend: plain(checks::LEGEND),
        chores: answer.chores.iter().take(departure::SHOWN).map(|one| chore(answer, one, look)).collect(),
        chores_more: answer.chores.len().checked_sub(departure::SHOWN).filter(|more| *more > 0).map(departure::rest),
        chores_legend: plain(departure::LEGEND).trim(),
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
    Rows::new(&[word!("Need"), "#demanded", "#carried", word!("reckoned from")], rows)
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
