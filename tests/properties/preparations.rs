//! What a preparation saves, packed anew, is what two separate packs say; and packing anew adds no more than there is room
//! for.

use crate::support::shipped;
use fardel::answer::{Anew, PackAnswer, pack, pack_thoroughly};
use fardel::milp::{Engine, SolveOptions};

/// Hours lost on the trip with the best kit.
fn loss(answer: &PackAnswer) -> f64 {
    answer.figures.hours_empty.get() - answer.proof.objective
}

#[test]
fn each_preparation_is_worth_the_difference_of_two_packs() {
    for engine in Engine::ALL {
        let options = SolveOptions { engine: *engine, ..SolveOptions::default() };
        let loaded = shipped("day-ride.yaml");
        let (catalogue, scenario) = (&loaded.catalogue, &loaded.scenario);
        let rider = &scenario.riders[0];
        let all = pack_thoroughly(catalogue, scenario, rider, Anew::All, &options).unwrap();
        let few = pack(catalogue, scenario, rider, &options).unwrap();
        assert!(few.chores.iter().filter(|chore| chore.gain_anew.is_some()).count() <= 2);
        let mut packed = 0;
        for chore in &all.chores {
            let mut done = scenario.clone();
            done.done.push(chore.id.clone());
            let gain = loss(&all) - loss(&pack(catalogue, &done, rider, &options).unwrap());
            let room = chore.gain.get() + chore.room.get();
            assert!(gain >= chore.gain.get() - 1e-7 && gain <= room + 1e-7, "{}: {gain} and {chore:?}", chore.id);
            if let Some(anew) = chore.gain_anew {
                assert!((anew.get() - gain).abs() < 1e-6, "{}: {gain} and {anew:?}", chore.id);
                packed += 1;
            }
        }
        assert!(packed > 2, "only {packed} of {} were packed anew", all.chores.len());
    }
}
