//! The lever rule against published and worked figures, and what must hold for every load.

use crate::support::{Item, World, load, pack_with, shipped};
use fardel::answer::PackError;
use fardel::milp::Engine;
use fardel::resolve::{Mount, Scale};
use fardel::units::{Length, Mass, Quantity};
use fastrand::Rng;

fn kg(kilograms: f64) -> Mass {
    Mass::from_base(kilograms * 1e6)
}

fn metres(metres: f64) -> Length {
    Length::from_base(metres * 1e6)
}

fn mount(wheelbase: f64, bike: f64, front_share: f64, parts: &[(f64, f64)]) -> Mount {
    Mount {
        rider: "Rider".to_owned(),
        bike: "bike".to_owned(),
        wheelbase: metres(wheelbase),
        bike_mass: kg(bike),
        front_share,
        people: Vec::new(),
        empty_bags: parts.iter().map(|(mass, ahead)| (kg(*mass), metres(*ahead))).collect(),
        empty_lean: 0.0,
        limits: Vec::new(),
        bags: Vec::new(),
        range: None,
        charge: None,
    }
}

fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} against {expected}");
}

/// A hundred pounds fifteen inches behind the rear axle lift the front with 1500 inch-pounds (US motorcycle monthly,
/// September 1968, on load moments); on a wheelbase of 56 inches that is 26.8 lb, which the rear gets on top.
#[test]
fn a_load_behind_the_axle_lifts_the_front() {
    let (inch, pound) = (0.0254, 0.453_592_37);
    let mount = mount(56.0 * inch, 0.0, 0.5, &[(100.0 * pound, -15.0 * inch)]);
    near(mount.before(Scale::Front) / pound * 56.0, -1500.0, 0.01);
    near(mount.before(Scale::Front) / pound, -26.8, 0.1);
    near(mount.before(Scale::Front), -12.15, 0.01);
    near(mount.before(Scale::Rear) / pound, 126.8, 0.1);
}

/// A centre of mass 55 % of the wheelbase behind the front wheel puts 55 % on the rear one (riding-safety note on finding
/// the centre of gravity).
#[test]
fn weight_is_shared_in_proportion() {
    let mount = mount(1.4, 0.0, 0.5, &[(200.0, 0.45 * 1.4)]);
    near(mount.before(Scale::Rear), 0.55 * 200.0, 1e-3);
    near(mount.before(Scale::Front), 0.45 * 200.0, 1e-3);
}

/// Worked with a pencil: 1.50 m; bike 190 kg, 48 % on the front; rider 90 kg at 0.55 m; side bags 20 kg at -0.05; tail bag
/// 12 kg at -0.30; tank bag 5 kg at 0.80: front 123.8 kg, rear 193.2 kg, 39.1 % on the front.
#[test]
fn a_loaded_bike_worked_by_hand() {
    let mut mount = mount(1.5, 190.0, 0.48, &[(20.0, -0.05), (12.0, -0.30), (5.0, 0.80)]);
    mount.people = vec![(kg(90.0), metres(0.55))];
    near(mount.before(Scale::Front), 123.8, 0.05);
    near(mount.before(Scale::Rear), 193.2, 0.05);
    near(mount.before(Scale::Gross), 317.0, 1e-6);
    near(mount.before(Scale::Front) / mount.before(Scale::Gross), 0.391, 0.000_5);
}

/// Wherever a mass goes, the wheels share it; between the axles none of them gets lighter; a limit is never eased.
#[test]
fn the_wheels_share_every_mass() {
    let mut random = Rng::with_seed(4);
    for _ in 0..500 {
        let wheelbase = 1.2 + random.f64() * 0.5;
        let ahead = random.f64() * 2.2 - 0.6;
        let before = mount(wheelbase, 100.0 + random.f64() * 150.0, 0.4 + random.f64() * 0.2, &[]);
        let after = Mount { empty_bags: vec![(kg(random.f64() * 20.0), metres(ahead))], ..before.clone() };
        let gain = |scale| after.before(scale) - before.before(scale);
        near(gain(Scale::Front) + gain(Scale::Rear), gain(Scale::Gross), 1e-9);
        assert!(ahead < 0.0 || gain(Scale::Front) >= 0.0);
        assert!(ahead > wheelbase || gain(Scale::Rear) >= 0.0);
        for scale in Scale::ALL {
            assert!(after.charge(scale, metres(ahead)) >= after.share(scale, metres(ahead)).max(0.0));
        }
    }
}

#[test]
fn what_the_wheels_carry_is_what_is_on_the_bike() {
    for name in ["day-ride.yaml", "five-day-loop.yaml", "high-country-week.yaml", "two-up-road.yaml"] {
        for load in pack_with(&shipped(name), Engine::Microlp).unwrap().loads {
            let parts = load.bike + load.people + load.bags + load.kit;
            near(load.loaded.total(), parts.kilograms(), 1e-6);
            for scale in Scale::ALL {
                assert!(load.used(scale).unwrap() <= 1.0, "{name} {scale:?}");
            }
            assert!(load.allowances.windows(2).all(|pair| pair[0].mass <= pair[1].mass));
            assert!(load.kit <= load.allowances[0].mass, "{name}: {:?}", load.allowances);
        }
    }
}

/// A box that only the left bag takes, at ever greater mass: that side and the rear wheel never get lighter.
#[test]
fn more_in_a_bag_never_lightens_its_side() {
    let mut before = None;
    for mass_g in (0..20).map(|step| 100 + step * 250) {
        let load = pack_with(&load(&boxed(mass_g, None)), Engine::Microlp).unwrap().loads.remove(0);
        let now = (load.left, load.lean, load.loaded.rear);
        if let Some((left, lean, rear)) = before.replace(now) {
            assert!(now.0 > left && now.1 > lean && now.2 > rear, "{mass_g}");
        }
        assert_eq!(load.right, kg(1.0));
    }
}

fn boxed(mass_g: u32, rear_axle_kg: Option<f64>) -> World {
    let item = Item { id: "box".to_owned(), mass_g, volume_ml: 500, at_most: 1, ..Item::default() };
    World {
        items: vec![item],
        bags: vec![
            ("left".to_owned(), 1000, 9000, "    side: left\n"),
            ("right".to_owned(), 400, 9000, "    side: right\n"),
        ],
        always: vec![("box".to_owned(), 1)],
        rear_axle_kg,
        ..World::new()
    }
}

/// Empty: half of bike and its last tenth of petrol (100.748 kg), nine fourteenths of the rider (80 kg), two bags of 1 kg
/// over the axle: 103.80 kg on the rear. A limit of 105 kg leaves 1.197 kg for things over the axle.
#[test]
fn a_rear_axle_limit_is_kept_to_the_gram() {
    let pack = |mass_g| pack_with(&load(&boxed(mass_g, Some(105.0))), Engine::Microlp);
    let rear = pack(1196).unwrap().loads[0].loaded.rear;
    near(rear, 0.5 * 100.748 + 80.0 * 9.0 / 14.0 + 2.0 + 1.196, 1e-6);
    assert!(rear <= 105.0);
    assert!(matches!(pack(1198), Err(PackError::Infeasible { .. })));
}
