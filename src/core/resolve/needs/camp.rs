//! Nights out: shelter, sleep, camp kitchen, clothing.

use super::{Amount, Party};
use crate::units::Temperature;
use fardel_words::{say, word};

/// A place under cover for every sleeper.
pub(super) fn shelter(party: &Party<'_>) -> Amount {
    Amount::count_if(party.camping, party.people, sleepers(party))
}

/// Degrees that a dry base layer and a hat are worth in the bag: 2 to 4 (common practice, no source), the least counted.
/// Both are in the kit on every trip of two nights or more (spare clothing), so only then.
pub const CLOTHING_CREDIT: f64 = 2.0;

/// One bag per sleeper whose comfort temperature (ISO 23537-1) is at or below the coldest night, the clothes worn in it
/// credited.
pub(super) fn sleep_warmth(party: &Party<'_>) -> Amount {
    let credit = if party.nights >= 2 { CLOTHING_CREDIT } else { 0.0 };
    let (lowest, good_to) = (party.lowest(), party.lowest() + credit);
    let worn = if credit > 0.0 {
        say!(" (coldest night {lowest:.0} °C, {credit:.0} °C for dry clothes and a hat)")
    } else {
        String::new()
    };
    let working = say!("{}, comfort at {good_to:.0} °C or below{worn}", sleepers(party));
    Amount { down_to: Some(Temperature::new(good_to)), ..Amount::count_if(party.camping, party.people, working) }
}

/// Mat resistance per sleeper by ASTM F3340: `R = max(1, 3.1 - 0.155 T)`, T the coldest night in °C; a fit to the
/// trade's bands within 0.2 of each (common practice, no source). Stacked mats add.
pub(super) fn r_value(lowest: f64) -> f64 {
    (3.1 - 0.155 * lowest).max(1.0)
}

/// Mat resistance for every sleeper.
pub(super) fn sleep_mat(party: &Party<'_>) -> Amount {
    let each = r_value(party.lowest());
    let total = (each * party.people * 10.0).round() / 10.0;
    let working = say!("R {each:.1} at {:.0} °C x {}", party.lowest(), sleepers(party));
    Amount::count_if(party.camping, total, working)
}

/// Warm layers per person: one below 12 °C, two below 2 °C. Common practice, no source.
pub(super) fn warm_clothing(party: &Party<'_>) -> Amount {
    let lowest = party.lowest();
    let layers = if lowest < 2.0 {
        2.0
    } else if lowest < 12.0 {
        1.0
    } else {
        0.0
    };
    Amount::count(layers * party.people, say!("{layers:.0} a head for {lowest:.0} °C"))
}

/// A change of clothes per person from two nights on.
pub(super) fn spare_clothing(party: &Party<'_>) -> Amount {
    Amount::count_if(party.nights >= 2, party.people, say!("{} nights, one change a head", party.nights))
}

/// A pot to boil in.
pub(super) fn cook_pot(party: &Party<'_>) -> Amount {
    Amount::count_if(party.camping, 1.0, word!("camp cooking"))
}

/// A way to make found water drinkable.
pub(super) fn water_treatment(party: &Party<'_>) -> Amount {
    Amount::count_if(party.camping, 1.0, word!("camping away from taps"))
}

/// "1 sleeper", "2 sleepers".
fn sleepers(party: &Party<'_>) -> String {
    if party.people > 1.0 { say!("{:.0} sleepers", party.people) } else { "1 sleeper".to_owned() }
}
