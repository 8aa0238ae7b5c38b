//! What can hurt people, said with every answer.

pub use fardel_core::answer::cautions;
