//! What depends on the rates, as a rider reads it.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use crate::answer::{ItemShare, Robust, Trial};
use crate::report::words::{counted, list};

/// From this share of the kits on an item is steady.
const STEADY: f64 = 0.9;
/// Below this share it is there by chance.
const CHANCE: f64 = 0.1;
/// Items on the edge that are shown; the JSON has all.
const SHOWN: usize = 15;

/// The part of `pack --uncertain` after the plan.
#[must_use]
pub fn robust(robust: &Robust, look: &Look) -> String {
    let mut text = format!("\n{}", heading("If the rates are wrong"));
    let steady = robust.items.iter().filter(|item| item.packed && item.share >= STEADY).count();
    let own = robust.items.iter().filter(|item| item.packed).count();
    let unsolved = match robust.unsolved {
        0 => String::new(),
        n => format!(" For {n} more there was no time."),
    };
    let line = format!(
        "  Packed {} times more, each time with rates drawn as far as their evidence leaves them open: {} different kits. \
         {steady} of the {own} sorts of things in the plan above are steady, in nine such kits out of ten or more.{unsolved}",
        robust.draws, robust.kits
    );
    text += &wrapped(&line, look, "  ");
    text += &edge(robust, look);
    text += &kits(robust, look);
    for (what, trial) in [("on average", &robust.best_mean), ("in the worst tenth", &robust.best_worst)] {
        if trial.kit != robust.packed.kit {
            text += &wrapped(&format!("  The best {what} {}.", exchange(trial)), look, "  ");
        }
    }
    let note = "  Average and worst tenth are reckoned under fresh draws that chose no kit; ridden is the mean of a rehearsal \
                with rates drawn for each trip, with twice its standard error.";
    text + &wrapped(note, look, "  ")
}

fn edge(robust: &Robust, look: &Look) -> String {
    let on_edge = |item: &&ItemShare| {
        if item.packed { item.share < STEADY } else { item.share >= CHANCE }
    };
    let items: Vec<&ItemShare> = robust.items.iter().filter(on_edge).collect();
    if items.is_empty() {
        return String::new();
    }
    let rows = items.iter().take(SHOWN).map(|item| {
        let here = if item.packed { "yes" } else { "no" };
        vec![item.name.clone(), here.to_owned(), format!("{:.0} %", item.share * 100.0)]
    });
    let set = [Set::Left(Some(48)), Set::Left(Some(14)), Set::Right(Some(15))];
    let mut text = format!("\n{}", table(&["on the edge", "in the plan", "of such kits"], &set, rows.collect(), look));
    if items.len() > SHOWN {
        text += &format!("  and {} more (all of them with --format json)\n", items.len() - SHOWN);
    }
    text
}

fn kits(robust: &Robust, look: &Look) -> String {
    let rows = [
        ("the plan above", &robust.packed),
        ("best on average", &robust.best_mean),
        ("best in the worst tenth", &robust.best_worst),
    ];
    let row = |(name, trial): (&str, &Trial)| {
        vec![
            name.to_owned(),
            format!("{:.2} h", trial.mean.get()),
            format!("{:.2} h", trial.worst.get()),
            format!("{:.2} h (give or take {:.2})", trial.ridden.mean, 2.0 * trial.ridden.error),
        ]
    };
    let set = [Set::Left(Some(30)), Set::Right(Some(12)), Set::Right(Some(14)), Set::Right(Some(30))];
    let head = ["hours lost with", "average", "worst tenth", "ridden"];
    format!("\n{}", table(&head, &set, rows.map(row).to_vec(), look))
}

fn exchange(trial: &Trial) -> String {
    let names = |list: &[(String, u32)]| list.iter().map(|(name, n)| counted(*n, name)).collect::<Vec<_>>();
    match (trial.more.is_empty(), trial.fewer.is_empty()) {
        (false, false) => format!("takes {} for {}", list(&names(&trial.more)), list(&names(&trial.fewer))),
        (false, true) => format!("takes {} as well", list(&names(&trial.more))),
        _ => format!("leaves {} at home", list(&names(&trial.fewer))),
    }
}
