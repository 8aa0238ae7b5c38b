//! What is set on the bike for this load before leaving, in words.

use crate::Look;
use crate::told::Rows;
use crate::words::sentence;
use fardel_core::answer::setup::{Beam, Cold, Preload, PressureBy, Setup, WheelSetup};
use fardel_core::units::{Length, Pressure, Quantity, UnitSystem};
use fardel_words::{mark, say, translated, word};

/// The title of the part.
pub(crate) const TITLE: &str = mark!("Set for this load before you leave");

/// What comes first.
pub(crate) const LEGEND: &str = mark!(
    "The owner's manual, the plate on the bike and the sidewall come first. What says \
common practice has no source. Tyres are set cold, and pumped up again before the sealed road: less air carries less \
and runs hot."
);

/// Below this many kilopascals tubes pinch on stones and tyres creep (second-hand, weak).
const SOFT_KPA: f64 = 150.0;

/// What is set, as a table and lines.
pub(crate) struct Told {
    /// Pressures by surface.
    pub rows: Rows,
    pub notes: Vec<String>,
    /// The pressures to leave with, in few words.
    pub short: String,
}

/// A setup in words.
pub(crate) fn told(setup: &Setup, look: &Look) -> Told {
    let both = || setup.front.cold.iter().zip(&setup.rear.cold);
    let row = |(front, rear): (&Cold, &Cold)| {
        vec![sentence(front.surface), pressure(front, look), pressure(rear, look), by(front.by, rear.by)]
    };
    let soft = both().any(|(front, rear)| front.pressure_kpa.min(rear.pressure_kpa) < SOFT_KPA);
    let mut notes = Vec::new();
    if soft {
        let limit = show(SOFT_KPA, look);
        notes.push(say!(
            "Below about {limit} tubes pinch on stones and tyres creep on the rim: rim locks, and ride slower."
        ));
    }
    notes.extend([sag(setup, look), preload(setup, look), headlamp(setup.beam).to_owned()]);
    let short = both().next().map_or_else(String::new, |(front, rear)| {
        say!("front {}, rear {} on {}", show(front.pressure_kpa, look), show(rear.pressure_kpa, look), ground(front))
    });
    let head = [word!("Surface"), "#front tyre, cold", "#rear tyre, cold", word!("by")];
    Told { rows: Rows::new(&head, both().map(row).collect()), notes, short }
}

fn ground(cold: &Cold) -> String {
    match cold.surface {
        "sealed" => say!("sealed roads"),
        "rough" => say!("rough ground"),
        other => translated(other).to_owned(),
    }
}

/// `165 kPa (24 psi), 150 to 180`: what to begin with, and the range.
fn pressure(cold: &Cold, look: &Look) -> String {
    let begin = match look.units {
        UnitSystem::Metric => {
            say!("{} ({:.0} psi)", show(cold.pressure_kpa, look), Pressure::new(cold.pressure_kpa).psi())
        }
        UnitSystem::Imperial => show(cold.pressure_kpa, look),
    };
    if cold.to_kpa - cold.from_kpa < 1.0 {
        return begin;
    }
    let bare = |kpa: f64| show(kpa, look).split(' ').next().unwrap_or_default().to_owned();
    say!("{begin}, {} to {}", bare(cold.from_kpa), bare(cold.to_kpa))
}

fn show(kpa: f64, look: &Look) -> String {
    look.show(Pressure::new(kpa))
}

fn by(front: PressureBy, rear: PressureBy) -> String {
    let word = |by| match by {
        PressureBy::BikesEntry => word!("the bike's entry"),
        PressureBy::CommonPractice => word!("common practice"),
        PressureBy::TooLoadedToLetDown => word!("too loaded to let down"),
    };
    if front == rear { word(front).to_owned() } else { say!("front: {}; rear: {}", word(front), word(rear)) }
}

fn sag(setup: &Setup, look: &Look) -> String {
    let of = |wheel: &WheelSetup, name: &str| {
        let length = |mm: f64| look.show(Length::from_base(mm * 1000.0));
        Some(say!("{name} {} of {}", length(wheel.sag_mm?), length(wheel.travel_mm?)))
    };
    let lengths: Vec<String> =
        [of(&setup.front, word!("front")), of(&setup.rear, word!("rear"))].into_iter().flatten().collect();
    let lengths = if lengths.is_empty() { String::new() } else { format!(": {}", lengths.join(", ")) };
    say!("Sag with you in your gear and the bags on: about a third of the travel{lengths} (common practice).")
}

fn preload(setup: &Setup, look: &Look) -> String {
    let added = |wheel: &WheelSetup| super::load::weight(wheel.more_kg, look);
    let adds =
        say!("Bags and kit add {} at the front wheel and {} at the rear", added(&setup.front), added(&setup.rear));
    let more = match (setup.front.preload, setup.rear.preload) {
        (Preload::AsItIs, Preload::AsItIs) => return say!("{adds}: preload as for you alone."),
        (Preload::More, Preload::More) => word!("more preload at both ends"),
        (Preload::More, Preload::AsItIs) => word!("more preload in front"),
        (Preload::AsItIs, Preload::More) => word!("more preload at the rear, the front as it is"),
    };
    say!("{adds}: {more}, until the sag is back. If there is not enough of it, the springs are too soft for this load.")
}

fn headlamp(beam: Beam) -> &'static str {
    match beam {
        Beam::Higher => {
            word!(
                "The rear sinks more than the front, so the headlamp points higher: aim it last, on level ground with you and \
             the load on, about 5 cm down at 5 m (common practice), or as manual and law say."
            )
        }
        Beam::Lower => {
            word!(
                "The front sinks more than the rear, so the headlamp points lower: aim it last, on level ground with you and \
             the load on, about 5 cm down at 5 m (common practice), or as manual and law say."
            )
        }
        Beam::AsItIs => {
            word!(
                "The headlamp hardly moves with this load: check it all the same, on level ground with you on the bike."
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Look = Look { units: UnitSystem::Metric, width: 80 };

    fn wheel(more_kg: f64, preload: Preload) -> WheelSetup {
        let (pressure_kpa, from_kpa, to_kpa) = (145.0, 135.0, 160.0);
        let cold = Cold { surface: "gravel", pressure_kpa, from_kpa, to_kpa, by: PressureBy::CommonPractice };
        WheelSetup {
            tyre_used: Some(0.5),
            cold: vec![cold],
            travel_mm: Some(300.0),
            sag_mm: Some(100.0),
            more_kg,
            preload,
        }
    }

    #[test]
    fn what_is_set_says_that_it_is_common_practice() {
        let (front, rear) = (wheel(1.0, Preload::AsItIs), wheel(20.0, Preload::More));
        let told = told(&Setup { front, rear, beam: Beam::Higher }, &METRIC);
        assert_eq!(
            told.rows.rows[0],
            ["Gravel", "145 kPa (21 psi), 135 to 160", "145 kPa (21 psi), 135 to 160", "common practice"]
        );
        let text = told.notes.join(" ");
        for part in ["rim locks", "100 mm of 300 mm", "more preload at the rear", "points higher", "manual and law"] {
            assert!(text.contains(part), "{part}: {text}");
        }
        assert_eq!(told.short, "front 145 kPa, rear 145 kPa on gravel");
    }
}
