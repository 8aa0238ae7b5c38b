//! The reasons for one item or failure, all of them.

use super::Look;
use super::document::document;
use crate::view::documents;
use fardel_core::answer::WhyAnswer;

/// The whole answer of `why`.
#[must_use]
pub fn why(answer: &WhyAnswer, look: &Look) -> String {
    document(&documents::reasons(answer, look), look)
}
