//! A class of the invented season, looked at again by other ways.

use super::*;
use crate::domain::Kit;
use crate::load::{Loaded, Shelf, Source, shipped};
use crate::season::{Job, Written, draw};
use crate::units::Money;

fn loaded() -> Loaded {
    let catalogue = crate::load::catalogue(&shipped(), &[]).unwrap();
    let job = Job::from_json(&draw(&catalogue, 1, Some(1), "class").next().unwrap()).unwrap();
    let Written::Text(text) = job.scenario else { panic!("{:?}", job.scenario) };
    let shelf = Shelf::new(shipped().into_iter().map(Ok).collect()).unwrap();
    let scenario = Source { name: "scenario_text".to_owned(), text };
    shelf.load(Ok(scenario), &|_| unreachable!("no other files")).unwrap()
}

#[test]
fn a_class_is_told_what_is_so() {
    let Loaded { catalogue, scenario, .. } = loaded();
    let answer = class(&catalogue, &scenario, &SolveOptions::default());
    assert!(answer.members.len() > 3 && answer.leader == 0 && answer.together);
    let kits: Vec<&PackAnswer> = answer.members.iter().filter_map(|member| member.kit.as_ref().ok()).collect();
    let spent = kits.iter().fold(Money::ZERO, |sum, kit| sum + kit.totals.to_buy);
    assert_eq!(answer.shopping.iter().fold(Money::ZERO, |sum, line| sum + line.price), spent);
    for line in answer.shopping.iter().filter(|line| line.once.is_some()) {
        let item = &catalogue.items[&line.id];
        assert!(item.holds.is_empty() && !item.provides.is_empty() && !item.personal, "{}", item.id);
        assert!(kits.iter().filter(|kit| kit.kit.count(&item.id) > 0).count() > 1, "{}", item.id);
    }
    let (mut unturned, mut lacking) = (0, 0);
    for (member, rider) in answer.members.iter().zip(&scenario.riders) {
        let Ok(kit) = &member.kit else { continue };
        let gives = |size: &str| kit.kit.iter().any(|(id, _)| catalogue.items[id].provides.contains_key(size));
        for line in &member.unturned {
            assert!(!gives(&line.size), "{}: {line:?}", member.rider);
            // With what is said to turn it, it is turned.
            let named =
                |name: &str| catalogue.items.values().find(|item| item.name == name).map(|item| item.id.clone());
            let more = line.would_turn.iter().flat_map(|way| way.split(" with ")).filter_map(named).map(|id| (id, 1));
            let own = kit.kit.iter().map(|(id, count)| (id.to_owned(), count));
            let (still, _) = tools::unturned(&catalogue, rider, Some(&Kit::new(own.chain(more))));
            assert!(line.would_turn.is_empty() || still.iter().all(|other| other.what != line.what), "{line:?}");
            unturned += 1;
        }
        let leader = answer.members[answer.leader].kit.as_ref().unwrap();
        for lack in &member.lacks {
            assert!(leader.kit.count(&lack.id) > 0 && kit.kit.count(&lack.id) == 0, "{lack:?}");
            lacking += 1;
        }
    }
    assert!(unturned > 0 && lacking > 0 && answer.shopping.iter().any(|line| line.once.is_some()));
}
