//! The field card as a booklet: a leaf for each failure.

use super::PageError;
use super::frame::allowed;
use crate::answer::CardAnswer;
use crate::report::Look;
use crate::report::json::card_document;
use crate::report::template::render;
use serde::Serialize;

const STYLE: &str = include_str!("../templates/card.css");

#[derive(Serialize)]
struct Booklet<C: Serialize> {
    style_hash: String,
    card: C,
}

/// The whole booklet.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn booklet(answer: &CardAnswer, look: &Look) -> Result<String, PageError> {
    render("card.html", &Booklet { style_hash: allowed(STYLE), card: card_document(answer) }, look)
}
