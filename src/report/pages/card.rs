//! The field card: a leaf for each failure, folded on a telephone, a booklet on paper.

use super::PageError;
use super::frame::{key, styled, whole};
use crate::Look;
use crate::json::headed;
use crate::script;
use fardel_core::answer::CardAnswer;
use fardel_words::word;
use serde::Serialize;

#[derive(Serialize)]
struct Booklet<C: Serialize> {
    /// What the ticks are remembered under: those of the kit's page.
    key: String,
    card: C,
}

/// The whole booklet.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn booklet(answer: &CardAnswer, look: &Look) -> Result<String, PageError> {
    let key = key(&answer.trip.scenario, &answer.trip.rider);
    let frame = styled(&answer.trip.scenario, word!("Field card"), &script::card_style());
    whole("card.html", frame, Booklet { key, card: headed("card", answer) }, look)
}
