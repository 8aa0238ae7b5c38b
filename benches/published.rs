//! Published problems that are hard to prove: `FARDEL_INSTANCES=FOLDER cargo bench --bench published`. Reported, never
//! asserted.
//!
//! FOLDER holds files in their published formats: set-union knapsacks (`sukp_*.txt`; He, Xie, Wong & Wang, Future Generation
//! Computer Systems 78, 2018; best known values from Wei & Hao, arXiv 1903.04966, 2019) and knapsacks with several limits in
//! the format of the OR-Library (`mknapcb*.txt`; Chu & Beasley, Journal of Heuristics 4, 1998). In this program's words a
//! set is a failure whose repair needs all its elements, which are tools: so it is packed, from its files on. Each is solved
//! for 30 seconds, to see what is found, and for `FARDEL_SECONDS` (60 if not set), to see what is proven; by all engines, or
//! by the one of `FARDEL_ENGINE`.
#![allow(missing_docs, dead_code, reason = "a benchmark; it uses a part of what the tests share")]

#[path = "../tests/support/world.rs"]
mod world;

use fardel::load::Source;
use fardel::milp::{Answer, Engine, EngineError, Model, Sense, SolveOptions, Stop, solve};
use fardel::{resolve::resolve, risk::assess, select::select};
use std::time::{Duration, Instant};
use world::{Failure, Item, Repair, World};

/// Set-union knapsacks: file and best known value.
const SET_UNIONS: [(&str, f64); 3] = [
    ("sukp_85_100_0.10_0.75.txt", 12045.0),
    ("sukp_100_85_0.10_0.75.txt", 13283.0),
    ("sukp_100_100_0.10_0.75.txt", 14044.0),
];
const KNAPSACKS: &str = "mknapcb1_part.txt";

/// All numbers of a text.
fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().filter_map(|word| word.parse().ok()).collect()
}

/// `m=85    n=100     knapsack size=12180`, then profits, weights and the matrix, each under a heading.
fn set_union(text: &str) -> World {
    let after = |word: &str| -> f64 {
        let rest = text.split_once(word).expect("a heading").1;
        numbers(&rest.chars().take_while(char::is_ascii_digit).collect::<String>())[0]
    };
    let block = |heading: &str| {
        let rest = text.split_once(heading).expect("a heading").1;
        let lines = rest.lines().skip(1).take_while(|line| !line.contains(char::is_alphabetic));
        numbers(&lines.collect::<Vec<_>>().join(" "))
    };
    let (profits, weights, matrix) = (block("The profit"), block("The weight"), block("Relation matrix"));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole grams")]
    let grams = |weight: f64| weight as u32;
    let one = |at: usize| vec![(format!("tool {at}"), 1)];
    let item = |(at, weight): (usize, &f64)| Item {
        id: format!("item-{at}"),
        mass_g: grams(*weight),
        volume_ml: 1,
        at_most: 1,
        provides: one(at),
        ..Item::default()
    };
    let failure = |(at, profit): (usize, &f64)| {
        let row = matrix[at * weights.len()..].iter().take(weights.len()).enumerate();
        let needs = row.filter(|(_, needed)| **needed > 0.5).flat_map(|(tool, _)| one(tool)).collect();
        let repairs = vec![Repair { needs, restores: 1.0, ..Repair::default() }];
        Failure { id: format!("failure-{at}"), mean: 1.0, nags_h: Some(*profit), repairs, ..Failure::default() }
    };
    World {
        items: weights.iter().enumerate().map(item).collect(),
        failures: profits.iter().enumerate().map(failure).collect(),
        kit_mass_g: Some(grams(after("size="))),
        ..World::new()
    }
}

/// Chooses the kit of a world.
fn packed(world: &World, options: &SolveOptions) -> Result<Answer, EngineError> {
    let source = |name: &str, text: String| Source { name: name.to_owned(), text };
    let (catalogue, scenario) = (source("world.yaml", world.catalogue()), source("trip.yaml", world.scenario()));
    let loaded = fardel::load::load_texts(&[catalogue], scenario, &|_| unreachable!("no extras")).expect("sound files");
    let instance = resolve(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0]).expect("a case");
    let choice = select(&instance, &assess(&instance), &[], options)?;
    let (objective, bound) = (choice.objective, choice.bound);
    Ok(Answer { values: Vec::new(), objective, bound, stop: choice.stop, failed: choice.failed })
}

/// Problems of a file in the format of the OR-Library, with the values published.
fn knapsacks(text: &str) -> Vec<(Model, f64)> {
    let mut rest = numbers(text).into_iter();
    let mut next = || rest.next().expect("a number");
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "counts")]
    let count = |value: f64| value as usize;
    let problems = count(next());
    let problem = |_| {
        let (n, m, optimum) = (count(next()), count(next()), next());
        let mut model = Model::default();
        for at in 0..n {
            let profit = next();
            model.column(format!("x{at}"), (0.0, 1.0), true, profit);
        }
        let rows: Vec<Vec<(usize, f64)>> = (0..m).map(|_| (0..n).map(|at| (at, next())).collect()).collect();
        for (at, terms) in rows.into_iter().enumerate() {
            model.row("cap", at.to_string(), terms, Sense::AtMost, next());
        }
        (model, optimum)
    };
    (0..problems).map(problem).collect()
}

type Solve<'a> = &'a dyn Fn(&SolveOptions) -> Result<Answer, EngineError>;

fn tell(name: &str, solve: Solve<'_>, published: f64, seconds: &[f64]) {
    let only = std::env::var("FARDEL_ENGINE").ok();
    for engine in Engine::ALL.iter().filter(|engine| only.as_deref().is_none_or(|only| only == engine.word())) {
        for limit in seconds {
            let options = SolveOptions { engine: *engine, time_limit: Some(Duration::from_secs_f64(*limit)), gap: 0.0 };
            let start = Instant::now();
            let answer = solve(&options);
            let took = start.elapsed().as_secs_f64();
            let told = match &answer {
                Ok(answer) if answer.stop == Stop::Proven => format!("{:.0}, proven", answer.objective),
                Ok(answer) => {
                    let gap = (answer.bound - answer.objective) / answer.objective.abs().max(1.0);
                    format!("{:.0}, gap {:.2} %", answer.objective, gap * 100.0)
                }
                Err(error) => error.to_string(),
            };
            println!("| {name} | {published:.0} | {} | {told} | {took:.1} s |", engine.word());
            if answer.is_ok_and(|answer| answer.stop == Stop::Proven) {
                break;
            }
        }
    }
}

fn main() {
    let Some(folder) = std::env::var_os("FARDEL_INSTANCES") else {
        println!("FARDEL_INSTANCES names no folder of published instances: nothing to do");
        return;
    };
    let folder = std::path::PathBuf::from(folder);
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).expect("a file that is there");
    let long = std::env::var("FARDEL_SECONDS").ok().and_then(|text| text.parse().ok()).unwrap_or(60.0);
    println!("| problem | published | engine | found | after |\n| --- | ---: | --- | --- | ---: |");
    for (at, (model, published)) in knapsacks(&read(KNAPSACKS)).iter().enumerate() {
        tell(&format!("{KNAPSACKS}, number {}", at + 1), &|options| solve(model, options), *published, &[long]);
    }
    for (name, published) in SET_UNIONS {
        let world = set_union(&read(name));
        tell(name, &|options| packed(&world, options), published, &[30.0, long]);
    }
}
