//! What riders carry where nothing limits them but the prices. Common practice, no source: wide bands, on trips made for it.

use crate::support::pack_with;
use fardel::answer::PackAnswer;
use fardel::domain::Kind;
use fardel::milp::Engine;
use fardel::units::Mass;

/// One leg a line: days, nights, km on sealed, gravel, track and rough, hours to help.
type Leg = (u32, u32, [u32; 4], u32);

fn packed(bike: &str, style: &str, bags: &str, legs: &[Leg], owns: &str) -> PackAnswer {
    let mut text = format!("name: a trip\ntrip:\n  style: {style}\n  legs:\n");
    for (at, (days, nights, [sealed, gravel, track, rough], help)) in legs.iter().enumerate() {
        text += &format!(
            "    - name: leg {at}\n      days: {days}\n      nights: {nights}\n      km: {{ sealed: {sealed}, gravel: {gravel}, \
             track: {track}, rough: {rough} }}\n      hours_to_help: {help} h\n      lowest: 6 °C\n      highest: 24 °C\n      \
             water_every: 0.5 days\n      food_every: 1 day\n"
        );
    }
    text += &format!(
        "riders:\n  - name: Ines\n    bike: {bike}\n    riding_skill: intermediate\n    repair_skill: handy\n    mass: 80 kg\n    \
         bags: [{bags}]\n    owns: {{ {owns} }}\n"
    );
    let folder = tempfile::tempdir().expect("a folder for the trip");
    let path = folder.path().join("trip.yaml");
    std::fs::write(&path, text).expect("a file for the trip");
    let loaded = fardel::load::load(&path, None).unwrap_or_else(|faults| panic!("{faults}"));
    let answer = pack_with(&loaded, Engine::Microlp).expect("a kit");
    assert!(answer.proof.proven);
    answer
}

/// Kilograms of tools, spares and consumables.
fn tools(answer: &PackAnswer) -> f64 {
    let items = answer.bags.iter().flat_map(|bag| &bag.items);
    let counted = items.filter(|item| matches!(item.kind, Kind::Tool | Kind::Spare | Kind::Consumable));
    counted.map(|item| item.mass).sum::<Mass>().kilograms()
}

const SOFT: &str = "soft-side-left, soft-side-right, tail-roll, tank-bag, tool-tube";
const TUBED: &str =
    "multi-tool: 1, tyre-lever: 2, hand-pump: 1, patch-kit: 1, tube-21: 1, tube-18: 1, zip-ties: 1, cloth-tape: 1";
const CAMP: &str = "tent-1: 1, bag-0-synthetic: 1, mat-self-inflating: 1, stove-gas: 1, pot-1300: 1, lighter: 1, spoon: 1, \
                    bottle-1000: 2, rain-suit: 1, fleece: 1, base-set: 1, first-aid-kit: 1, locator-beacon: 1, phone: 1, headlamp: 1, \
                    wash-kit-light: 1, documents: 1, cash: 1";
const ROOF: &str = "bottle-1000: 2, rain-suit: 1, fleece: 1, base-set: 1, first-aid-kit: 1, phone: 1, headlamp: 1, wash-kit-light: 1, \
                    documents: 1, cash: 1";

#[test]
fn a_remote_five_day_loop_takes_three_to_seven_kilograms_of_tools_and_spares() {
    let far = [(1, 1, [30, 90, 60, 10], 10), (3, 3, [0, 180, 330, 60], 26), (1, 0, [90, 100, 30, 0], 6)];
    let kg = tools(&packed("single-450-tubed", "camping", SOFT, &far, &format!("{TUBED}, {CAMP}")));
    assert!((3.0..7.0).contains(&kg), "{kg} kg");
}

#[test]
fn a_week_on_graded_roads_takes_two_to_five_kilograms() {
    let graded = [(7, 6, [500, 900, 100, 0], 8)];
    let kg = tools(&packed("single-650-carb", "roofed", SOFT, &graded, &format!("{TUBED}, {ROOF}")));
    assert!((2.0..5.0).contains(&kg), "{kg} kg");
}

#[test]
fn a_tubeless_road_tour_takes_less_than_three_kilograms() {
    let road = [(10, 9, [2400, 60, 0, 0], 2)];
    let owns = format!("multi-tool: 1, plug-kit: 1, pump-12v: 1, pressure-gauge: 1, {ROOF}");
    let kg = tools(&packed("twin-1250-shaft", "roofed", "hard-case-left, hard-case-right, tank-bag", &road, &owns));
    assert!(kg < 3.0, "{kg} kg");
}

#[test]
fn a_day_ride_near_home_takes_less_than_two_and_a_half_kilograms_and_mends_a_puncture() {
    // Two hours until somebody with a trailer is there. One hour from help the logs' punctures, one day in 160, are not
    // worth carrying levers and pump for.
    let near = [(1, 0, [70, 60, 20, 0], 2)];
    let owns =
        format!("{TUBED}, rain-suit-light: 1, first-aid-kit: 1, phone: 1, documents: 1, cash: 1, bottle-1000: 1");
    let answer = packed("single-250-trail", "none", "tail-pack, tank-bag", &near, &owns);
    let kg = tools(&answer);
    assert!(kg < 2.5, "{kg} kg");
    let punctures = answer.risks.iter().filter(|risk| risk.id.contains("puncture"));
    let mended = punctures.filter(|risk| !risk.repairs.is_empty());
    assert!(mended.count() >= 2, "front and rear");
}

/// Nobody who owns light gear is made to buy or to carry much beside it.
#[test]
fn eight_mild_days_of_camping_come_to_near_thirteen_kilograms() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/properties/eight-days.yaml");
    let mut loaded = fardel::load::load(&path, None).unwrap_or_else(|faults| panic!("{faults}"));
    loaded.scenario.limits = fardel::domain::Limits::default();
    let answer = pack_with(&loaded, Engine::Microlp).expect("a kit");
    let kg = answer.totals.mass.kilograms();
    assert!((10.0..16.0).contains(&kg), "{kg} kg");
}
