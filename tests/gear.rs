//! What a rider owns and what somebody has packed: YAML, spreadsheets, earlier answers; and what is said of bad rows.

use crate::support::fardel;
use fardel::diagnostic::Faults;
use fardel::domain::{Item, Kind};
use fardel::load::{self, Loaded, Source, Unreadable};
use fardel::units::Mass;
use std::fs;

const TRIP: &str = "name: an afternoon\ntrip:\n  style: none\n  legs:\n    - { name: out and back, days: 1, km: { track: 60 }, \
                    hours_to_help: 5 h }\n";
const RIDER: &str =
    "bike: single-450-tubed, riding_skill: intermediate, repair_skill: handy, mass: 80 kg, bags: [tail-roll]";

fn source(name: &str, text: &str) -> Source {
    Source { name: name.to_owned(), text: text.to_owned() }
}

/// One rider whose gear file has this name and text.
fn one(name: &str, text: &str) -> Result<Loaded, Faults> {
    let trip = format!("{TRIP}riders:\n  - {{ name: Ilse, {RIDER}, gear: {name} }}\n");
    load::load_texts(&load::shipped(), source("trip.yaml", &trip), &|name| Ok(source(name, text)))
}

fn told(name: &str, text: &str) -> String {
    one(name, text).err().map_or_else(|| "nothing found wrong".to_owned(), |faults| faults.to_string())
}

fn item<'a>(loaded: &'a Loaded, id: &str) -> &'a Item {
    loaded.catalogue.items.get(id).unwrap_or_else(|| panic!("no {id}"))
}

const YAML: &str = "
items:
  - tyre-lever                                    # one, as the catalogue has it
  - { id: hand-pump, mass: 171 g, count: 1 }
  - { name: Paper diary, mass: 0.24 kg, volume: 400 mL, kind: papers }
  - { name: Spoke key, mass: 38 g }
";

#[test]
fn gear_overrides_masses_and_adds_own_things() {
    let loaded = one("my-gear.yaml", YAML).unwrap_or_else(|faults| panic!("{faults}"));
    let owns = &loaded.scenario.riders[0].owns;
    assert_eq!(
        owns.iter().map(|(id, n)| (id.as_str(), *n)).collect::<Vec<_>>(),
        [("tyre-lever", 1), ("hand-pump", 1), ("paper-diary", 1), ("spoke-key", 1)]
    );
    assert_eq!(item(&loaded, "hand-pump").mass, Mass::from_grams(171));
    assert_eq!(item(&loaded, "spoke-key").mass, Mass::from_grams(38));
    let diary = item(&loaded, "paper-diary");
    assert_eq!((diary.mass, diary.kind, diary.name.as_str()), (Mass::from_grams(240), Kind::Papers, "Paper diary"));
    assert!((diary.longest.millimetres() - 73.68).abs() < 0.01, "the edge of a cube of 400 mL: {:?}", diary.longest);
    let note = "my-gear.yaml: 4 things owned, 2 as weighed there; not in the catalogue: paper-diary";
    assert_eq!(loaded.notes, [note]);
}

/// The same things in every common form of a spreadsheet give the same gear.
#[test]
fn spreadsheets_in_common_forms_mean_the_same() {
    let expected = one("my-gear.yaml", YAML).unwrap();
    let forms = [
        "id,name,count,mass,volume,kind\ntyre-lever,,1,,,\nhand-pump,,1,171 g,,\n,Paper diary,1,240 g,400 mL,papers\n,Spoke key,,38 g,,\n",
        "\u{feff}Count;Mass (g);Volume (L);Name;Kind;ID\r\n1;;;;;tyre-lever\r\n1;171,0;;;;hand-pump\r\n1;240;0,4;\"Paper diary\";papers;\r\n;38;;Spoke key;;\r\n",
        "name\tweight [kg]\tvolume\tkind\nTyre-lever\t\t\t\nhand-pump\t0,171\t\t\nPaper diary\t0.24\t400 mL\tpapers\n\nspoke key\t0,038\t\t\n\t\t\t\n",
    ];
    for form in forms {
        let loaded = one("my-gear.csv", form).unwrap_or_else(|faults| panic!("{form}\n{faults}"));
        assert_eq!(loaded.scenario.riders[0].owns, expected.scenario.riders[0].owns, "{form}");
        assert_eq!(loaded.catalogue.items, expected.catalogue.items, "{form}");
    }
}

#[test]
fn bad_rows_are_told_with_line_and_column() {
    let text = "id,name,mass (g),volume,count\n\
                tyre-levr,,190,,\n\
                hand-pump,,heavy,,1\n\
                ,paper diary,240,,1\n\
                ,tyre boots,,,\n\
                multi-tool,,\"0,24\",,-1\n\
                spoke-key,,38,,1.5\n\
                spoke-key,,38,,1\n\
                ,bowl,60,1 kg,1\n\
                fuses,,12,5,20 mL,1\n\
                ,,15,,1\n";
    insta::assert_snapshot!(told("my-gear.csv", text));
}

#[test]
fn bad_headings_and_files_are_told() {
    let all: Vec<String> = [
        "",
        "id,mas,count\nfuses,10 g,1\n",
        "mass,count\n10 g,1\n",
        "id,mass,Weight\nfuses,10 g,10 g\n",
        "id,name\nfuses,\"blade\n",
    ]
    .iter()
    .map(|text| told("my-gear.csv", text))
    .collect();
    insta::assert_snapshot!(all.join("\n"));
}

#[test]
fn bad_yaml_gear_is_told() {
    let text = "items:\n  tyre-lever: 2\n  hand-pump: { mas: 170 g }\n  paper diary: { mass: 240 g }\n  fuses: many\n  ' ': 1\n";
    insta::assert_snapshot!(told("my-gear.yaml", text));
    let twice = "items: [fuses]\n";
    let trip = format!("{TRIP}riders:\n  - {{ name: Ilse, {RIDER}, gear: mine.yaml, owns: {{ fuses: 1 }} }}\n");
    let both = load::load_texts(&load::shipped(), source("trip.yaml", &trip), &|name| Ok(source(name, twice)));
    assert!(both.unwrap_err().to_string().contains("`fuses`, which Ilse has under `owns` too"));
}

/// Two riders weigh the same thing differently: each packs with their own mass, the catalogue keeps its own.
#[test]
fn every_rider_has_their_own_masses() {
    let trip = format!(
        "{TRIP}riders:\n  - {{ name: Ilse, {RIDER}, gear: a.yaml }}\n  - {{ name: Bo, {RIDER}, gear: b.csv }}\n  - {{ name: Cy, {RIDER} }}\n"
    );
    let read = |name: &str| match name {
        "a.yaml" => Ok(source(name, "items: { hand-pump: { mass: 171 g } }")),
        "b.csv" => Ok(source(name, "id,mass (g)\nhand-pump,222\n")),
        _ => Err(Unreadable { name: name.to_owned(), reason: "no such file".to_owned() }),
    };
    let loaded = load::load_texts(&load::shipped(), source("trip.yaml", &trip), &read).unwrap();
    let shipped = load::catalogue(&load::shipped(), &[]).unwrap();
    assert_eq!(loaded.catalogue.items, shipped.items);
    let masses =
        loaded.scenario.riders.iter().map(|rider| loaded.catalogue.as_weighed_by(rider).items["hand-pump"].mass);
    let expected = [Mass::from_grams(171), Mass::from_grams(222), shipped.items["hand-pump"].mass];
    assert_eq!(masses.collect::<Vec<_>>(), expected);
}

/// An own thing on the `always` list is packed, weighed as the rider weighed it.
#[test]
fn own_things_are_packed_when_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let trip = format!(
        "{TRIP}riders:\n  - {{ name: Ilse, {RIDER}, gear: my-gear.csv }}\nalways: [paper-diary]\nlimits: {{ budget: 60 USD }}\n"
    );
    fs::write(
        folder.path().join("trip.yaml"),
        trip.replace("km: { track: 60 }", "km: { track: 60 }, water_every: 1 h, food_every: 1 h"),
    )
    .unwrap();
    let gear = "name;mass (g);volume (mL)\nPaper diary;241,5;400\nlicence, registration, insurance, emergency card;99;\nsnack-pack;;\nbottle-1000;;\nphone;201;\nrain-suit;;\nfleece;;\n";
    fs::write(folder.path().join("my-gear.csv"), gear).unwrap();
    let run = fardel(folder.path(), &["pack", "trip.yaml", "--format", "json", "--out", "kit.json"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let text = fs::read_to_string(folder.path().join("kit.json")).unwrap();
    let json: serde_json::Value = serde_json::from_str(&text).unwrap();
    let lines: Vec<&serde_json::Value> =
        json["bags"].as_array().unwrap().iter().flat_map(|bag| bag["items"].as_array().unwrap()).collect();
    let mass = |id: &str| lines.iter().find(|line| line["id"] == id).map(|line| line["mass_g"].as_f64().unwrap());
    assert_eq!(mass("paper-diary"), Some(241.5));
    assert_eq!(mass("documents"), Some(99.0));
    assert!(
        json["warnings"].to_string().contains("my-gear.csv: 7 things owned, 2 as weighed there"),
        "{}",
        json["warnings"]
    );

    // The answer is itself a kit that can be read back, own things included.
    let loaded = load::load(&folder.path().join("trip.yaml"), None).unwrap();
    let packed =
        load::kit(&folder.path().join("kit.json"), &loaded.catalogue).unwrap_or_else(|faults| panic!("{faults}"));
    let kit = packed.kit;
    assert!((kit.mass(&loaded.catalogue).grams() - json["totals"]["mass_g"].as_f64().unwrap()).abs() < 1e-6);
    assert_eq!(
        kit.iter().map(|(_, n)| n).sum::<u32>(),
        u32::try_from(json["totals"]["units"].as_u64().unwrap()).unwrap()
    );
}

#[test]
fn kits_in_all_forms() {
    let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
    let forms = [
        ("kit.yaml", "items: { tyre-lever: 2, hand-pump: 1 }"),
        ("kit.yaml", "items: [hand-pump, { id: tyre-lever, count: 2 }]"),
        ("kit.yaml", "items: [tyre-lever, hand-pump, tyre-lever]"),
        ("kit.csv", "id;count\ntyre-lever;2\nhand-pump;1\n"),
        ("kit.csv", "count,id,remarks\n1,tyre-lever,old\n,hand-pump,\n1,tyre-lever,new\n"),
        (
            "kit.json",
            "{\"schema_version\": 1, \"bags\": [{\"id\": \"tank-bag\", \"items\": [{\"id\": \"tyre-lever\", \"count\": 1}]}, \
                      {\"items\": [{\"id\": \"hand-pump\", \"count\": 1, \"mass_g\": 3}, {\"id\": \"tyre-lever\", \"count\": 1}]}]}",
        ),
    ];
    for (name, text) in forms {
        let packed = load::kit_text(source(name, text), &catalogue).unwrap_or_else(|faults| panic!("{text}\n{faults}"));
        let mut lines: Vec<(&str, u32)> = packed.kit.iter().collect();
        lines.sort_unstable();
        assert_eq!(lines, [("hand-pump", 1), ("tyre-lever", 2)], "{text}");
    }
}

#[test]
fn bad_kits_are_told() {
    let catalogue = load::catalogue(&load::shipped(), &[]).unwrap();
    let forms = [
        ("kit.yaml", "items: { tyre-levr: 2 }"),
        ("kit.yaml", "items: { tyre-lever: two }"),
        ("kit.yaml", "tyre-lever: 2"),
        ("kit.yaml", "items: []"),
        ("kit.yaml", "items: [{ count: 2 }]"),
        ("kit.csv", "id,count\ntyre-levr,1\nhand-pump,one\n"),
        ("kit.csv", "id,mass\nhand-pump,1 g\n"),
        ("kit.csv", "bag_id,id,count,mass_g\ntank-bog,hand-pump,1,3\n"),
        ("kit.yaml", "items: [{ id: hand-pump, bag: tank-bog }]"),
        ("kit.json", "{\"bags\": [{\"items\": [{\"id\": \"hand-pmp\", \"count\": 1}, {\"count\": 1}]}]}"),
        ("kit.json", "{\"bags\": [{\"items\": 3}]}"),
        ("kit.json", "{\"bags\": ["),
    ];
    let all = forms.map(|(name, text)| {
        let faults = load::kit_text(source(name, text), &catalogue)
            .map_or_else(|faults| faults.to_string(), |_| "sound".to_owned());
        format!("{text}\n{faults}\n")
    });
    insta::assert_snapshot!(all.join("\n"));
    let missing = load::kit(std::path::Path::new("no-such-kit.yaml"), &catalogue).unwrap_err();
    assert!(missing.to_string().contains("no such file"), "{missing}");
}
