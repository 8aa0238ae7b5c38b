//! What can hurt people, said with every answer.

pub use fardel_core::answer::{cautions, on_the_card};
