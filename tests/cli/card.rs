//! `fardel card`.

use super::{Tiny, compare};
use crate::support::{Run, fardel};

fn card(tiny: &Tiny, further: &[&str]) -> Run {
    fardel(tiny.path(), &[&["card", "trip.yaml", "--catalogues", "catalogue", "--full"], further].concat())
}

#[test]
fn the_card_in_words() {
    compare("card", &card(&Tiny::new(), &[]));
    compare("card-markdown", &card(&Tiny::new(), &["--format", "markdown"]));
}

/// Likeliest first, as the rates worked out in `answers.rs` say; what the kit cannot mend is not among them.
#[test]
fn what_is_likely_comes_first_and_every_thing_is_where_pack_put_it() {
    let tiny = Tiny::new();
    let told = card(&tiny, &["--format", "json"]).json();
    let failures = told["failures"].as_array().unwrap();
    let ids: Vec<&str> = failures.iter().map(|failure| failure["id"].as_str().unwrap()).collect();
    assert_eq!(ids, ["puncture", "indicator-broken"]);
    let open: Vec<&str> = told["not_mended"].as_array().unwrap().iter().map(|f| f["name"].as_str().unwrap()).collect();
    assert!(!open.contains(&"tyre punctured"), "{open:?}");
    let pack = tiny.pack(&["--format", "json"]).json();
    let repair = &failures[0]["repairs"][0];
    let things = repair["tools"].as_array().unwrap().iter().chain(repair["used_up"].as_array().unwrap());
    let mut named = 0;
    for thing in things {
        let name = thing["name"].as_str().unwrap();
        let holds = |bag: &&serde_json::Value| bag["items"].as_array().unwrap().iter().any(|item| item["name"] == name);
        let bags: Vec<&serde_json::Value> =
            pack["bags"].as_array().unwrap().iter().filter(holds).map(|bag| &bag["name"]).collect();
        assert_eq!(thing["bags"].as_array().unwrap().iter().collect::<Vec<_>>(), bags, "{name}");
        named += 1;
    }
    assert_eq!(named, 5, "pump, lever, socket, handle; patches: {repair}");
    assert_eq!(repair["steps"].as_array().unwrap().len(), 5);
}

#[test]
fn so_many_and_no_more() {
    let told = card(&Tiny::new(), &["--top", "1", "--format", "json"]).json();
    assert_eq!((told["failures"].as_array().unwrap().len(), told["more_failures"].as_u64()), (1, Some(1)));
    card(&Tiny::new(), &["--top", "0"]).refused(2);
}

/// A kit that an earlier `pack` wrote says where everything is, so the card is the same; one by hand may say so.
#[test]
fn a_kit_from_a_file_may_say_which_bag_each_thing_is_in() {
    let tiny = Tiny::new();
    let own = card(&tiny, &[]);
    for (format, name) in [("json", "kit.json"), ("csv", "kit.csv")] {
        assert_eq!(tiny.pack(&["--format", format, "--out", name]).code, 0);
        assert_eq!(card(&tiny, &["--kit", name]), own, "{name}");
    }
    tiny.write("kit.yaml", "items: [{ id: zip-ties, bag: tank-bag }]\n");
    let told = card(&tiny, &["--kit", "kit.yaml"]);
    assert!(
        told.answered().contains("10 zip ties [tank bag]") && !told.out.contains("Where each thing"),
        "{}",
        told.out
    );
    tiny.write("kit.yaml", "items: [{ id: zip-ties, bag: tank-bog }]\n");
    assert!(card(&tiny, &["--kit", "kit.yaml"]).refused(2).contains("did you mean `tank-bag`"));
}

/// What takes a second rider is for two, and says so.
#[test]
fn company_is_told() {
    let tiny = Tiny::new();
    let catalogue = tiny.read("catalogue/world.yaml");
    tiny.write(
        "catalogue/world.yaml",
        &catalogue.replace("name: patch the tube", "name: patch the tube\n        riders: 2"),
    );
    assert!(!card(&tiny, &[]).answered().contains("patch the tube"), "nobody is there to help");
    let trip = tiny.read("trip.yaml");
    let (before, after) = trip.split_once("limits:").unwrap();
    let other =
        "  - { name: Bram, bike: single, riding_skill: novice, repair_skill: anyone, mass: 80 kg, bags: [tank-bag] }\n";
    tiny.write("trip.yaml", &format!("{before}{other}limits:{after}"));
    let told = card(&tiny, &["--rider", "Aino"]);
    assert!(
        told.answered().contains("Do patch the tube: about") && told.out.contains("takes 2 riders"),
        "{}",
        told.out
    );
}

/// A kit that was packed by hand: the same repairs as far as it allows them, but nobody knows the bags.
#[test]
fn a_kit_from_a_file() {
    let tiny = Tiny::new();
    tiny.write("kit.yaml", "items: { zip-ties: 1 }\n");
    let told = card(&tiny, &["--kit", "kit.yaml"]);
    assert!(told.answered().contains("Indicator broken off") && told.out.contains("Where each thing is packed"));
    let (_, open) = told.out.split_once("the kit does nothing about it: ").expect("the puncture stays open");
    assert!(open.starts_with("tyre punctured"), "{open}");
    tiny.write("kit.yaml", "items: { zip-tie: 1 }\n");
    assert!(card(&tiny, &["--kit", "kit.yaml"]).refused(2).contains("did you mean `zip-ties`"));
}

/// Each leaf of the booklet says that it is no manual, nothing is loaded, and no name becomes a tag.
#[test]
fn the_booklet_is_one_file_of_small_leaves() {
    let tiny = Tiny::new();
    let world = tiny.read("catalogue/world.yaml").replace("name: hand pump", "name: \"<script>alert(1)</script>\"");
    tiny.write("catalogue/world.yaml", &world);
    let page = card(&tiny, &["--format", "html"]).answered().to_owned();
    let leaves = page.matches("class=\"leaf").count();
    assert_eq!(leaves, 3 + 2 + 1, "cover, checks, contents, two failures, cautions");
    assert_eq!(page.matches("<p class=\"slip\">No instructions: the manual comes first.").count(), leaves - 1);
    assert!(page.contains("size: 105mm 148mm"), "A6");
    assert!(page.contains("&lt;script&gt;alert(1)") && !page.contains("<script>alert"), "{page}");
    assert_eq!(page.matches("<script>").count(), 1, "one script, our own");
    assert!(
        !page.replace("http-equiv", "").contains("http") && !page.contains("src=") && !page.contains("url("),
        "nothing is loaded"
    );
    assert!(page.starts_with("<!doctype html>\n<html lang=\"en\">"));
}
