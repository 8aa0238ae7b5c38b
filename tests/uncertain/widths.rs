//! Every number of the catalogue has a basis and a width; the table in the guide on certainty is made here.

use fardel::domain::BasisKind;
use fardel::uncertain::widths::{Quantity, within};
use std::fs;
use std::path::Path;

/// The table as it stands in the documents.
fn table() -> String {
    let mut text = "| basis |".to_owned();
    Quantity::ALL.iter().for_each(|quantity| text += &format!(" {} |", quantity.word()));
    text += &format!("\n| --- |{}\n", " --- |".repeat(Quantity::ALL.len()));
    for basis in BasisKind::ALL {
        text += &format!("| {} |", basis.opening());
        Quantity::ALL.iter().for_each(|quantity| text += &format!(" {} |", within(*quantity, basis)));
        text.push('\n');
    }
    text
}

#[test]
fn the_table_of_widths_is_the_one_in_the_documents() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/topics/certainty.md");
    let text = fs::read_to_string(path).unwrap();
    assert!(text.contains(&table()), "write this into the guide:\n{}", table());
}

/// How many entries of each section rest on what.
fn bases() -> String {
    let catalogue = fardel::load::catalogue(&fardel::load::shipped(), &[]).unwrap();
    let repairs = catalogue.failures.values().flat_map(|failure| &failure.repairs);
    let columns: [(&str, Vec<BasisKind>); 5] = [
        ("items", catalogue.items.values().map(|own| own.basis.kind).collect()),
        ("rates", catalogue.failures.values().map(|own| own.rate.basis.kind).collect()),
        ("repairs", repairs.map(|own| own.basis.kind).collect()),
        ("bikes", catalogue.bikes.values().map(|own| own.basis.kind).collect()),
        ("bags", catalogue.bags.values().map(|own| own.basis.kind).collect()),
    ];
    let mut text =
        "| entries by basis | items | rates | repairs | bikes | bags |\n| --- | --- | --- | --- | --- | --- |\n"
            .to_owned();
    for basis in BasisKind::ALL {
        text += &format!("| {} |", basis.opening());
        for (_, kinds) in &columns {
            text += &format!(" {} |", kinds.iter().filter(|kind| **kind == basis).count());
        }
        text.push('\n');
    }
    text
}

#[test]
fn the_table_of_bases_is_the_one_in_the_documents() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/cli/topics/certainty.md");
    let text = fs::read_to_string(path).unwrap();
    assert!(text.contains(&bases()), "write this into the guide:\n{}", bases());
}
