//! Before you leave: what is looked at on the bike.

use crate::words::list;
use fardel_core::answer::BikeChecks;
use fardel_words::{mark, say, word};

/// What the list is.
pub(crate) const LEGEND: &str = mark!(
    "Before every trip, whatever the figures say. The owner's manual gives limits, \
torques and pressures, and comes first. What is not right is put right before you ride."
);

/// The title of the list.
pub(crate) const TITLE: &str = mark!("Before you leave: check");

/// Which bikes, and who rides them.
pub(crate) fn whose(group: &BikeChecks) -> String {
    let bikes = if group.riders.len() > 1 { word!("Each of the bikes") } else { word!("The bike") };
    say!("{bikes} of {} ({})", list(&group.riders), group.bikes.join("; "))
}
