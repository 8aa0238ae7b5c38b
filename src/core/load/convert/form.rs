//! Filling in a form: required keys, with the missing ones told once.

use crate::diagnostic::Code;
use crate::domain::{Basis, BasisKind, BySurface};
use crate::load::file::Surfaces;
use crate::load::findings::{Findings, Place};

/// An entry being converted.
pub(super) struct Form<'a> {
    pub findings: &'a mut Findings,
    pub place: Place,
    /// Something it inherits from is broken, so what is missing may not be its own fault.
    pub lenient: bool,
}

impl<'a> Form<'a> {
    /// For an entry that stands on its own.
    pub fn new(findings: &'a mut Findings, place: Place) -> Self {
        Self { findings, place, lenient: false }
    }
    /// The value, or a stand-in after telling that it is missing.
    pub fn need<T>(&mut self, key: &str, value: Option<T>, stand_in: T) -> T {
        value.unwrap_or_else(|| {
            self.missing(key);
            stand_in
        })
    }
    /// The value, or nothing at all after telling that it is missing.
    pub fn need_any<T: Default>(&mut self, key: &str, value: Option<T>) -> T {
        self.need(key, value, T::default())
    }
    /// A value for each surface, all of which are needed.
    pub fn every_surface<T: Copy + Default>(&mut self, values: Surfaces<T>) -> BySurface<T> {
        BySurface::new([
            self.need_any("sealed", values.sealed),
            self.need_any("gravel", values.gravel),
            self.need_any("track", values.track),
            self.need_any("rough", values.rough),
        ])
    }
    /// The basis, which every number must have.
    pub fn basis(&mut self, value: Option<Basis>) -> Basis {
        self.need("basis", value, Basis { kind: BasisKind::FromMemory, note: String::new() })
    }
    /// A name, which must not be empty.
    pub fn name(&mut self, value: Option<String>) -> String {
        self.text("name", value)
    }
    /// A short name, which must not be empty either; the name where there is none.
    pub fn short(&mut self, value: Option<String>, name: &str) -> String {
        if value.is_some() { self.text("short", value) } else { name.to_owned() }
    }
    /// A text, which must not be empty.
    pub fn text(&mut self, key: &str, value: Option<String>) -> String {
        self.need_any(key, value.map(|text| shown(&text)).filter(|text| !text.is_empty()))
    }
    fn missing(&mut self, key: &str) {
        self.missing_as(key, &format!("no `{key}`"), &format!("a line such as `{key}: {}`", example(key)));
    }
    /// Tells in these words that a key is missing.
    pub fn missing_as(&mut self, key: &str, found: &str, expected: &str) {
        let at = self.place.key(key);
        if !self.lenient && !self.findings.is_spoilt(&at) && !self.findings.is_spoilt(&self.place) {
            self.findings.add(Code::MissingKey, &self.place, found.to_owned(), expected.to_owned(), None);
        }
        self.findings.spoil(&at);
    }
}

/// A text of the catalogue as it is shown: in the language that is spoken, where the text is one of those shipped.
pub(super) fn shown(text: &str) -> String {
    fardel_words::catalogue(text.trim()).to_owned()
}

/// An accepted value, by key.
fn example(key: &str) -> &'static str {
    match key {
        "name" | "short" => "patch kit",
        "kind" => "tool",
        "unit" => "patch",
        "rule" => "water",
        "basis" => "from memory",
        "price" => "12 USD",
        "in" => "EUR",
        "day" => "2026-11-20",
        "volume" | "tank" => "1.2 L",
        "wheelbase" | "longest" | "rider_x" | "passenger_x" | "ahead" | "out" | "height" => "420 mm",
        "mass" => "350 g",
        "max_mass" => "330 kg",
        "max_load" => "8 kg",
        "time" | "nags_hours" | "hours_per_fall" => "30 min",
        "hours_to_help" => "14 h",
        "lowest" | "highest" => "4 °C",
        "days" | "sealed" | "gravel" | "track" | "rough" => "1",
        "family" => "memory",
        "blind" => "small repairs",
        "failures" => "[chain-broken]",
        "bikes" => "[single-450-tubed]",
        "mix" => "{ sealed: 0.7, gravel: 0.3, track: 0, rough: 0 }",
        "km_per_day" => "250",
        "front_load_index" | "rear_load_index" => "60",
        "front_share" | "packing" | "restores" | "limps_share" | "worth_events" => "0.5",
        "access" => "quick",
        "side" => "left",
        "weatherproof" => "true",
        "outcome" => "stops",
        "grade" => "field",
        "skill" | "repair_skill" => "handy",
        "riding_skill" => "intermediate",
        "style" => "camping",
        "type" => "check",
        "look" => "Tread above the wear bars, no cuts or bulges.",
        "stop" => "Cords show.",
        "defer" => "pressures",
        _ => "...",
    }
}
