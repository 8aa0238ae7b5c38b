//! The pages of `split`: the whole group in one, and one for each rider.

use super::bags::{Packing, packing, share};
use super::checks::{List, groups};
use super::frame::{key, page, whole};
use super::glance::{Glance, glance};
use super::pack::{Buy, needs_rows, to_buy};
use super::systems::{System, Trouble, open_troubles, systems};
use super::wheels::{Load, load};
use super::{PageError, certainty, picture};
use crate::Look;
use crate::amount::money;
use crate::cautions::cautions;
use crate::told::{Line, Rows};
use crate::view::{self, Figure, Names, Typed, checks as legend, split as told};
use crate::words::percent;
use fardel_core::answer::split::{Card, SplitAnswer};
use fardel_core::domain::{Catalogue, Scenario};
use fardel_words::{plain, say, word};
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
    glance: Glance,
    lines: Vec<Line>,
    /// What the ticks of the whole group are remembered under.
    key: String,
    shares: Vec<Share>,
    riders: Vec<Rider>,
    moves: Option<Vec<String>>,
    tables: Vec<(&'static str, Rows)>,
    systems: Vec<System>,
    open: Vec<Trouble>,
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

/// What a rider carries, in a row that leads to the rider's part.
#[derive(Serialize)]
struct Share {
    id: String,
    rider: String,
    bike: String,
    roles: String,
    mass: String,
    /// Of the limit, where there is one: `6.2 of 9.0 kg`.
    of_limit: Option<String>,
    share: f64,
    own: String,
    fair: String,
    front: String,
}

/// One rider's part.
#[derive(Serialize)]
struct Rider {
    /// For anchors: `rider-1`.
    id: String,
    name: String,
    title: String,
    /// The same without the name, below it.
    about: String,
    packing: Packing,
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
    let names = Names::of(group.catalogue);
    let view = view::group(answer, &names, &Typed::default(), look);
    let content = Split {
        glance: glance(view, told::who(answer, look), true),
        lines: told::lines(answer, look),
        key: key(&answer.scenario, ""),
        shares: shares(answer, look),
        riders: answer.cards.iter().enumerate().map(|(at, card)| rider(answer, (at, card), group, look)).collect(),
        moves: told::moves(answer),
        tables: tables(answer, look),
        systems: systems(&answer.risks, look),
        open: open_troubles(&answer.risks, look),
        checks: groups(&answer.checks),
        checks_legend: plain(legend::LEGEND),
        needs: needs_rows(&answer.needs, look),
        to_buy: to_buy(&answer.purchases, answer.totals.currency),
        to_buy_in_all: money(answer.totals.to_buy, answer.totals.currency),
        proof: certainty::proof(answer.proof.objective, answer.proof.bound, answer.proof.gap),
        bases: bases(answer, group.catalogue),
        notes: answer.warnings.clone(),
        cautions: cautions(&answer.kinds),
    };
    whole("split.html", page(&answer.scenario, word!("Kit of the group")), content, look)
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
    let frame = page(&answer.scenario, word!("Kit of one rider"));
    let rider = rider(answer, (at, card), group, look);
    whole("rider.html", frame, Own { apart: told::lacks(answer, card), rider, cautions: cautions(&answer.kinds) }, look)
}

fn rider(answer: &SplitAnswer, (at, card): (usize, &Card), group: &Group<'_>, look: &Look) -> Rider {
    let number = at + 1;
    let bike = group.scenario.riders.get(at).and_then(|rider| group.catalogue.bikes.get(&rider.bike));
    // The ticks are those of the rider, whichever page is opened.
    let key = key(&answer.scenario, &card.rider);
    Rider {
        id: format!("rider-{number}"),
        name: card.rider.clone(),
        title: told::card_title(card, look),
        about: format!("{} · {}", told::bike_and_roles(card), look.show(card.mass)),
        packing: packing(&card.bags, key, &Names::of(group.catalogue), look),
        picture: bike.map(|bike| picture::picture(group.catalogue, bike, &card.bags, &card.load, look)),
        load: load(&card.load, look),
    }
}

fn shares(answer: &SplitAnswer, look: &Look) -> Vec<Share> {
    let share = |(at, card): (usize, &Card)| {
        let roles: Vec<&str> = card.roles.iter().map(|role| role.shown()).collect();
        let mass = Figure::mass(card.mass, look);
        Share {
            id: format!("rider-{}", at + 1),
            rider: card.rider.clone(),
            bike: card.bike.clone(),
            roles: roles.join(", "),
            of_limit: card.limit.map(|limit| mass.of(&Figure::mass(limit, look))),
            share: card.limit.map_or(0.0, |limit| share(card.mass.grams(), limit.grams())),
            mass: mass.text,
            own: look.show(card.personal),
            fair: say!("{:.0} %", card.mass.kilograms() / card.fair.kilograms().max(1e-9) * 100.0),
            front: percent(card.load.loaded.front_share()),
        }
    };
    answer.cards.iter().enumerate().map(share).collect()
}

fn tables(answer: &SplitAnswer, look: &Look) -> Vec<(&'static str, Rows)> {
    let head =
        [word!("Without"), "#whole kit saves", "#what is left saves", "#kept", word!("the others can still mend")];
    let carried = [word!("Thing"), word!("with"), "#mass", "#hours lost without"];
    let buying = say!("#to buy, {}", answer.totals.currency);
    let all = vec![
        (plain(told::LEAVING), Rows::new(&head, told::leaving_rows(answer, look))),
        (plain(told::ONCE), Rows::new(&carried, told::carried_rows(&answer.once, look))),
        (plain(told::TWICE), Rows::new(&carried, told::carried_rows(&answer.twice, look))),
        (plain(told::ALONE), Rows::new(&[word!("Who"), "#kit", "#saves", &buying], told::alone_rows(answer, look))),
    ];
    all.into_iter().filter(|(_, rows)| !rows.rows.is_empty()).collect()
}

fn bases(answer: &SplitAnswer, catalogue: &Catalogue) -> Rows {
    let bags = || answer.cards.iter().flat_map(|card| &card.bags);
    let items = bags().flat_map(|bag| &bag.items).map(|item| item.id.as_str());
    certainty::bases(catalogue, items, bags().map(|bag| bag.id.as_str()), &answer.risks)
}
