//! The class A kit against the published quantities.

use super::SHIPPED;

/// Smallest quantities of a class A kit.
///
/// published: ANSI/ISEA Z308.1, 2015 table, as given in US Fish and Wildlife Service policy 243 FW 1, exhibit 1; the
/// foil blanket is of the 2021 edition (published, second-hand: trade notices). Quantities only: nothing here says that
/// a kit complies.
const CLASS_A: [(&str, u32); 20] = [
    ("adhesive bandage", 16),
    ("adhesive tape", 1),
    ("antibiotic sachet", 10),
    ("antiseptic sachet", 10),
    ("breathing barrier", 1),
    ("burn dressing", 1),
    ("burn treatment", 10),
    ("cold pack", 1),
    ("eye covering", 2),
    ("eye wash", 1),
    ("first-aid guide", 1),
    ("foil blanket", 1),
    ("hand sanitiser", 6),
    ("examination gloves", 2),
    ("roller bandage 50 mm", 1),
    ("scissors", 1),
    ("splint", 1),
    ("sterile pad", 2),
    ("trauma pad", 2),
    ("triangular bandage", 1),
];

#[test]
fn the_class_a_kit_holds_the_published_quantities() {
    let kit = &SHIPPED.items["first-aid-class-a"];
    for (name, least) in CLASS_A {
        assert!(kit.holds.get(name).is_some_and(|held| *held >= least), "{name}: at least {least}");
    }
    assert_eq!(kit.holds.len(), CLASS_A.len(), "nothing beside the list");
}

/// Only the kit that names the list may name the standard, and nothing may claim to comply or name the German one.
#[test]
fn no_kit_claims_to_comply() {
    for item in SHIPPED.items.values() {
        let said = format!("{} {}", item.name, item.basis).to_lowercase();
        assert!(!said.contains("din 13167") && !said.contains("complian"), "{}", item.id);
        assert!(!said.contains("z308") || said.contains("no claim that a kit complies"), "{}", item.id);
    }
}
