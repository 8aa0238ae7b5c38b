//! Shortest times against trying every way.

use crate::world::World;
use fardel_route::map::read;
use fardel_route::network::{Drive, Network, Speeds};
use fardel_route::ride::Ride;
use std::io::Cursor;

const COUNT: usize = 14;

/// Random maps of 14 crossings; the times between all of them by relaxing every edge as often as there are crossings.
#[test]
fn shortest_times_are_those_of_trying_everything() {
    let mut random = fastrand::Rng::with_seed(21);
    for round in 0..60 {
        let mut world = World::at(45.0, 7.0);
        let nodes: Vec<i64> = (0..COUNT).map(|_| world.node(random.f64() * 9.0, random.f64() * 9.0, &[])).collect();
        let mut edges: Vec<(usize, usize, f64)> = Vec::new();
        for _ in 0..20 {
            let (a, b) = (random.usize(0..COUNT), random.usize(0..COUNT));
            if a == b {
                continue;
            }
            let (surface, speed) = [("asphalt", 60.0), ("gravel", 40.0), ("sand", 8.0)][random.usize(0..3)];
            let oneway = ["no", "yes", "-1"][random.usize(0..3)];
            world.join(&[nodes[a], nodes[b]], &[("highway", "road"), ("surface", surface), ("oneway", oneway)]);
            let metres = world.nodes[a].1.metres_to(world.nodes[b].1);
            let hours = metres / 1000.0 / speed;
            if oneway != "-1" {
                edges.push((a, b, hours));
            }
            if oneway != "yes" {
                edges.push((b, a, hours));
            }
        }
        let track = world.track(&[(0.0, 0.0), (9.0, 9.0)]);
        let ride = Ride::new(&track).unwrap();
        let corridor = read("a", Cursor::new(world.bytes()), &ride, 20_000.0).unwrap();
        let network = Network::new(&corridor, &Speeds::default());
        let number = |node: usize| corridor.ids.binary_search(&nodes[node]).ok();
        let starts = [random.usize(0..COUNT), random.usize(0..COUNT)];
        let known: Vec<(u32, f64)> =
            starts.iter().filter_map(|s| Some((u32::try_from(number(*s)?).unwrap(), 0.1))).collect();
        for drive in [Drive::From, Drive::To] {
            let reached = network.reach(&known, drive);
            let mut expected = vec![f64::INFINITY; COUNT];
            starts.iter().for_each(|start| expected[*start] = 0.1);
            for _ in 0..COUNT {
                for (a, b, hours) in &edges {
                    let (from, to) = if drive == Drive::From { (*a, *b) } else { (*b, *a) };
                    expected[to] = expected[to].min(expected[from] + hours);
                }
            }
            for (node, expected) in expected.iter().enumerate() {
                let found = number(node).map_or(f64::INFINITY, |at| reached.hours[at]);
                let alone = number(node).is_none();
                assert!(alone || found == *expected || (found - expected).abs() < 1e-5, "{round}: {found} {expected}");
            }
        }
    }
}
