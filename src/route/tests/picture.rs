//! The picture as text: sound XML, nothing small, nothing told by colour alone.

use crate::world::valley;
use fardel_route::picture::svg;
use fardel_route::survey::Wishes;
use quick_xml::events::Event;
use quick_xml::reader::Reader;
use std::collections::BTreeSet;

#[test]
fn a_picture_is_sound_legible_and_needs_no_colour() {
    let (world, track) = valley(45.0, 7.0);
    let (survey, legs) = world.survey(&track, &Wishes { days: Some(3), ..Wishes::default() });
    let text = svg(&survey, &legs, "A <ride> & \"more\" \u{1}");
    let mut reader = Reader::from_str(&text);
    let mut looks: BTreeSet<(String, String)> = BTreeSet::new();
    loop {
        match reader.read_event().unwrap() {
            Event::Eof => break,
            Event::Start(tag) | Event::Empty(tag) => {
                let get = |name: &str| tag.try_get_attribute(name).unwrap().map(|found| found.value.to_string());
                if tag.name().as_ref() == "text" {
                    assert!(get("font-size").unwrap().parse::<f64>().unwrap() >= 12.0);
                }
                if tag.name().as_ref() == "polyline" && get("stroke-width").is_some_and(|width| width == "4.5") {
                    looks.insert((get("stroke-dasharray").unwrap_or_default(), get("stroke").unwrap()));
                }
                for number in ["x", "y", "points"].into_iter().filter_map(get) {
                    assert!(!number.contains("NaN") && !number.contains("inf"), "{number}");
                }
            }
            _ => {}
        }
    }
    // Sealed, gravel and track are there: three patterns for three colours.
    let patterns: BTreeSet<&String> = looks.iter().map(|(pattern, _)| pattern).collect();
    assert_eq!((looks.len(), patterns.len()), (3, 3), "{looks:?}");
    for word in ["OpenStreetMap", "sealed", "gravel", "track", "hours to help", "A plan, not a promise", "longest"] {
        assert!(text.contains(word), "{word}");
    }
}

#[test]
fn a_picture_without_a_map_promises_nothing() {
    let (_, track) = valley(45.0, 7.0);
    let none: Option<(&str, std::io::Cursor<Vec<u8>>)> = None;
    let wishes = Wishes { days: Some(2), ..Wishes::default() };
    let survey = fardel_route::survey::survey("a.gpx", &track, none, &wishes).unwrap();
    let text = svg(&survey, &fardel_route::draft::legs(&survey, &wishes), "x");
    assert!(!text.contains("OpenStreetMap") && !text.contains("hours to help") && text.contains("no map tells"));
}

/// Every colour of a line, an area or a letter has one for dark screens, and so both grounds carry the same picture.
#[test]
fn every_colour_has_its_dark_one() {
    let (world, track) = valley(45.0, 7.0);
    let (survey, legs) = world.survey(&track, &Wishes { days: Some(3), ..Wishes::default() });
    let text = svg(&survey, &legs, "x");
    let (style, drawn) = text.split_once("</style>").unwrap();
    let mut used = 0;
    for part in ["fill=\"#", "stroke=\"#"] {
        for colour in drawn.split(part).skip(1).filter_map(|rest| rest.split('"').next()) {
            assert!(style.contains(&format!("[{part}{colour}\"] {{")), "{part}{colour}");
            used += 1;
        }
    }
    assert!(used > 50 && style.contains("prefers-color-scheme: dark"));
}
