//! What is carried against weather, darkness and accidents.

use super::{Amount, Party};
use fardel_words::{say, word};

/// Further from help than this, somebody must be able to call for it without a telephone network. Common practice.
const DISTRESS_BEYOND_HOURS: f64 = 6.0;
/// Help that is further off than this may come after dark. Common practice, no source.
const DARK_BEYOND_HOURS: f64 = 6.0;
/// Nearer than this the next house is in sight. Common practice, no source.
const WALK_BEYOND_HOURS: f64 = 1.0;
/// Below this the evening stays dry enough to ride home wet.
const RAIN_BEYOND_HOURS: f64 = 3.0;

/// One, always.
pub(super) fn one_each(working: &str) -> Amount {
    Amount::count(1.0, working)
}

/// One set per person, unless the day is short and help near.
pub(super) fn rain_clothing(party: &Party<'_>) -> Amount {
    let wanted = party.nights > 0 || furthest(party) > RAIN_BEYOND_HOURS;
    Amount::count_if(wanted, party.people, word!("one set a head"))
}

/// A light for each when camping, one for the bike when nights are spent under roofs or help may take until after dark.
pub(super) fn light(party: &Party<'_>) -> Amount {
    let hours = furthest(party);
    match party.nights {
        _ if party.camping => Amount::count(party.people, word!("one a head in camp")),
        0 if hours <= DARK_BEYOND_HOURS => Amount::none(),
        0 => Amount::count(1.0, say!("help is up to {hours:.0} h away, after dark")),
        _ => Amount::count(1.0, word!("nights on the way, one for the bike")),
    }
}

/// A telephone as soon as nights are spent out or somebody would have to walk for help.
pub(super) fn telephone(party: &Party<'_>) -> Amount {
    let wanted = party.nights > 0 || furthest(party) > WALK_BEYOND_HOURS;
    Amount::count_if(wanted, 1.0, word!("one for the bike, where there is a network"))
}

/// Personal medicine where the rider says so.
pub(super) fn medicine(party: &Party<'_>) -> Amount {
    Amount::count_if(party.rider.medicine, 1.0, word!("as the rider says"))
}

/// A distress beacon or satellite messenger when help is far.
pub(super) fn distress(party: &Party<'_>) -> Amount {
    let hours = furthest(party);
    Amount::count_if(hours > DISTRESS_BEYOND_HOURS, 1.0, say!("help is up to {hours:.0} h away"))
}

/// One kit, two from three people on. Common practice, no source.
pub(super) fn first_aid(party: &Party<'_>) -> Amount {
    let people = party.riders;
    Amount::count(
        if people >= 3 { 2.0 } else { 1.0 },
        if people > 1 { say!("{people} riders") } else { "1 rider".to_owned() },
    )
}

/// Washing things for each bike when nights are spent out.
pub(super) fn hygiene(party: &Party<'_>) -> Amount {
    Amount::count_if(party.nights > 0, 1.0, word!("nights on the way, one for the bike"))
}

fn furthest(party: &Party<'_>) -> f64 {
    party.scenario.trip.legs.iter().map(|leg| leg.hours_to_help.get()).fold(0.0, f64::max)
}
