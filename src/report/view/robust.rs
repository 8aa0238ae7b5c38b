//! What depends on numbers that are not known well.

use crate::measure::sentence;
use crate::told::Rows;
use crate::words::{counted, list};
use fardel_core::answer::{ItemShare, Robust, Trial};
use fardel_words::{mark, say, several, word};
use serde::Serialize;

/// From this share of the kits on an item is steady.
const STEADY: f64 = 0.9;
/// Below this share it is there by chance.
const CHANCE: f64 = 0.1;
/// Items on the edge that are shown; the JSON has all.
pub(crate) const SHOWN: usize = 15;
/// Things to measure that a page shows.
const MEASURED: usize = 5;

/// What depends on the rates, in words and rows.
#[derive(Debug, Serialize)]
pub(crate) struct Told {
    pub opening: String,
    pub edge: Rows,
    pub kits: Rows,
    pub closing: Vec<String>,
    /// What to measure first.
    pub measure: Vec<String>,
}

pub(crate) const EDGE: [&str; 3] = [mark!("on the edge"), mark!("in the plan"), mark!("of such kits")];
pub(crate) const KITS: [&str; 4] = [mark!("hours lost with"), mark!("average"), mark!("worst tenth"), mark!("ridden")];

/// The same for terminal and page.
pub(crate) fn told(robust: &Robust) -> Told {
    let steady = robust.items.iter().filter(|item| item.packed && item.share >= STEADY).count();
    let own = robust.items.iter().filter(|item| item.packed).count();
    let unsolved = match robust.unsolved {
        0 => String::new(),
        n => say!(" For {n} more there was no time."),
    };
    let opening = say!(
        "Packed {} times more, each time with rates, falls, times, hours to help and prices of worth drawn as far as what \
         they rest on leaves them open: {}. \
         {steady} of the {own} sorts of things in the plan above are steady, in nine such kits out of ten or more.{unsolved}",
        robust.draws,
        if robust.kits == 1 { say!("1 kit") } else { several!(robust.kits, "{n} different kit", "{n} different kits") },
    );
    let mut closing = Vec::new();
    let bests = [(word!("on average"), &robust.best_mean), (word!("in the worst tenth"), &robust.best_worst)];
    let (own, others): (Vec<_>, Vec<_>) = bests.iter().partition(|(_, trial)| trial.kit == robust.packed.kit);
    if !own.is_empty() {
        let what: Vec<String> = own.iter().map(|(what, _)| (*what).to_owned()).collect();
        closing.push(say!("None of those kits does better than the plan above {}.", what.join(word!(" or "))));
    }
    others.iter().for_each(|(what, trial)| closing.push(say!("The best {what} {}.", exchange(trial))));
    let note = word!(
        "Average and worst tenth are reckoned under fresh draws that chose no kit; ridden is the mean of a rehearsal \
                with everything drawn anew again and again, with twice its standard error."
    );
    closing.push(note.to_owned());
    let first = robust.measure.first().take(MEASURED).map(sentence);
    let measure = first.chain([crate::measure::closing(&robust.measure)]).collect();
    Told { opening, edge: Rows::new(&EDGE, edge_rows(robust)), kits: Rows::new(&KITS, kits(robust)), closing, measure }
}

fn edge_rows(robust: &Robust) -> Vec<Vec<String>> {
    let on_edge = |item: &&ItemShare| {
        if item.packed { item.share < STEADY } else { item.share >= CHANCE }
    };
    let row = |item: &ItemShare| {
        let here = if item.packed { word!("yes") } else { word!("no") };
        vec![item.name.clone(), here.to_owned(), say!("{:.0} %", item.share * 100.0)]
    };
    robust.items.iter().filter(on_edge).map(row).collect()
}

fn kits(robust: &Robust) -> Vec<Vec<String>> {
    let rows = [
        (word!("the plan above"), &robust.packed),
        (word!("best on average"), &robust.best_mean),
        (word!("best in the worst tenth"), &robust.best_worst),
    ];
    let row = |(name, trial): (&str, &Trial)| {
        vec![
            name.to_owned(),
            say!("{:.2} h", trial.mean.get()),
            say!("{:.2} h", trial.worst.get()),
            say!("{:.2} h (give or take {:.2})", trial.ridden.mean, 2.0 * trial.ridden.error),
        ]
    };
    let shown = rows.iter().enumerate().filter(|(at, (_, trial))| *at == 0 || trial.kit != robust.packed.kit);
    shown.map(|(_, named)| row(*named)).collect()
}

fn exchange(trial: &Trial) -> String {
    let names = |list: &[(String, u32)]| list.iter().map(|(name, n)| counted(*n, name)).collect::<Vec<_>>();
    match (trial.more.is_empty(), trial.fewer.is_empty()) {
        (false, false) => say!("takes {} for {}", list(&names(&trial.more)), list(&names(&trial.fewer))),
        (false, true) => say!("takes {} as well", list(&names(&trial.more))),
        _ => say!("leaves {} at home", list(&names(&trial.fewer))),
    }
}
