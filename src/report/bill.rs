//! What a thing saves against what it costs, in one sentence.

use crate::words::{list, minutes};
use fardel_core::answer::ItemCosts;
use fardel_core::units::Hours;
use fardel_words::{say, word};

/// `saves 2.1 min and costs 0.6 min of weight, 0.5 min of packing and 1.9 min of money`.
pub(crate) fn bill(saved: Hours, costs: &ItemCosts) -> String {
    let parts = [(costs.weight, word!("weight")), (costs.packing, word!("packing")), (costs.money, word!("money"))];
    let parts = parts.into_iter().filter(|(hours, _)| hours.get() > 0.0);
    let parts: Vec<String> = parts.map(|(hours, what)| say!("{} of {what}", minutes(hours))).collect();
    let saves = if saved.get() > 0.0 { say!("saves {}", minutes(saved)) } else { say!("saves nothing") };
    if parts.is_empty() { say!("{saves} and costs nothing") } else { say!("{saves} and costs {}", list(&parts)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bill_names_what_is_charged() {
        let hours = |minutes: f64| Hours::new(minutes / 60.0);
        let costs = ItemCosts { weight: hours(0.6), packing: hours(0.5), money: hours(1.9) };
        let text = bill(hours(2.1), &costs);
        assert_eq!(text, "saves 2.1 min and costs 0.6 min of weight, 0.5 min of packing and 1.9 min of money");
        assert_eq!(bill(Hours::ZERO, &ItemCosts::default()), "saves nothing and costs nothing");
    }
}
