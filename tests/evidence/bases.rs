//! The table of kinds of basis in the guide on evidence is that of the catalogue.

use super::SHIPPED;
use fardel::debrief::gamma;
use fardel::domain::{BasisKind, Failure};

/// After a change: the message shows the table as it should be.
#[test]
fn the_table_of_bases_is_that_of_the_catalogue() {
    let mut table = "| basis | failure rates | worth, events | widths |\n| --- | --- | --- | --- |\n".to_owned();
    for kind in BasisKind::ALL {
        let of_kind = |failure: &&Failure| failure.rate.basis.kind == kind;
        let mut worth: Vec<f64> =
            SHIPPED.failures.values().filter(of_kind).map(|failure| failure.rate.worth_events).collect();
        worth.sort_by(f64::total_cmp);
        let Some(middle) = worth.get(worth.len() / 2) else { continue };
        let (low, high) = gamma::width(*middle);
        let (least, most) = (worth[0], worth[worth.len() - 1]);
        table +=
            &format!("| {} | {} | {least:.2} to {most:.2} | {low:.4} to {high:.1} |\n", kind.opening(), worth.len());
    }
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/src/cli/topics/evidence.md");
    let guide = std::fs::read_to_string(path).unwrap();
    assert!(guide.contains(&table), "the table in the guide on evidence should be:\n{table}");
}
