//! One kit for a group: against pack, against enumeration, against published instances, and as riders see it.

mod apart;
mod company;
mod leaving;
mod published;
mod room;
pub mod shown;
mod small;

use crate::support::World;
use fardel::answer::PackError;
use fardel::answer::split::{Demands, SplitAnswer, split};
use fardel::load::{Loaded, Source, load_texts};
use fardel::milp::{Engine, SolveOptions};

/// A rider of a test group: name, bags, limit in grams.
pub type Rider<'a> = (&'a str, &'a [&'a str], Option<u32>);

/// The world with these riders in place of its own; `rest` goes to the end of the scenario.
pub fn group(world: &World, riders: &[Rider<'_>], rest: &str) -> Loaded {
    let scenario = world.scenario();
    let (before, after) = scenario.split_once("riders:\n").expect("riders");
    let (_, after) = after.split_once("always:").expect("the always list");
    let mut text = format!("{before}riders:\n");
    for (name, bags, limit) in riders {
        let limit = limit.map_or_else(String::new, |grams| format!("    kit_mass: {grams} g\n"));
        text += &format!(
            "  - name: {name}\n    bike: bike\n    riding_skill: intermediate\n    repair_skill: {}\n    mass: 80 kg\n    bags: [{}]\n{limit}",
            world.repair_skill,
            bags.join(", ")
        );
    }
    text += &format!("always:{after}{rest}");
    let catalogue = Source { name: "world.yaml".to_owned(), text: world.catalogue() };
    let loaded = load_texts(&[catalogue], Source { name: "trip.yaml".to_owned(), text: text.clone() }, &|_| {
        unreachable!("no extras")
    });
    loaded.unwrap_or_else(|faults| panic!("{faults}\n{text}"))
}

pub fn split_with(loaded: &Loaded, demands: &Demands, engine: Engine) -> Result<SplitAnswer, PackError> {
    let options = SolveOptions { engine, ..SolveOptions::default() };
    split(&loaded.catalogue, &loaded.scenario, demands, None, &options)
}

pub fn plain(loaded: &Loaded, engine: Engine) -> SplitAnswer {
    split_with(loaded, &Demands::default(), engine).unwrap_or_else(|error| panic!("{error}: {error:?}"))
}
