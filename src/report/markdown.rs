//! Answers as Markdown, for notes and shared plans: a template over the view, with its figures. Every value is escaped
//! (`template`), so that no name of a file becomes a heading, a link, a row or a tag.

use crate::Look;
use crate::json;
use crate::template::render;
use crate::view::documents;
use fardel_core::answer::split::{Card, SplitAnswer};
use fardel_core::answer::{CardAnswer, PackAnswer, RehearseAnswer, TradeoffAnswer, TrimAnswer, WhyAnswer};
use minijinja::Error;

/// The plan, with boxes to tick.
///
/// # Errors
/// [`Error`] where a template asks for what its document does not hold: a defect of the program.
pub fn pack(answer: &PackAnswer, look: &Look) -> Result<String, Error> {
    render("document.md", &documents::pack(answer, look), look)
}

/// A group's plan.
///
/// # Errors
/// As [`pack`].
pub fn split(answer: &SplitAnswer, look: &Look) -> Result<String, Error> {
    render("document.md", &documents::group(answer, look), look)
}

/// One rider's part of it.
///
/// # Errors
/// As [`pack`].
pub fn rider(answer: &SplitAnswer, card: &Card, look: &Look) -> Result<String, Error> {
    render("document.md", &documents::rider(answer, card, look), look)
}

/// What to leave at home.
///
/// # Errors
/// As [`pack`].
pub fn trim(answer: &TrimAnswer, look: &Look) -> Result<String, Error> {
    render("document.md", &documents::trimmed(answer, look), look)
}

/// What more would buy.
///
/// # Errors
/// As [`pack`].
pub fn tradeoff(answer: &TradeoffAnswer, look: &Look) -> Result<String, Error> {
    render("document.md", &documents::curve(answer, look), look)
}

/// Reasons for one item or failure.
///
/// # Errors
/// As [`pack`].
pub fn why(answer: &WhyAnswer, look: &Look) -> Result<String, Error> {
    render("document.md", &documents::reasons(answer, look), look)
}

/// What happened on the trips.
///
/// # Errors
/// As [`pack`].
pub fn rehearsal(answer: &RehearseAnswer, look: &Look) -> Result<String, Error> {
    render("document.md", &documents::rehearsed(answer, look), look)
}

/// The card for the pocket.
///
/// # Errors
/// As [`pack`].
pub fn card(answer: &CardAnswer, look: &Look) -> Result<String, Error> {
    render("card.md", &json::headed("card", answer), look)
}
