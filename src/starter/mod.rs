//! A first scenario to change: for a bike, so many days and a way to spend the nights, with every line explained.
//!
//! It must pass `check` and `pack` as it is, so it only names what the catalogue has, and allows enough of everything.

mod lines;

use crate::domain::{Bike, Catalogue, Preparation, PreparationType, Style, Surface};
use lines::{commented, counts, names};

/// What the rider said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Wish {
    /// Days under way, at least one.
    pub days: u32,
    /// How the nights are spent.
    pub style: Style,
}

/// Kilometres a day by surface: a mixed day on small roads (from memory).
const KM_A_DAY: [u32; 4] = [60, 80, 40, 5];
/// Bags for a day, and for longer.
const DAY_BAGS: &[&str] = &["tail-pack", "tank-bag", "tool-tube"];
const TRIP_BAGS: &[&str] = &["soft-side-left", "soft-side-right", "tail-roll", "tank-bag", "tool-tube"];
/// What most riders have at home, for any trip, for nights away, for camping.
const OWNED: &[&str] = &["phone", "documents", "first-aid-kit", "multi-tool", "rain-suit"];
const OWNED_AWAY: &[&str] = &["wash-kit-light", "base-set", "headlamp"];
const OWNED_CAMPING: &[&str] =
    &["tent-1", "bag-0-synthetic", "mat-self-inflating", "stove-gas", "pot-1300", "lighter", "spoon"];

/// The text of the file.
#[must_use]
pub fn scenario(catalogue: &Catalogue, bike: &Bike, wish: Wish) -> String {
    let mut text = head(bike, wish);
    let nights = if wish.style == Style::None { 0 } else { wish.days - 1 };
    if wish.days > 1 {
        text += &leg(bike, wish, "out there", wish.days - 1, nights);
        text += &leg(bike, wish, "and home", 1, 0);
    } else {
        text += &leg(bike, wish, "out and back", 1, 0);
    }
    text += &rider(catalogue, bike, wish);
    text += &limits(wish);
    text += &wishes(catalogue, bike);
    text
}

fn head(bike: &Bike, wish: Wish) -> String {
    let days = if wish.days == 1 { "a day out".to_owned() } else { format!("{} days away", wish.days) };
    let mut text = format!(
        "# A trip to begin with: {days} on a {}. Every number here is a guess: change it to yours.\n\
         # `fardel check FILE` tells what is wrong with it, `fardel pack FILE` what to carry. Ids are the catalogue's.\n\n\
         name: {days}\n\ntrip:\n",
        bike.name,
    );
    text +=
        &commented("  ", &format!("style: {}", wish.style.word()), "none | roofed | camping: how the nights are spent");
    text + "  legs:\n"
}

fn leg(bike: &Bike, wish: Wish, name: &str, days: u32, nights: u32) -> String {
    let [sealed, gravel, track, rough] = KM_A_DAY.map(|km| km * days);
    let mut text = format!("    - name: {name}\n");
    let mut line = |value: String, remark: &str| text += &commented("      ", &value, remark);
    line(format!("days: {days}"), "days under way on this leg");
    if wish.style != Style::None {
        line(format!("nights: {nights}"), "nights on it");
    }
    line(
        format!("km: {{ sealed: {sealed}, gravel: {gravel}, track: {track}, rough: {rough} }}"),
        "rough: rocks, ruts, sand, fords",
    );
    line("hours_to_help: 8 h".to_owned(), "from a breakdown until the bike is at a road head or a workshop");
    line("lowest: 5 °C".to_owned(), "the coldest hour, riding or sleeping");
    line("highest: 25 °C".to_owned(), "the hottest hour");
    line("water_every: 0.5 days".to_owned(), "longest time between places to refill");
    line("food_every: 1 day".to_owned(), "longest time between shops");
    line(format!("fuel_every: {} km", fuel_every(bike)), "longest distance between pumps");
    text
}

/// Well within what a full tank does on its thirstiest surface short of rough ground.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few hundred kilometres")]
fn fuel_every(bike: &Bike) -> u32 {
    let thirst = bike.consumption.on(Surface::Track).litres().max(1.0);
    let range = 0.6 * bike.tank.litres() / thirst * 100.0;
    ((range / 10.0).floor() as u32 * 10).clamp(10, 300)
}

fn rider(catalogue: &Catalogue, bike: &Bike, wish: Wish) -> String {
    let away = wish.days > 1 && wish.style != Style::None;
    let bags: Vec<&str> = if away { TRIP_BAGS } else { DAY_BAGS }.to_vec();
    let bags =
        bags.into_iter().filter(|bag| catalogue.bags.contains_key(*bag) && !bike.bags.iter().any(|own| own == bag));
    let mut owned = OWNED.to_vec();
    owned.extend(if away { OWNED_AWAY } else { &[] });
    owned.extend(if away && wish.style == Style::Camping { OWNED_CAMPING } else { &[] });
    owned.retain(|id| catalogue.items.contains_key(*id));
    let mut text = "\nriders:\n  - name: Rider\n".to_owned();
    let mut line = |value: String, remark: &str| text += &commented("    ", &value, remark);
    line(format!("bike: {}", bike.id), "an id from the catalogue, or of your own");
    line("riding_skill: intermediate".to_owned(), "novice | intermediate | advanced | expert: how often you fall");
    line("repair_skill: handy".to_owned(), "anyone | handy | skilled | expert: what you can mend beside the track");
    line("mass: 85 kg".to_owned(), "dressed to ride");
    line("# passenger: 65 kg".to_owned(), "if there is one");
    line(format!("bags: [{}]", bags.collect::<Vec<_>>().join(", ")), "what is on the bike, beside its own");
    line("# gear: my-gear.csv".to_owned(), "or a file of what you own, with your own masses");
    line("owns:".to_owned(), "costs nothing to take; everything else is bought");
    text += &counts("      ", &owned, catalogue);
    text
}

fn limits(wish: Wish) -> String {
    let most = match (wish.style, wish.days) {
        (Style::None, _) | (_, 1) => 7,
        (Style::Roofed, _) => 20,
        (Style::Camping, _) => 28,
    };
    let mut text = "\nlimits:\n".to_owned();
    text += &commented("  ", &format!("kit_mass: {most} kg"), "water, food and toolkit counted, empty bags not");
    text += &commented("  ", "# budget: 300 USD", "for what you do not own; without this line as much as it takes");
    text
}

fn wishes(catalogue: &Catalogue, bike: &Bike) -> String {
    let always: Vec<&str> = ["phone", "documents"].into_iter().filter(|id| catalogue.items.contains_key(*id)).collect();
    let mut text = "\n".to_owned();
    text += &commented("", &format!("always: [{}]", always.join(", ")), "in the kit whatever the sums say");
    text += &commented("", "never: []", "stays at home whatever the sums say");
    let free = |entry: &&Preparation| {
        entry.kind != PreparationType::Fitted && bike.matches(&entry.applies) && !bike.fitted.contains(&entry.id)
    };
    let done: Vec<&Preparation> = catalogue.preparations.values().filter(free).collect();
    if !done.is_empty() {
        text += &commented("", "done:", "costs nothing but time: take away the # before what you have done");
        text += &names("  # - ", &done);
    }
    text
}
