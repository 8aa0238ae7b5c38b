//! A question to riders, and how its id says what it is about.

use crate::domain::{BySurface, Surface};

/// A question to riders.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// What it is about; its id follows from that.
    pub about: About,
    /// The question.
    pub text: String,
    /// Unit of the answer.
    pub unit: &'static str,
}

/// What a question is about.
#[derive(Debug, Clone, PartialEq)]
pub enum About {
    /// A published count, by its id in [`CALIBRATION`](super::calibration::CALIBRATION).
    Known(&'static str),
    /// Falls in 10,000 km on a surface.
    Falls(Surface),
    /// By how many per cent a kit of a tenth of the bike's mass makes falls more frequent.
    LoadSensitivity,
    /// Minutes that a fall costs before anything is broken.
    HoursPerFall,
    /// Occurrences of a failure in so much riding.
    Rate(String, Riding),
    /// Minutes that a repair takes: failure and repair.
    Time(String, String),
    /// Per cent that a repair restores.
    Restores(String, String),
    /// Per cent of a stop that limping with a failure costs.
    Limps(String),
}

/// How much riding a question is about, in whole kilometres and days, so that its id can say it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Riding {
    /// Kilometres by surface, from sealed to rough.
    pub km: [u32; 4],
    /// Days.
    pub days: u32,
}

/// Kilometres that a rate is asked for.
pub const KILOMETRES: f64 = 20_000.0;
/// Kilometres that falls are asked for.
pub const FALLS_KILOMETRES: f64 = 10_000.0;

impl Riding {
    /// The same mixture as on a trip, brought to [`KILOMETRES`]; days in proportion.
    #[must_use]
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and 10^9 after the clamp")]
    pub fn like(km: BySurface<f64>, days: f64) -> Self {
        let all: f64 = km.iter().map(|(_, km)| km).sum();
        let whole = |value: f64| if value.is_finite() { value.round().clamp(0.0, 1e9) as u32 } else { 0 };
        let scale = if all > 0.0 { KILOMETRES / all } else { 0.0 };
        Self { km: [0, 1, 2, 3].map(|at| whole(km.on(Surface::ALL[at]) * scale)), days: whole(days * scale).max(1) }
    }

    /// Kilometres by surface.
    #[must_use]
    pub fn by_surface(&self) -> BySurface<f64> {
        BySurface::new(self.km.map(f64::from))
    }

    fn id(self) -> String {
        let [sealed, gravel, track, rough] = self.km;
        format!("{sealed}-{gravel}-{track}-{rough}-{}", self.days)
    }

    fn read(text: &str) -> Option<Self> {
        let numbers: Vec<u32> = text.split('-').map(|part| part.parse().ok()).collect::<Option<_>>()?;
        let [sealed, gravel, track, rough, days] = numbers[..] else { return None };
        Some(Self { km: [sealed, gravel, track, rough], days })
    }
}

impl About {
    /// The id that stands in the files.
    #[must_use]
    pub fn id(&self) -> String {
        match self {
            Self::Known(id) => (*id).to_owned(),
            Self::Falls(surface) => format!("falls:{}", surface.word()),
            Self::LoadSensitivity => "load-sensitivity".to_owned(),
            Self::HoursPerFall => "hours-per-fall".to_owned(),
            Self::Rate(failure, riding) => format!("rate:{failure}:{}", riding.id()),
            Self::Time(failure, repair) => format!("time:{failure}:{repair}"),
            Self::Restores(failure, repair) => format!("restores:{failure}:{repair}"),
            Self::Limps(failure) => format!("limps:{failure}"),
        }
    }

    /// What an id says; names are not looked up.
    #[must_use]
    pub fn read(id: &str) -> Option<Self> {
        let known = super::calibration::CALIBRATION.iter().find(|known| known.id == id);
        if let Some(known) = known {
            return Some(Self::Known(known.id));
        }
        let parts: Vec<&str> = id.split(':').collect();
        Some(match parts[..] {
            ["falls", surface] => Self::Falls(Surface::from_word(surface)?),
            ["load-sensitivity"] => Self::LoadSensitivity,
            ["hours-per-fall"] => Self::HoursPerFall,
            ["rate", failure, riding] => Self::Rate(failure.to_owned(), Riding::read(riding)?),
            ["time", failure, repair] => Self::Time(failure.to_owned(), repair.to_owned()),
            ["restores", failure, repair] => Self::Restores(failure.to_owned(), repair.to_owned()),
            ["limps", failure] => Self::Limps(failure.to_owned()),
            _ => return None,
        })
    }

    /// The least and the most that an answer can be.
    #[must_use]
    pub const fn bounds(&self) -> (f64, f64) {
        match self {
            Self::Restores(..) | Self::Limps(_) => (0.0, 100.0),
            Self::Time(..) | Self::HoursPerFall => (0.0, 10_000.0),
            Self::LoadSensitivity => (0.0, 1000.0),
            Self::Known(_) | Self::Falls(_) | Self::Rate(..) => (0.0, 1e6),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_come_back() {
        let riding = Riding::like(BySurface::new([400.0, 350.0, 200.0, 50.0]), 5.0);
        assert_eq!(riding, Riding { km: [8000, 7000, 4000, 1000], days: 100 });
        for about in [
            About::Known("log-3"),
            About::Falls(Surface::Track),
            About::LoadSensitivity,
            About::HoursPerFall,
            About::Rate("chain-broken".to_owned(), riding),
            About::Time("a".to_owned(), "b".to_owned()),
            About::Restores("a".to_owned(), "b".to_owned()),
            About::Limps("a".to_owned()),
        ] {
            assert_eq!(About::read(&about.id()), Some(about));
        }
        for id in ["", "falls:mud", "rate:a:1-2-3", "rate:a:1-2-3-4--5", "log-99", "time:a"] {
            assert_eq!(About::read(id), None, "{id}");
        }
    }
}
