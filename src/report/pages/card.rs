//! The field card as a booklet: a leaf for each failure.

use super::PageError;
use super::frame::allowed;
use crate::Look;
use crate::json::headed;
use crate::template::render;
use fardel_core::answer::CardAnswer;
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
    render("card.html", &Booklet { style_hash: allowed(STYLE), card: headed("card", answer) }, look)
}
