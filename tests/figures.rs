//! One answer in several forms: every figure that one of them shows is the same in the others.

use crate::cli::Tiny;
use crate::split::shown::SECOND;
use crate::support::fardel;
use std::collections::BTreeMap;

const FORMS: [&str; 3] = ["text", "markdown", "html"];

/// The answer in each form, as lines of plain text.
fn forms(tiny: &Tiny, run: &[&str]) -> Vec<Vec<String>> {
    let one = |form: &&str| {
        let further = ["--catalogues", "catalogue", "--full", "--format", form];
        let run = fardel(tiny.path(), &[run, &further].concat());
        assert_eq!((run.code, run.err.as_str()), (0, ""));
        match *form {
            "html" => lines_of_page(&run.out),
            _ => joined(&run.out.replace("**", "").replace('\\', "")),
        }
    };
    FORMS.iter().map(one).collect()
}

/// Rows of a page: what stands between the tags of a row, a list item or a paragraph.
fn lines_of_page(page: &str) -> Vec<String> {
    let body = page.split_once("<body").unwrap().1;
    let mut text = String::new();
    // A row to tick holds a name, what is folded below it and that in sentences: one row all the same.
    let mut in_item = false;
    let mut rest = body;
    while let Some((before, tag)) = rest.split_once('<') {
        text += before.replace('\n', " ").trim();
        let (tag, after) = tag.split_once('>').unwrap_or((tag, ""));
        let name = tag.trim_start_matches('/').split(|c: char| !c.is_alphanumeric()).next().unwrap_or_default();
        in_item = if name == "li" { !tag.starts_with('/') } else { in_item };
        let within = in_item && ["p", "summary"].contains(&name);
        let breaks = ["tr", "li", "p", "h1", "h2", "h3", "section", "summary", "div"].contains(&name);
        text += if breaks && !within { "\n" } else { " " };
        rest = after;
    }
    text = text.replace("&lt;", "<").replace("&gt;", ">").replace("&#x27;", "'").replace("&amp;", "&");
    text.lines()
        .map(|line| line.split_whitespace().collect::<Vec<_>>().join(" "))
        .filter(|line| !line.is_empty())
        .collect()
}

/// Lines with those that go on joined to the ones that they belong to.
fn joined(text: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for line in text.lines() {
        let indent = line.len() - line.trim_start().len();
        match lines.last_mut() {
            Some(last) if indent > 4 => *last = format!("{last} {}", line.trim()),
            _ => lines.push(line.trim().to_owned()),
        }
    }
    lines
}

/// Numbers with their units: `1.20 kg`, `35 min`, `12 %`.
fn figures(line: &str) -> Vec<String> {
    const UNITS: [&str; 11] = ["g", "kg", "mL", "L", "min", "h", "%", "km", "USD", "kcal", "kJ"];
    let words: Vec<&str> = line.split([' ', '|', ',', ';', '(', ')', ':']).filter(|word| !word.is_empty()).collect();
    let number = |word: &str| word.starts_with(|c: char| c.is_ascii_digit()) && word.parse::<f64>().is_ok();
    let pair = |pair: &[&str]| {
        let unit = pair[1].trim_end_matches('.');
        (number(pair[0]) && UNITS.contains(&unit)).then(|| format!("{} {unit}", pair[0]))
    };
    words.windows(2).filter_map(pair).collect()
}

/// The rows that name a thing, with their figures.
fn rows_of(lines: &[String], name: &str) -> Vec<Vec<String>> {
    let named = |line: &&String| line.contains(name);
    let of = |line: &String| figures(&line.replace(name, ""));
    lines.iter().filter(named).map(of).filter(|figures| !figures.is_empty()).collect()
}

#[test]
fn a_thing_has_the_same_figures_in_every_form() {
    let tiny = Tiny::new();
    let all = forms(&tiny, &["pack", "trip.yaml"]);
    let json = tiny.pack(&["--format", "json"]).json();
    let mut things = 0;
    for bag in json["bags"].as_array().unwrap() {
        for item in bag["items"].as_array().unwrap() {
            let name = item["name"].as_str().unwrap();
            let masses: Vec<Vec<String>> = all.iter().map(|lines| rows_of(lines, name).swap_remove(0)).collect();
            assert!(!masses[0].is_empty(), "{name}");
            assert!(masses.iter().all(|own| own[0] == masses[0][0]), "{name}: {masses:?}");
            // Beside the mass: what is lost without it, where that is a time.
            let times = |own: &Vec<String>| {
                own.iter().filter(|f| f.ends_with("min") || f.ends_with(" h")).cloned().collect::<Vec<_>>()
            };
            assert!(masses.iter().all(|own| times(own) == times(&masses[0])), "{name}: {masses:?}");
            things += 1;
        }
    }
    assert!(things > 5);
}

/// Headlines are the same sentences everywhere.
#[test]
fn headlines_have_the_same_figures_in_every_form() {
    let tiny = Tiny::new();
    tiny.write("group.yaml", &tiny.read("trip.yaml").replace("\nlimits:", SECOND));
    let runs: [&[&str]; 2] = [&["pack", "trip.yaml"], &["split", "group.yaml", "--keep-if-one-leaves", "0.5"]];
    for run in runs {
        let all: Vec<String> = forms(&tiny, run)
            .into_iter()
            .map(|lines| lines.join(" ").split_whitespace().collect::<Vec<_>>().join(" "))
            .collect();
        let text = fardel(tiny.path(), &[run, &["--catalogues", "catalogue", "--full"]].concat()).out;
        let mut compared = 0;
        for word in ["Carry", "Worth", "Home", "Price", "Proven", "Floor"] {
            let Some(at) = text.find(&format!("\n{word} ")) else { continue };
            let end = text[at + 1..].find("\n\n").map_or(text.len(), |end| at + 1 + end);
            let line =
                text[at + 1..end].lines().take_while(|line| line.starts_with([' ', word.chars().next().unwrap()]));
            let line = line.map(str::trim).collect::<Vec<_>>().join(" ");
            let sentence = line.trim_start_matches(word).trim().to_owned();
            assert!(all.iter().all(|form| form.contains(&sentence)), "{word}: {sentence}\n{all:#?}");
            compared += 1;
        }
        assert!(compared >= 3, "{text}");
    }
}

/// The screen shows fewer figures; those that it shows are those of the full answer.
#[test]
fn the_screen_shows_figures_of_the_full_answer() {
    let tiny = Tiny::new();
    let run = ["pack", "trip.yaml", "--catalogues", "catalogue"];
    let screen = fardel(tiny.path(), &run).out;
    let full = fardel(tiny.path(), &[&run[..], &["--full"]].concat()).out;
    let mut known: BTreeMap<String, usize> =
        figures(&full.replace('\n', " ")).into_iter().map(|figure| (figure, 1)).collect();
    // `48 of 70 USD` is 48 USD as well.
    let words: Vec<&str> = full.split_whitespace().collect();
    for own in words.windows(4).filter(|own| own[1] == "of") {
        known.insert(format!("{} {}", own[0], own[3]), 1);
    }
    let mut compared = 0;
    // `1.20 of 5.00 kg` says its unit once, so the figures before `of` are not pairs.
    for line in screen.lines().take_while(|line| !line.starts_with("Next")) {
        for figure in figures(line) {
            assert!(known.contains_key(&figure), "{figure} in `{line}` is not in\n{full}");
            compared += 1;
        }
    }
    assert!(compared > 8, "{screen}");
}

#[test]
fn figures_are_found_with_their_units() {
    assert_eq!(figures("| 1 x pump | 180 g, 7.1 h (12 %) | 3 things."), ["180 g", "7.1 h", "12 %"]);
}

/// What is set for a load stands in every form with the manual before it, and the bike's own entry before common practice.
#[test]
fn what_is_set_for_a_load_is_in_every_form() {
    let tiny = Tiny::new();
    let world = tiny.read("catalogue/world.yaml");
    for (entry, by) in
        [("", "common_practice"), ("front_pressure: 190 kPa\n    rear_pressure: 2.1 bar\n    ", "bikes_entry")]
    {
        tiny.write("catalogue/world.yaml", &world.replacen("wheelbase:", &format!("{entry}wheelbase:"), 1));
        let json = tiny.pack(&["--format", "json"]).json();
        let sealed = &json["loads"][0]["setup"]["rear"]["cold"][0];
        assert_eq!((&sealed["surface"], &sealed["by"]), (&"sealed".into(), &by.into()), "{json}");
        let kpa = sealed["pressure_kpa"].as_f64().unwrap();
        assert!(entry.is_empty() || (kpa - 210.0).abs() < 1e-9, "{kpa}");
        for form in forms(&tiny, &["pack", "trip.yaml"]) {
            let text = form.join(" ").split_whitespace().collect::<Vec<_>>().join(" ");
            for part in [&format!("{kpa:.0} kPa ("), "The owner's manual, the plate", "a third of the travel"] {
                assert!(text.contains(part), "{part}: {text}");
            }
        }
    }
}
