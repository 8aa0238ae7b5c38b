//! A first scenario to change: for a bike, so many days and a way to spend the nights, with every line explained.
//!
//! It must pass `check` and `pack` as it is, so it only names what the catalogue has, and allows enough of everything.

pub mod ask;
mod lines;
mod sets;
mod trip;

pub use sets::OwnedSet;
pub use trip::{Ground, Help, Nights, Season};

use crate::domain::{Bike, Catalogue, Energy, Preparation, PreparationType, Prices, RepairSkill, RidingSkill, Surface};
use crate::units::Money;
use fardel_words::{say, word};
use indexmap::IndexMap;
use lines::{commented, counts, names};

/// What the rider said.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    /// Days under way, at least one.
    pub days: u32,
    /// How the nights are spent.
    pub nights: Nights,
    /// How rough the riding is.
    pub ground: Ground,
    /// How far help is.
    pub help: Help,
    /// The weather.
    pub season: Season,
    /// How often the rider falls.
    pub riding_skill: RidingSkill,
    /// What the rider can mend.
    pub repair_skill: RepairSkill,
    /// What is at home already.
    pub owns: Vec<OwnedSet>,
    /// What an hour is worth, where it is not as in the catalogue.
    pub hour: Option<Money>,
    /// What being fetched costs, where it is not as in the catalogue.
    pub recovery: Option<Money>,
}

/// Bags for a trip of one day.
pub(crate) const DAY_BAGS: &[&str] = &["tail-pack", "tank-bag", "tool-tube"];
/// Bags for longer trips.
pub(crate) const TRIP_BAGS: &[&str] = &["soft-side-left", "soft-side-right", "tail-roll", "tank-bag", "tool-tube"];

/// The text of the file.
#[must_use]
pub fn scenario(catalogue: &Catalogue, bike: &Bike, wish: &Wish) -> String {
    let mut text = head(bike, wish);
    let nights = if wish.nights == Nights::None { 0 } else { wish.days - 1 };
    if wish.days > 1 {
        text += &leg(bike, wish, word!("out there"), wish.days - 1, nights);
        text += &leg(bike, wish, word!("and home"), 1, 0);
    } else {
        text += &leg(bike, wish, word!("out and back"), 1, 0);
    }
    text += &rider(catalogue, bike, wish);
    text += &limits();
    text += &prices(catalogue, wish);
    text += &preferences(catalogue, bike);
    text
}

fn head(bike: &Bike, wish: &Wish) -> String {
    let days = if wish.days == 1 { say!("a day out") } else { format!("{} days away", wish.days) };
    let mut text = say!(
        "# A trip to begin with: {days} on a {}. Every number here is a guess: change it to yours.\n\
         # `fardel check FILE` tells what is wrong with it, `fardel pack FILE` what to carry. Ids are the catalogue's.\n\n\
         name: {days}\n\ntrip:\n",
        bike.name,
    );
    text += &commented(
        "  ",
        &format!("style: {}", wish.nights.style().word()),
        word!("none | roofed | camping: how the nights are spent"),
    );
    text + "  legs:\n"
}

fn leg(bike: &Bike, wish: &Wish, name: &str, days: u32, nights: u32) -> String {
    let [sealed, gravel, track, rough] = wish.ground.km_a_day().map(|km| km * days);
    let mut text = format!("    - name: {name}\n");
    let mut line = |value: String, remark: &str| text += &commented("      ", &value, remark);
    line(format!("days: {days}"), word!("days under way on this leg"));
    if wish.nights != Nights::None {
        line(format!("nights: {nights}"), word!("nights on it"));
    }
    line(
        format!("km: {{ sealed: {sealed}, gravel: {gravel}, track: {track}, rough: {rough} }}"),
        word!("rough: rocks, ruts, sand, fords"),
    );
    let (lowest, highest) = wish.season.degrees();
    let help = format!("hours_to_help: {} h", wish.help.hours());
    line(help, word!("from a breakdown until the bike is at a road head or a workshop: matters most"));
    line(format!("lowest: {lowest} °C"), word!("the coldest hour, riding or sleeping"));
    line(format!("highest: {highest} °C"), word!("the hottest hour"));
    line("water_every: 0.5 days".to_owned(), word!("longest time between places to refill"));
    line("food_every: 1 day".to_owned(), word!("longest time between shops"));
    let stops = if bike.energy.range().is_some() { word!("places to charge") } else { word!("pumps") };
    line(format!("fuel_every: {} km", fuel_every(bike)), &say!("longest distance between {stops}"));
    text
}

/// Well within what a full tank or battery does on its thirstiest surface short of rough ground.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few hundred kilometres")]
fn fuel_every(bike: &Bike) -> u32 {
    let full = match &bike.energy {
        Energy::Fuel { tank, consumption } => tank.litres() / consumption.on(Surface::Track).litres().max(1.0) * 100.0,
        Energy::Battery { range } => range.on(Surface::Track).km(),
    };
    let range = 0.6 * full;
    ((range / 10.0).floor() as u32 * 10).clamp(10, 300)
}

fn rider(catalogue: &Catalogue, bike: &Bike, wish: &Wish) -> String {
    let away = wish.days > 1 && wish.nights != Nights::None;
    let bags: Vec<&str> = if away { TRIP_BAGS } else { DAY_BAGS }.to_vec();
    let bags =
        bags.into_iter().filter(|bag| catalogue.bags.contains_key(*bag) && !bike.bags.iter().any(|own| own == bag));
    let mut text = "\nriders:\n  - name: Rider\n".to_owned();
    let mut line = |value: String, remark: &str| text += &commented("    ", &value, remark);
    line(format!("bike: {}", bike.id), word!("an id from the catalogue, or of your own"));
    let riding = format!("riding_skill: {}", wish.riding_skill.word());
    line(riding, word!("novice | intermediate | advanced | expert: how often you fall"));
    let repair = format!("repair_skill: {}", wish.repair_skill.word());
    line(repair, word!("anyone | handy | skilled | expert: what you can mend beside the track"));
    line("mass: 85 kg".to_owned(), word!("dressed to ride"));
    line("# passenger: 65 kg".to_owned(), word!("if there is one"));
    line(format!("bags: [{}]", bags.collect::<Vec<_>>().join(", ")), word!("what is on the bike, beside its own"));
    line("# gear: my-gear.csv".to_owned(), word!("or a file of what you own, with your own masses"));
    text + &owned(catalogue, bike, wish)
}

/// What the rider has at home, set by set; the bike's own toolkit is counted anyway.
fn owned(catalogue: &Catalogue, bike: &Bike, wish: &Wish) -> String {
    let mut seen: IndexMap<String, u32> = IndexMap::new();
    let mut text = String::new();
    for set in &wish.owns {
        let mut items = set.items(catalogue, bike);
        items.retain(|(id, count)| seen.insert(id.clone(), *count).is_none());
        if !items.is_empty() {
            text += &format!("      # {}\n", set.word());
            text += &counts("      ", &items, catalogue);
        }
    }
    let remark = word!("costs nothing to take, as does the bike's own toolkit; the rest is bought");
    commented("    ", if text.is_empty() { "owns: {}" } else { "owns:" }, remark) + &text
}

fn limits() -> String {
    let mut text = "\n".to_owned();
    text += &commented("", "# limits:", word!("take away the # before those that you want"));
    text += &commented("", "#   kit_mass: 20 kg", word!("water, food and toolkit counted, empty bags not"));
    text += &commented("", "#   budget: 300 USD", word!("for what you do not own"));
    text += &commented("", "#   stranded_at_most: 1/500", word!("trips on which nothing mends the bike"));
    text
}

/// The prices that the kit is chosen by, for the rider to see and to change.
fn prices(catalogue: &Catalogue, wish: &Wish) -> String {
    let Prices { weight, hour, thing, rest_of_day, recovery, dread, .. } = &catalogue.prices;
    let money = |money: Money| format!("{} {}", money.units(), catalogue.currency);
    let mut text = "\n".to_owned();
    text += &commented(
        "",
        "prices:",
        word!("what carrying, buying and packing cost you, in hours of the trip; 0 switches one off"),
    );
    let mut line = |value: String, remark: &str| text += &commented("  ", &value, remark);
    line(format!("weight: {weight}"), word!("1: hard riding takes longer in proportion to the mass; 2: twice that"));
    line(
        format!("hour: {}", money(wish.hour.unwrap_or(*hour))),
        word!("what an hour of trouble on this trip is worth to you"),
    );
    line(
        format!("thing: {:.1} min", thing.get() * 60.0),
        word!("to find, stow, keep track of and put back each thing"),
    );
    line(format!("rest_of_day: {} h", rest_of_day.get()), word!("riding lost on the day when you have to be fetched"));
    line(format!("recovery: {}", money(wish.recovery.unwrap_or(*recovery))), word!("what being fetched costs"));
    line(format!("dread: {dread}"), word!("extra for being stranded, as a share of the hours to help"));
    text
}

fn preferences(catalogue: &Catalogue, bike: &Bike) -> String {
    let always: Vec<&str> = ["phone", "documents"].into_iter().filter(|id| catalogue.items.contains_key(*id)).collect();
    let mut text = "\n".to_owned();
    text += &commented("", &format!("always: [{}]", always.join(", ")), word!("in the kit whatever the sums say"));
    text += &commented("", "never: []", word!("stays at home whatever the sums say"));
    let free = |entry: &&Preparation| {
        entry.kind != PreparationType::Fitted && bike.matches(&entry.applies) && !bike.fitted.contains(&entry.id)
    };
    let done: Vec<&Preparation> = catalogue.preparations.values().filter(free).collect();
    if !done.is_empty() {
        text += &commented("", "done:", word!("costs nothing but time: take away the # before what you have done"));
        text += &names("  # - ", &done);
    }
    text
}
