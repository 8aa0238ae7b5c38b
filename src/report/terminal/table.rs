//! Tables of one look: no frame, two spaces between columns, long cells wrapped in the last column.

use super::Look;
use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, Width};

/// From this width on tables have columns of fixed widths.
pub(super) const ROOMY: usize = 72;

/// Which way a column is set, and how wide it is if that is fixed.
#[derive(Debug, Clone, Copy)]
pub(super) enum Set {
    Left(Option<u16>),
    Right(Option<u16>),
}

/// Rows in columns. Fixed widths make tables with the same columns line up below each other.
pub(super) fn table(head: &[&str], set: &[Set], rows: Vec<Vec<String>>, look: &Look) -> String {
    let mut table = Table::new();
    table.load_style(comfy_table::presets::NOTHING);
    table.set_content_arrangement(ContentArrangement::Dynamic);
    table.force_no_tty();
    table.set_width(u16::try_from(look.width).unwrap_or(100));
    if !head.is_empty() {
        table.set_header(head.iter().map(|text| (*text).to_owned()).collect::<Vec<_>>());
    }
    table.add_rows(rows);
    for (at, set) in set.iter().enumerate() {
        let Some(column) = table.column_mut(at) else { continue };
        let (alignment, width) = match set {
            Set::Left(width) => (CellAlignment::Left, width),
            Set::Right(width) => (CellAlignment::Right, width),
        };
        column.set_cell_alignment(alignment);
        column.set_padding((if at == 0 { 2 } else { 0 }, 2));
        // On a telephone there is no room to line tables up with each other.
        if let Some(width) = width.filter(|_| look.width >= ROOMY) {
            column.set_constraint(ColumnConstraint::Absolute(Width::Fixed(width)));
        }
    }
    table.trim_fmt() + "\n"
}
