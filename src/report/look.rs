//! How answers are shown, whatever the form.

use fardel_core::units::{Show, UnitSystem};

/// How to show an answer.
#[derive(Debug, Clone, Copy)]
pub struct Look {
    /// Metric or imperial.
    pub units: UnitSystem,
    /// Columns of the terminal.
    pub width: usize,
}

impl Look {
    #[allow(clippy::needless_pass_by_value, reason = "quantities are numbers")]
    pub(crate) fn show(&self, quantity: impl Show) -> String {
        quantity.show(self.units)
    }
}
