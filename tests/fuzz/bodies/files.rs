//! Catalogues, gear, kits and ride logs: what is read can be written and read again as the same, or it is refused.

use super::{WORLD, faults, source, text, world};
use fardel::diagnostic::Code;
use fardel::domain::{BasisKind, Kit};
use fardel::load::Gear;
use fardel::report::{Look, files, terminal};
use fardel::units::UnitSystem;
use fardel::{debrief, lint, load};

/// Alone, as an extra one over the tiny world, and over itself, which changes nothing.
pub fn catalogue(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let (own, world) = (source("own.yaml", text), source("world.yaml", WORLD));
    let texts = [("own.yaml", text), ("world.yaml", WORLD)];
    match load::catalogue(std::slice::from_ref(&own), &[]) {
        Ok(catalogue) => {
            let twice = load::catalogue(std::slice::from_ref(&own), std::slice::from_ref(&own));
            assert_eq!(twice.as_ref(), Ok(&catalogue), "a catalogue over itself is another one");
            lint::catalogue(&catalogue).iter().for_each(|doubt| assert!(!doubt.what.is_empty(), "{doubt:?}"));
        }
        Err(faults) => faults::are_told(&faults, &texts),
    }
    match load::catalogue(&[world], &[own]) {
        Ok(catalogue) => assert!(catalogue.items.len() >= self::world().items.len(), "an extra file took items away"),
        Err(faults) => faults::are_told(&faults, &texts),
    }
}

/// A spreadsheet as a rider's gear and as a packed kit.
pub fn gear_csv(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    match load::gear_text(source("own.csv", text), world()) {
        Ok(gear) => {
            let written = spreadsheet(&gear);
            let again = load::gear_text(source("own.csv", &written), world());
            let mut again = again.unwrap_or_else(|faults| panic!("{written}\n{faults}"));
            // A volume that was estimated is one that stands there, once it is written.
            for (id, item) in &gear.weighed {
                if item.basis.kind == BasisKind::Derived {
                    again.weighed.entry(id.clone()).and_modify(|own| own.basis = item.basis.clone());
                }
            }
            // The title names things in the order of the file.
            let same = again.counts == gear.counts && again.weighed == gear.weighed;
            assert!(same, "{gear:?} was written as\n{written}and read again as {again:?}");
        }
        Err(faults) => faults::are_told(&faults, &[("own.csv", text)]),
    }
    kit(&source("kit.csv", text));
}

/// What a rider owns as a spreadsheet of its own making.
fn spreadsheet(gear: &Gear) -> String {
    let cell = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let mut text = "id;name;kind;count;mass (mg);volume (mL);longest (mm);price\n".to_owned();
    // What is weighed and not owned is written with a count of 0.
    let others = gear.weighed.keys().filter(|id| !gear.counts.contains_key(*id)).map(|id| (id, &0));
    for (id, count) in gear.counts.iter().chain(others) {
        let key = if world().items.contains_key(id) { cell(id) } else { String::new() };
        let Some(item) = gear.weighed.get(id) else {
            text += &format!("{key};;;{count};;;;\n");
            continue;
        };
        let (mass, volume, longest) = (item.mass.milligrams(), item.volume.millilitres(), item.longest.millimetres());
        let price = format!("{}.{:02} USD", item.price.cents() / 100, item.price.cents() % 100);
        let (name, kind) = (cell(&item.name), item.kind.word());
        text += &format!("{key};{name};{kind};{count};{mass};{volume};{longest};{price}\n");
    }
    text
}

/// An earlier answer, or a kit in YAML, which looks the same to the reader.
pub fn kit_json(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    kit(&source("kit.json", text));
}

fn kit(own: &load::Source) {
    match load::kit_text(own.clone(), world()) {
        Ok(load::PackedKit { kit, stowage, own, .. }) => {
            let mut known = world().clone();
            known.items.extend(own);
            assert!(stowage.iter().flatten().all(|(bag, _)| world().bags.contains_key(bag)), "{stowage:?}");
            assert!(kit.iter().all(|(id, count)| count > 0 && known.items.contains_key(id)), "{kit:?}");
            let again = load::kit_text(source("again.json", &answer(&kit)), &known);
            assert!(
                kit.is_empty() || again.as_ref().map(|packed| &packed.kit) == Ok(&kit),
                "{kit:?} was read again as {again:?}"
            );
        }
        Err(faults) => {
            faults::are_told(&faults, &[(&own.name, &own.text)]);
            // What another program calls JSON is read, whatever is then said of its contents.
            let json = own.name == "kit.json" && serde_json::from_str::<serde_json::Map<_, _>>(&own.text).is_ok();
            assert!(!json || faults.0.iter().all(|fault| fault.code != Code::NotYaml), "{faults}");
        }
    }
}

/// As much of an answer in JSON as is read; a line holds no more than a line may.
fn answer(kit: &Kit) -> String {
    let line = |id: &str, count: u32| format!("{{\"id\":{},\"count\":{count}}}", serde_json::Value::from(id));
    let lines: Vec<String> = kit
        .iter()
        .flat_map(|(id, mut count)| {
            let mut lines = Vec::new();
            while count > 0 {
                let some = count.min(100_000);
                lines.push(line(id, some));
                count -= some;
            }
            lines
        })
        .collect();
    format!("{{\"schema_version\":2,\"bags\":[{{\"items\":[{}]}}]}}", lines.join(","))
}

/// A ride log, what it teaches, and the two files that are written then.
pub fn ride_log(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let log = source("log.yaml", text);
    let rides = match load::rides(vec![Ok(log)], world()) {
        Ok(rides) => rides,
        Err(faults) => return faults::are_told(&faults, &[("log.yaml", text)]),
    };
    let book = files::book(None, &rides);
    assert_eq!(load::rides(vec![Ok(source("book.yaml", &book))], world()).as_ref(), Ok(&rides), "{book}");
    let learnt = debrief::debrief(world(), &rides, None);
    for failure in &learnt.learnt {
        for reach in [failure.before, failure.after] {
            let order = 0.0 <= reach.low && reach.low <= reach.high && reach.high.is_finite() && reach.mean.is_finite();
            assert!(order, "{failure:?}");
        }
    }
    let shown = terminal::debrief(&learnt, &Look { units: UnitSystem::Metric, width: 80 });
    assert!(!shown.contains("NaN") && !shown.contains("inf"), "{shown}");
    let rates = files::rates(&learnt);
    let known = load::catalogue(&[source("world.yaml", WORLD)], &[source("rates.yaml", &rates)]);
    assert!(known.is_ok(), "{rates}\n{}", known.unwrap_err());
}
