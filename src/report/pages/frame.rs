//! What every page has: its title, the keys that ticks are remembered under, and the hashes that let its own style and
//! script run and nothing else.

use crate::Look;
use crate::script;
use crate::template::render;
use data_encoding::{BASE64, HEXLOWER};
use minijinja::Error;
use serde::Serialize;
use sha2::{Digest, Sha256};

const STYLE: &str = concat!(include_str!("../templates/palette.css"), include_str!("../templates/page.css"));

/// The frame of a page.
#[derive(Serialize)]
pub(crate) struct Page<'a> {
    title: &'a str,
    kind: &'static str,
    style_hash: String,
    script_hash: String,
    program: &'static str,
}

/// A frame.
pub(crate) fn page<'a>(title: &'a str, kind: &'static str) -> Page<'a> {
    Page {
        title,
        kind,
        style_hash: allowed(STYLE),
        script_hash: allowed(&script::page()),
        program: concat!("fardel ", env!("CARGO_PKG_VERSION")),
    }
}

/// A frame whose style goes on with this.
pub(super) fn styled<'a>(title: &'a str, kind: &'static str, more: &str) -> Page<'a> {
    Page { style_hash: allowed(&format!("{STYLE}{more}")), ..page(title, kind) }
}

/// What ticks are remembered under: the scenario and whose they are, so that they outlive a changed plan.
pub(super) fn key(scenario: &str, whose: &str) -> String {
    let mut digest = Sha256::new();
    for part in [scenario, whose] {
        digest.update((part.len() as u64).to_le_bytes());
        digest.update(part);
    }
    HEXLOWER.encode(&digest.finalize()[..8])
}

/// How a Content Security Policy names an inline text that may run.
pub(crate) fn allowed(text: &str) -> String {
    format!("sha256-{}", BASE64.encode(&Sha256::digest(text)))
}

#[derive(Serialize)]
struct Whole<'a, T: Serialize> {
    page: Page<'a>,
    #[serde(flatten)]
    content: T,
}

/// A whole page: the template sees `page` and the fields of the content.
///
/// # Errors
/// [`Error`] where the template asks for what is not there: a defect of the program.
pub(crate) fn whole(template: &str, page: Page<'_>, content: impl Serialize, look: &Look) -> Result<String, Error> {
    render(template, &Whole { page, content }, look)
}

/// A whole page from its title and kind.
///
/// # Errors
/// As [`whole`].
pub(crate) fn framed(
    template: &str,
    (title, kind): (&str, &'static str),
    content: impl Serialize,
    look: &Look,
) -> Result<String, Error> {
    whole(template, page(title, kind), content, look)
}

#[cfg(test)]
mod tests {
    use super::*;
    use fardel_core::units::UnitSystem;

    const LOOK: Look = Look { units: UnitSystem::Metric, width: 80 };

    #[derive(Serialize)]
    struct Nothing {}

    #[test]
    fn names_are_escaped() {
        let title = "<script>alert('1')</script> & \"two\"";
        let page = whole("base.html", page(title, "Kit"), Nothing {}, &LOOK).unwrap();
        assert!(!page.contains("<script>alert"), "{page}");
        assert!(page.contains("&lt;script&gt;alert(&#x27;1&#x27;)&lt;"), "{page}");
    }

    #[test]
    fn style_and_script_stand_in_the_page_as_they_were_hashed() {
        let page = whole("base.html", page("Loop", "Kit"), Nothing {}, &LOOK).unwrap();
        assert!(page.contains(&format!("<style>{STYLE}</style>")));
        assert!(page.contains(&format!("<script>{}</script>", script::page())));
    }

    #[test]
    fn each_rider_of_each_trip_has_ticks_of_their_own() {
        assert_ne!(key("loop", "Aino"), key("loop", "Pekka"));
        assert_ne!(key("loop", "Aino"), key("coast", "Aino"));
        assert_ne!(key("loopA", "ino"), key("loop", "Aino"));
        assert_eq!(key("loop", "Aino"), key("loop", "Aino"));
    }
}
