//! The fields of the JSON are those that `tests/fields.md` lists.

use crate::cli::Tiny;
use crate::debrief::LOG;
use crate::split::shown::SECOND;
use crate::support::fardel;
use std::collections::BTreeSet;

/// The fields of the JSON, as runs on the tiny world write them, are those of the tables, no more and no less. A line
/// `<!-- fields of: pack ...; pack ... -->` names the runs that the table below it describes.
#[test]
fn the_json_fields_are_listed() {
    // A copy, for commands that write.
    let tiny = Tiny::new();
    tiny.write("log.yaml", &LOG.replace("falls: 2", "falls: 0"));
    tiny.write("group.yaml", &tiny.read("trip.yaml").replace("\nlimits:", SECOND));
    tiny.write("packed.yaml", "items: { pump: 1, tyre-lever: 2, bottle: 1, rain-suit: 1, documents: 1 }\n");
    tiny.write("too.yaml", "items: { pump: 1, handle: 1, bottle: 2, rain-suit: 1, documents: 1 }\n");
    tiny.write(
        "poor.yaml",
        &tiny.read("trip.yaml").replace("budget: 70 USD", "budget: 0 USD").replace("bottle: 1, ", ""),
    );
    let rate = "rate:puncture:8000-7000-4000-1000-100,10,30,20,90\n";
    let known: String = (1..=10).map(|at| format!("log-{at},1,9,4,80\n")).collect();
    let answers = format!("id,lowest,highest,best,confidence\n{known}{rate}");
    tiny.write("anna.csv", &answers);
    tiny.write("ben.csv", &answers);
    tiny.write("things.csv", "item,qty,weight (g)\npump,1,300\ntyre levr,2,200\nharmonica,1,95\nnovel,1,\n");
    tiny.write("packed.csv", include_str!("cli/tiny/packed.csv"));
    tiny.write("short.csv", "id,count\npump,1\ntyre-lever,2\npatch-kit,1\nbottle,1\nrain-suit,1\ndocuments,1\n");
    let named = "name: Two days to the quarry";
    tiny.write("mine.yaml", "items:\n  pump: { like: pump, mass: 320 g, basis: ride log }\n");
    tiny.write("noted.yaml", &tiny.read("trip.yaml").replace(named, &format!("{named}\ncatalogues: [mine.yaml]")));
    let dry = "needs:\n  petrol: { name: petrol beyond the tank, unit: mL, rule: fuel }\nitems:\n  barrel: { name: barrel, kind: fuel, \
               mass: 2 kg, volume: 9 L, longest: 3000 mm, price: 9 USD, meets: { petrol: 9000 }, basis: from memory }\n";
    tiny.write("pumps.yaml", dry);
    let far = tiny.read("trip.yaml").replace("fuel_every: 150 km", "fuel_every: 500 km");
    tiny.write("dry.yaml", &far.replace(named, &format!("{named}\ncatalogues: [pumps.yaml]")));
    let screen = "needs:\n  way: { name: a way, unit: way, rule: navigation }\nitems:\n  screen: { name: screen, kind: electronics, \
                  mass: 100 g, volume: 100 mL, longest: 90 mm, price: 75 USD, meets: { way: 1 }, basis: from memory }\n";
    tiny.write("screen.yaml", screen);
    // Money for one of two screens, and a leg for each rider alone.
    let leg = |rider: &str| {
        format!(
            "    - {{ name: {rider} alone, riders: [{rider}], days: 1, km: {{ sealed: 50 }}, hours_to_help: 2 h, \
             lowest: 6 °C, highest: 28 °C, water_every: 0.25 days }}\n"
        )
    };
    let parted =
        tiny.read("group.yaml").replace("riders:\n  -", &format!("{}{}riders:\n  -", leg("Aino"), leg("Pekka")));
    tiny.write("parted.yaml", &parted.replace(named, &format!("{named}\ncatalogues: [screen.yaml]")));
    tiny.write("rich.yaml", &tiny.read("trip.yaml").replace("budget: 70 USD", "budget: 700 USD"));
    tiny.write("poor-kit.yaml", "items: { zip-ties: 1 }\n");
    let folder = tiny.path();
    let tables: Vec<&str> = include_str!("fields.md").split("<!-- fields of: ").skip(1).collect();
    assert!(!tables.is_empty(), "no table in tests/fields.md");
    let mut wrong = Vec::new();
    for table in tables {
        let (runs, table) = table.split_once(" -->").expect("a comment that closes");
        let mut written = BTreeSet::new();
        for run in runs.split("; ") {
            let own = run.split_whitespace().chain(["--catalogues", "catalogue", "--format", "json"]);
            let run = fardel(folder, &own.collect::<Vec<_>>());
            // A check that finds faults answers too, with another status.
            let json = serde_json::from_str(&run.out).unwrap_or_else(|_| panic!("no JSON: {}", run.err));
            collect(&json, "", &mut written);
        }
        let is_field = |cell: &str| !cell.is_empty() && !cell.starts_with('-') && cell != "field";
        let listed: BTreeSet<String> = rows(table, is_field).into_iter().map(|cells| cells[0].clone()).collect();
        let missing: Vec<&String> = written.difference(&listed).collect();
        let extra: Vec<&String> = listed.difference(&written).collect();
        if !missing.is_empty() || !extra.is_empty() {
            wrong.push(format!("`{runs}`: not listed {missing:?}, not written {extra:?}"));
        }
    }
    assert!(wrong.is_empty(), "the tables of tests/fields.md:\n{}", wrong.join("\n"));
}

/// Rows of a table whose first cell passes: the cells, without backquotes.
fn rows(document: &str, first: impl Fn(&str) -> bool) -> Vec<Vec<String>> {
    let cells = |line: &str| -> Vec<String> {
        let inner = line.trim().trim_start_matches('|').trim_end_matches('|');
        inner.split('|').map(|cell| cell.trim().replace('`', "")).collect()
    };
    let table = document.lines().filter(|line| line.starts_with('|')).map(cells);
    table.filter(|cells| first(&cells[0])).collect()
}

/// `totals.mass_g`, `bags[].items[].name`: the leaves, and what is `null`.
fn collect(value: &serde_json::Value, path: &str, into: &mut BTreeSet<String>) {
    match value {
        serde_json::Value::Object(fields) => {
            for (name, value) in fields {
                let path = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
                collect(value, &path, into);
            }
        }
        serde_json::Value::Array(members) if members.is_empty() => {}
        serde_json::Value::Array(members) if members.iter().any(serde_json::Value::is_object) => {
            members.iter().for_each(|member| collect(member, &format!("{path}[]"), into));
        }
        serde_json::Value::Array(_) => drop(into.insert(format!("{path}[]"))),
        // A field that does not apply is `null`; where it is more than a leaf, another member shows its parts.
        serde_json::Value::Null
            if ["remedy", "floor", "moves", "fuel_short"].iter().any(|name| path.ends_with(name)) => {}
        _ => drop(into.insert(path.to_owned())),
    }
}
