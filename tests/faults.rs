//! A solver that lies or fails in every way known: what it says never reaches the rider as an answer.
//!
//! Where the engines built in may relieve it, the kit is the one that they find alone and a warning names the failure; where
//! they may not, there is an error. What the rider reads and the exit status then are, is tested beside the words
//! (`src/cli/refusal.rs`).

#![allow(clippy::unnecessary_wraps, reason = "a solver's answer is a result")]

use crate::support::{close, pack_with, shipped};
use fardel::answer::{PackAnswer, PackError, pack};
use fardel::live::{Budget, Cancel, Live, Standing};
use fardel::milp::{Answer, CustomSolver, Engine, EngineError, Model, SolveOptions, Stop, solve};
use std::ops::ControlFlow;
use std::sync::Arc;
use std::time::{Duration, Instant};

type Liar = fn(&Model, &SolveOptions) -> Result<Answer, EngineError>;

const SCENARIO: &str = "day-ride.yaml";

fn packed(liar: Liar, has_fallback: bool, limit: Duration) -> Result<PackAnswer, PackError> {
    packed_for(SCENARIO, liar, has_fallback, limit)
}

fn packed_for(scenario: &str, liar: Liar, has_fallback: bool, limit: Duration) -> Result<PackAnswer, PackError> {
    let loaded = shipped(scenario);
    let engine = Engine::Custom(CustomSolver { word: "liar", solve: liar, has_fallback });
    let options = SolveOptions { engine, time_limit: Some(limit), gap: 0.0 };
    pack(&loaded.catalogue, &loaded.scenario, &loaded.scenario.riders[0], &options)
}

/// The lie is seen: alone it ends in a fault that says `named`, and with relief in the best kit and a warning.
fn is_seen_through(liar: Liar, named: &str) {
    is_seen_through_on(SCENARIO, liar, named);
}

fn is_seen_through_on(scenario: &str, liar: Liar, named: &str) {
    let long = Duration::from_secs(600);
    match packed_for(scenario, liar, false, long) {
        Err(PackError::Engine(EngineError::Fault(fault))) => assert!(fault.contains(named), "{fault}"),
        other => panic!("an error that says `{named}` expected, not {other:?}"),
    }
    let (best, has_fallback) =
        (pack_with(&shipped(scenario), Engine::Microlp).unwrap(), packed_for(scenario, liar, true, long).unwrap());
    close(has_fallback.proof.objective, best.proof.objective, 1e-6);
    assert_eq!(has_fallback.kit, best.kit);
    assert!(has_fallback.proof.proven);
    assert!(has_fallback.warnings.iter().any(|warning| warning.contains(named)), "{:?}", has_fallback.warnings);
    assert!(!best.warnings.iter().any(|warning| warning.contains("solver")), "nothing failed there");
}

/// The truth, to be bent.
fn truth(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
    solve(model, &SolveOptions { engine: Engine::Microlp, ..*options })
}

fn at(model: &Model, values: Vec<f64>) -> Answer {
    let objective = model.objective(&values);
    Answer { values, objective, bound: objective, stop: Stop::Proven, failed: Vec::new() }
}

#[test]
fn a_point_that_breaks_rows() {
    fn liar(model: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Ok(at(model, model.columns.iter().map(|column| column.upper.min(1e6)).collect()))
    }
    is_seen_through(liar, "its answer breaks");
}

#[test]
fn a_point_that_is_not_whole() {
    fn liar(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
        let halves = truth(&model.relaxed(), options)?;
        Ok(at(model, halves.values))
    }
    is_seen_through(liar, " of n[");
}

#[test]
fn a_point_of_no_numbers() {
    fn liar(model: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Ok(at(model, vec![f64::NAN; model.columns.len()]))
    }
    is_seen_through(liar, "its answer breaks the bounds of");
}

#[test]
fn a_point_with_columns_missing() {
    fn liar(model: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Ok(at(model, vec![0.0]))
    }
    is_seen_through(liar, "another number of columns");
}

#[test]
fn an_objective_that_is_not_that_of_the_point() {
    fn liar(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
        let answer = truth(model, options)?;
        Ok(Answer { objective: answer.objective + 1.0, bound: answer.bound + 1.0, ..answer })
    }
    is_seen_through(liar, "it claims");
}

#[test]
fn a_bound_below_the_answer() {
    fn liar(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
        let answer = truth(model, options)?;
        Ok(Answer { bound: answer.objective - 1.0, ..answer })
    }
    is_seen_through_on("five-day-loop.yaml", liar, "beyond its bound");
}

/// The worst kit that meets all needs, called the best. On a trip on which some repair is worth its tools by itself: where only
/// several together are, the short search by whole repairs may not show it.
#[test]
fn a_poor_kit_with_a_bound_to_match() {
    fn liar(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
        let mut worst = model.clone();
        worst.columns.iter_mut().for_each(|column| column.gain = -column.gain.abs());
        Ok(at(model, truth(&worst, options)?.values))
    }
    is_seen_through_on("five-day-loop.yaml", liar, "beyond its bound");
}

#[test]
fn a_numerical_failure() {
    fn liar(_: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Err(EngineError::Fault("Singular matrix".to_owned()))
    }
    is_seen_through(liar, "Singular matrix");
}

#[test]
fn a_panic() {
    fn liar(_: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        std::panic::resume_unwind(Box::new("no tableau"))
    }
    is_seen_through(liar, "it panicked");
}

#[test]
fn infeasible_where_there_is_a_kit() {
    fn liar(_: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Err(EngineError::Infeasible)
    }
    let (best, has_fallback) =
        (pack_with(&shipped(SCENARIO), Engine::Microlp).unwrap(), packed(liar, true, Duration::from_secs(60)).unwrap());
    assert_eq!(has_fallback.kit, best.kit);
    assert!(has_fallback.warnings.iter().any(|warning| warning.contains("there is a choice where")));
}

/// Nothing is left of the rider's time when such a solver is given up, so nothing else is tried.
#[test]
fn time_that_runs_out_without_an_answer() {
    fn liar(_: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Err(EngineError::NoAnswerInTime)
    }
    // What is found and stowed without a solver stands, and is not called proven.
    assert!(!packed(liar, true, Duration::from_secs(1)).unwrap().proof.proven);
}

#[test]
fn a_search_that_never_ends() {
    fn liar(_: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        loop {
            std::thread::sleep(Duration::from_secs(60));
        }
    }
    let started = Instant::now();
    assert!(!packed(liar, true, Duration::from_millis(100)).unwrap().proof.proven);
    assert!(started.elapsed() < Duration::from_secs(60));
}

/// Out of time with a kit is an answer, but not a proven one, and its bound holds the best.
#[test]
fn time_that_runs_out_with_an_answer() {
    fn hasty(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
        let answer = truth(model, options)?;
        Ok(Answer { bound: answer.bound + 0.5, stop: Stop::OutOfTime, ..answer })
    }
    let answer = packed(hasty, false, Duration::from_secs(60)).unwrap();
    assert!(!answer.proof.proven);
    assert!(answer.proof.gap > 0.0 && answer.proof.bound >= answer.proof.objective + 0.4);
}

/// A live plan with this engine, from nothing to the end.
fn improved(liar: Liar, has_fallback: bool) -> (Live, Result<Standing, PackError>) {
    let loaded = shipped(SCENARIO);
    let engine = Engine::Custom(CustomSolver { word: "liar", solve: liar, has_fallback });
    let options = SolveOptions { engine, time_limit: None, gap: 0.0 };
    let mut live = Live::open(Arc::new(loaded.catalogue), loaded.scenario, 0, options).unwrap();
    let mut worth = f64::NEG_INFINITY;
    let mut hear = |standing: &Standing| {
        assert!(standing.figures.is_sound() && standing.objective() >= worth);
        worth = standing.objective();
        ControlFlow::Continue(())
    };
    let done = live.improve(Budget::default(), &Cancel::new(), &mut hear).cloned();
    (live, done)
}

#[test]
fn a_live_plan_tells_nothing_of_what_a_liar_says() {
    fn too_much(model: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Ok(at(model, model.columns.iter().map(|column| column.upper.min(1e6)).collect()))
    }
    fn nothing_goes(_: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        Err(EngineError::Infeasible)
    }
    fn too_low(model: &Model, options: &SolveOptions) -> Result<Answer, EngineError> {
        let answer = truth(model, options)?;
        Ok(Answer { bound: answer.objective - 1.0, ..answer })
    }
    fn panics(_: &Model, _: &SolveOptions) -> Result<Answer, EngineError> {
        panic!("on purpose")
    }
    let best = pack_with(&shipped(SCENARIO), Engine::Microlp).unwrap();
    for (word, liar) in [("too much", too_much as Liar), ("nothing", nothing_goes), ("low", too_low), ("panic", panics)]
    {
        let (live, alone) = improved(liar, false);
        assert!(matches!(alone, Err(PackError::Engine(_))), "{word}: {alone:?}");
        let good = live.standing().expect("the kit that needed no solver stays");
        assert!(good.figures.is_sound() && !good.proven, "{word}");
        let (_, relieved) = improved(liar, true);
        let relieved = relieved.unwrap();
        assert!(relieved.proven && relieved.kit == best.kit, "{word}");
        close(relieved.objective(), best.proof.objective, 1e-6);
    }
}
