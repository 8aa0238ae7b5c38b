//! The trip goes somewhere, and its nights agree with its style.

use crate::diagnostic::Code;
use crate::domain::{Leg, Style, Surface, Trip};
use crate::load::findings::{Findings, Place};
use fardel_words::{say, several};

/// The lowest shore and the highest roads that lead anywhere, in metres.
const HEIGHTS: std::ops::RangeInclusive<f64> = -450.0..=6000.0;

/// Most legs; a trip that changes more often is several trips.
const MOST_LEGS: usize = 100;

/// Checks the legs.
pub(super) fn check(trip: &Trip, place: &Place, findings: &mut Findings) {
    let legs = place.key("legs");
    let style_known = findings.sound(place, &["style"]) && !findings.is_spoilt(place);
    if trip.legs.is_empty() && findings.sound(place, &["legs"]) && !findings.is_spoilt_below(place) {
        findings.add(Code::NothingThere, &legs, say!("no legs"), say!("at least one leg"), None);
    }
    if trip.legs.len() > MOST_LEGS {
        let expected = say!("at most {MOST_LEGS} legs");
        findings.add(Code::TooLarge, &legs, several!(trip.legs.len(), "{n} leg", "{n} legs"), expected, None);
        return;
    }
    for (at, leg) in trip.legs.iter().enumerate() {
        let place = legs.index(at);
        let told = findings.is_spoilt_below(&place.key("days")) || findings.is_spoilt_below(&place.key("km"));
        if leg.days == 0.0 && distance(leg) == 0.0 && !told {
            let expected = say!("a leg with days or kilometres");
            findings.add(Code::NothingThere, &place, say!("0 days and 0 km"), expected, None);
        }
        if !HEIGHTS.contains(&leg.altitude.metres()) && findings.sound(&place, &["altitude"]) {
            let expected = say!("a height of roads and camps, from -450 m to 6000 m");
            findings.add(
                Code::OutOfRange,
                &place.key("altitude"),
                say!("{:.0} m", leg.altitude.metres()),
                expected,
                None,
            );
        }
        if trip.style == Style::None && leg.nights > 0 && style_known {
            nights(leg, &place, findings);
        }
    }
}

fn nights(leg: &Leg, place: &Place, findings: &mut Findings) {
    let found = say!("{} with `style: none`", several!(leg.nights as usize, "{n} night", "{n} nights"));
    let expected = say!("no nights, or the style `roofed` or `camping`");
    findings.add(Code::Contradiction, &place.key("nights"), found, expected, None);
}

fn distance(leg: &Leg) -> f64 {
    Surface::ALL.iter().map(|surface| leg.km.on(*surface).km()).sum()
}
