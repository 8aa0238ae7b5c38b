//! Chain sizes against the naming rule and the near equivalents of ISO 606.

use super::{SHIPPED, sizes};

/// Size, pitch, inner width, roller diameter, in mm. published, second-hand: trade tables; near equivalents of ISO 606
/// are 08B for 428 and 10A for 530, the others have none.
const CHAINS: [(&str, f64, f64, f64); 5] = [
    ("420", 12.70, 6.35, 7.76),
    ("428", 12.70, 7.85, 8.51),
    ("520", 15.875, 6.35, 10.16),
    ("525", 15.875, 7.90, 10.16),
    ("530", 15.875, 9.47, 10.16),
];

/// Pitch and roller diameter of the ISO 606 chains they come near to. published, second-hand.
const ISO_606: [(&str, &str, f64, f64); 2] = [("428", "08B", 12.70, 8.51), ("530", "10A", 15.875, 10.16)];

fn pitch(size: &str) -> f64 {
    CHAINS.iter().find(|(known, ..)| *known == size).unwrap_or_else(|| panic!("no chain {size} in the table")).1
}

/// First digit: pitch in eighths of an inch; last two: inner width in eightieths, 428 excepted (published, second-hand).
#[test]
fn names_follow_the_rule() {
    for (size, pitch, width, _) in CHAINS {
        let digits: u32 = size.parse().unwrap();
        assert!((f64::from(digits / 100) * 25.4 / 8.0 - pitch).abs() < 1e-9, "{size}");
        let named = f64::from(digits % 100) * 25.4 / 80.0;
        assert!(size == "428" || (named - width).abs() < 0.1, "{size}: {named} {width}");
    }
    for (size, _, pitch, roller) in ISO_606 {
        let row = CHAINS.iter().find(|(known, ..)| *known == size).unwrap();
        assert!((row.1 - pitch).abs() < 1e-9 && (row.3 - roller).abs() < 1e-9, "{size}");
    }
}

#[test]
fn every_size_of_the_catalogue_is_of_the_table() {
    for family in ["joining link ", "chain piece "] {
        sizes(SHIPPED.stocks.keys(), family).into_iter().for_each(|size| assert!(pitch(size) > 0.0));
    }
    for bike in SHIPPED.bikes.values().filter(|bike| bike.attributes.get("drive").is_some_and(|drive| drive == "chain"))
    {
        let size = &bike.attributes["chain"];
        for family in ["joining link", "chain piece"] {
            assert!(SHIPPED.stocks.contains_key(&format!("{family} {size}")), "{}: {family} {size}", bike.id);
        }
    }
}

/// A size fits one size only: no item serves two, and links that share a pitch are told apart by their width.
#[test]
fn an_item_serves_one_size() {
    for item in SHIPPED.items.values() {
        let held =
            item.holds.keys().filter(|stock| stock.starts_with("joining link ") || stock.starts_with("chain piece "));
        assert!(held.count() <= 1, "{}", item.id);
    }
}

/// Two links are two pitches long and wider chain is heavier; a joining link is about 15 to 25 g (from memory).
#[test]
fn pieces_have_the_length_and_mass_of_their_size() {
    let mut before = 0.0;
    for size in sizes(SHIPPED.stocks.keys(), "chain piece ") {
        let item =
            |stock: String| SHIPPED.items.values().find(|item| item.holds.contains_key(&stock)).expect("an item");
        let (piece, link) = (item(format!("chain piece {size}")), item(format!("joining link {size}")));
        assert!(piece.longest.millimetres() >= 2.0 * pitch(size), "{size}");
        assert!(piece.mass.grams() > before, "{size}");
        before = piece.mass.grams();
        assert!((13.5..=25.0).contains(&link.mass.grams()), "{size}: {} g", link.mass.grams());
    }
}
