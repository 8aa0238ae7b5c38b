//! Pages without a browser: small, whole, harmless whatever the files hold, and written like any other answer.

use crate::cli::Tiny;
use crate::support::fardel;
use std::collections::BTreeSet;
use std::fs;

/// A page is to fit into a message.
const LARGEST: usize = 500_000;
const HOSTILE: &str = r#"pump</label><script>alert(1)</script> & "both" 'quotes'"#;

fn page(tiny: &Tiny, further: &[&str]) -> String {
    let run = tiny.pack(&[&["--format", "html", "--curve", "3"], further].concat());
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    run.out
}

/// What stands in an attribute of this name, all through the page.
fn attributes<'a>(page: &'a str, name: &str) -> Vec<&'a str> {
    let open = format!(" {name}=\"");
    page.split(open.as_str()).skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

/// The page is one small file that names nothing outside itself, and each of its anchors leads somewhere.
fn stands_alone(page: &str) {
    assert!(page.len() < LARGEST, "{} bytes", page.len());
    assert!(page.starts_with("<!doctype html>\n<html lang=\"en\""), "{}", &page[..60]);
    assert!(page.trim_end().ends_with("</html>"));
    for bad in ["src=", "http:", "https:", "@import", "url(", "{{", "{%"] {
        assert!(!page.contains(bad), "`{bad}` is in the page");
    }
    let ids = attributes(page, "id");
    let once: BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(once.len(), ids.len(), "an id is there twice");
    for name in ["href", "aria-labelledby", "data-left"] {
        for target in attributes(page, name) {
            assert!(once.contains(target.trim_start_matches('#')), "{name} {target} leads nowhere");
        }
    }
    for level in 2..=4 {
        let (open, above) = (format!("<h{level}"), format!("<h{}", level - 1));
        let first = |tag: &str| page.find(tag).unwrap_or(usize::MAX);
        assert!(first(&above) <= first(&open), "a heading of level {level} comes before any above it");
    }
}

#[test]
fn the_page_of_a_kit_stands_alone_and_has_everything() {
    let tiny = Tiny::new();
    let page = page(&tiny, &[]);
    stands_alone(&page);
    // Numbers and their units are not torn apart at the end of a line.
    let page = page.replace('\u{a0}', " ");
    let json = tiny.pack(&["--format", "json"]).json();
    let sorts = json["bags"].as_array().unwrap().iter().map(|bag| bag["items"].as_array().unwrap().len());
    let buys = json["purchases"].as_array().unwrap().len();
    let chores = json["before_you_leave"].as_array().unwrap().len().min(5);
    let checks = json["checks"].as_array().unwrap().len();
    assert!(checks > 1, "the tiny world has checks");
    assert_eq!(attributes(&page, "data-tick").len(), sorts.sum::<usize>() + buys + chores + checks);
    for need in json["needs"].as_array().unwrap() {
        assert!(page.contains(need["working"].as_str().unwrap()), "{need}");
    }
    for caution in json["cautions"].as_array().unwrap() {
        assert!(page.contains(&caution.as_str().unwrap().replace('\'', "&#x27;")), "{caution}");
    }
    for risk in json["risks"].as_array().unwrap() {
        assert!(page.contains(risk["name"].as_str().unwrap()), "{risk}");
    }
}

#[test]
fn names_from_the_files_are_only_text() {
    let tiny = Tiny::new();
    let world = tiny.read("catalogue/world.yaml");
    let quoted = HOSTILE.replace('\'', "''");
    assert!(world.contains("name: hand pump,"), "the pump");
    tiny.write("catalogue/world.yaml", &world.replace("name: hand pump,", &format!("name: '{quoted}',")));
    let trip = tiny.read("trip.yaml");
    let trip = trip.replace("name: Aino", "name: '<img src=x onerror=alert(2)>'");
    tiny.write("trip.yaml", &trip.replace("Two days to the quarry", "'</title><script>alert(3)</script>'"));
    let page = page(&tiny, &[]);
    for bad in ["<script>alert", "<img", "</label><script", "onerror=alert(2)>"] {
        assert!(!page.contains(bad), "`{bad}` got through");
    }
    assert!(page.contains("&lt;script&gt;alert(1)&lt;"), "the name is shown as it is written");
    assert_eq!(page.matches("<script>").count(), 1, "one script, our own");
}

/// Ticks belong to the trip and the rider: of a plan that is changed, all that is packed as before stays ticked.
#[test]
fn ticks_outlive_a_changed_plan() {
    let tiny = Tiny::new();
    let of = |page: &str, name: &str| attributes(page, name).into_iter().map(str::to_owned).collect::<BTreeSet<_>>();
    let before = page(&tiny, &[]);
    let key = of(&before, "data-key");
    let trip = tiny.read("trip.yaml");
    tiny.write("trip.yaml", &trip.replace("kit_mass: 5 kg", "kit_mass: 3.2 kg"));
    let after = page(&tiny, &[]);
    assert_eq!(of(&after, "data-key"), key, "the key is that of trip and rider");
    let (before, after) = (of(&before, "data-tick"), of(&after, "data-tick"));
    assert_ne!(before, after, "another kit");
    assert!(before.intersection(&after).count() * 2 > before.len(), "most of it as before: {before:?} {after:?}");
    let card = fardel(tiny.path(), &["card", "trip.yaml", "--catalogues", "catalogue", "--format", "html"]).out;
    assert_eq!(of(&card, "data-key"), key, "and that of the card, so that its checks are ticked on both");
    tiny.write("trip.yaml", &tiny.read("trip.yaml").replace("name: Aino", "name: Pekka"));
    assert!(of(&page(&tiny, &[]), "data-key").is_disjoint(&key), "another rider packs for himself");
}

#[test]
fn the_same_page_twice() {
    let tiny = Tiny::new();
    assert_eq!(page(&tiny, &[]), page(&tiny, &[]));
}

#[test]
fn a_page_in_pounds_and_without_the_curve() {
    let tiny = Tiny::new();
    let run = tiny.pack(&["--format", "html", "--curve", "0", "--units", "imperial"]);
    stands_alone(&run.out);
    let loads = run.out.matches(" lb</span>").count();
    assert!(loads > 1 && run.out.contains("data-unit=\"lb\""), "bags are told in pounds");
    assert!(run.out.contains("--curve 8"), "the page says how to get the curve");
}

#[test]
fn what_depends_on_the_rates_is_in_the_page_if_asked_for() {
    let tiny = Tiny::new();
    let page = page(&tiny, &["--uncertain", "3"]);
    stands_alone(&page);
    assert!(page.contains("If the numbers are wrong") && page.contains("worst tenth"));
}

#[test]
fn a_page_is_written_whole_and_not_over_another() {
    let tiny = Tiny::new();
    let to = ["--format", "html", "--curve", "0", "--out", "kit.html"];
    assert_eq!(tiny.pack(&to).code, 0);
    stands_alone(&tiny.read("kit.html"));
    tiny.write("kit.html", "mine");
    assert_eq!(tiny.pack(&to).code, 2, "it exists already");
    assert_eq!(tiny.read("kit.html"), "mine");
    assert_eq!(tiny.pack(&[&to[..], &["--force"]].concat()).code, 0);
    stands_alone(&tiny.read("kit.html"));
}

#[test]
fn no_kit_no_page() {
    let tiny = Tiny::new();
    let run = tiny.pack(&["--format", "html", "--out", "kit.html", "--rider", "Nobody"]);
    assert_eq!(run.code, 2);
    assert!(!tiny.path().join("kit.html").exists());
}

#[test]
fn the_other_answers_have_pages() {
    let tiny = Tiny::new();
    let trip = ["trip.yaml", "--catalogues", "catalogue", "--format", "html"];
    tiny.write("packed.json", &tiny.pack(&["--format", "json"]).out);
    let runs: [&[&str]; 5] = [
        &["trim", "--kit", "packed.json", "--by", "200g"],
        &["tradeoff", "--points", "3"],
        &["tradeoff", "--points", "3", "--over", "money"],
        &["rehearse", "--trips", "500"],
        &["split"],
    ];
    for run in runs {
        let done = fardel(tiny.path(), &[&run[..1], &trip, &run[1..]].concat());
        assert_eq!(done.code, 0, "{run:?}: {}", done.err);
        stands_alone(&done.out);
    }
}

#[test]
fn a_group_gets_a_page_for_all_and_one_for_each() {
    let tiny = Tiny::new();
    let trip = tiny.read("trip.yaml");
    let second = "  - name: Ilse/../B\n    bike: single\n    riding_skill: intermediate\n    repair_skill: handy\n    mass: 70 kg\n    bags: [side-left, side-right]\n    owns: { bottle: 1, rain-suit: 1, documents: 1 }\n";
    let limits = "limits: { kit_mass: 5 kg, budget: 70 USD }";
    assert!(trip.contains(limits));
    tiny.write("trip.yaml", &trip.replace(limits, &format!("{second}limits: {{ budget: 200 USD }}")));
    let to = ["split", "trip.yaml", "--catalogues", "catalogue", "--format", "html", "--out", "pages"];
    let run = fardel(tiny.path(), &to);
    assert_eq!(run.code, 0, "{}", run.err);
    let mut names: Vec<String> = fs::read_dir(tiny.path().join("pages"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(names, ["1-aino.html", "2-ilse----b.html", "group.html"]);
    let all = tiny.read("pages/group.html");
    let own: Vec<String> = names[..2].iter().map(|name| tiny.read(&format!("pages/{name}"))).collect();
    [&all, &own[0], &own[1]].into_iter().for_each(|page| stands_alone(page));
    let ticks: Vec<&str> = own.iter().flat_map(|page| attributes(page, "data-tick")).collect();
    let packed = |tick: &&str| !tick.starts_with("buy") && !tick.starts_with("check");
    assert_eq!(attributes(&all, "data-tick").into_iter().filter(packed).collect::<Vec<_>>(), ticks);
    let keys = attributes(&all, "data-key");
    let theirs: Vec<&str> = own.iter().flat_map(|page| attributes(page, "data-key")).collect();
    assert_eq!((theirs.len(), keys[1..] == theirs), (2, true), "ticks are those of the rider, on either page");
    assert_eq!(keys.iter().collect::<BTreeSet<_>>().len(), 3, "everybody's and each rider's: {keys:?}");
    let links = attributes(&all, "href");
    assert!(["#rider-1", "#rider-2"].iter().all(|link| links.contains(link)), "shares lead to riders: {links:?}");
}
