//! Tables of one look: no frame, two spaces between columns, long cells wrapped in the last column.

use super::Look;
use crate::told::Rows;
use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, Width};
use fardel_words::translated;

/// From this width on tables have columns of fixed widths.
pub(super) const ROOMY: usize = 72;

/// Which way a column is set, and how wide it is if that is fixed.
#[derive(Debug, Clone, Copy)]
pub(super) enum Set {
    Left(Option<u16>),
    Right(Option<u16>),
}

/// Least width of a column that has no width of its own: shorter lines of words are hard to read.
const LEAST_FREE: usize = 22;
/// A column of words that is as wide as this reads well.
const COMFORTABLE: usize = 38;
/// Between two columns.
const GAP: usize = 2;
/// Before the first column.
const INDENT: usize = 2;

/// Rows in columns. Fixed widths make tables with the same columns line up below each other, where there is room.
pub(super) fn table(head: &[&str], set: &[Set], rows: Vec<Vec<String>>, look: &Look) -> String {
    let head: Vec<&str> = head.iter().copied().map(translated).collect();
    let head = head.as_slice();
    let mut table = Table::new();
    table.load_style(comfy_table::presets::NOTHING);
    table.set_content_arrangement(ContentArrangement::Dynamic);
    table.set_width(u16::try_from(look.width).unwrap_or(100));
    if !head.is_empty() {
        table.set_header(head.iter().map(|text| (*text).to_owned()).collect::<Vec<_>>());
    }
    let Some(widths) = widths(head, set, &rows, look) else { return stacked(head, &rows, look) };
    table.add_rows(rows);
    for (at, (set, width)) in set.iter().zip(widths).enumerate() {
        let Some(column) = table.column_mut(at) else { continue };
        let alignment = match set {
            Set::Left(_) => CellAlignment::Left,
            Set::Right(_) => CellAlignment::Right,
        };
        column.set_cell_alignment(alignment);
        column.set_padding((if at == 0 { 2 } else { 0 }, 2));
        if let Ok(width) = u16::try_from(width) {
            column.set_constraint(ColumnConstraint::Absolute(Width::Fixed(width)));
        }
    }
    table.trim_fmt() + "\n"
}

/// Rows with their head, numbers to the right.
pub(crate) fn columns(rows: &Rows, look: &Look) -> String {
    let head: Vec<&str> = rows.head.iter().map(String::as_str).collect();
    let set: Vec<Set> =
        rows.numbers.iter().map(|number| if *number { Set::Right(None) } else { Set::Left(None) }).collect();
    table(&head, &set, rows.rows.clone(), look)
}

/// The width of each column, padding included, so that no word is split as long as the longest words of all columns
/// fit side by side; `None` if they do not. Columns that are wider than the line allows give way down to their longest word, the widest first.
fn widths(head: &[&str], set: &[Set], rows: &[Vec<String>], look: &Look) -> Option<Vec<usize>> {
    let columns = rows.iter().map(Vec::len).chain([head.len()]).max().unwrap_or(0).min(set.len());
    let cells =
        |at: usize| head.get(at).copied().into_iter().chain(rows.iter().filter_map(move |r| Some(r.get(at)?.as_str())));
    let around = |at: usize| GAP + if at == 0 { INDENT } else { 0 };
    let widest = |at: usize, of: fn(&str) -> usize| cells(at).map(of).max().unwrap_or(0) + around(at);
    let least: Vec<usize> = (0..columns).map(|at| widest(at, longest_word)).collect();
    let figures = |at: usize| {
        let cells = rows.iter().filter_map(|row| row.get(at)).map(|cell| display_width(cell));
        (cells.max().unwrap_or(0) + around(at)).max(least[at])
    };
    let whole: Vec<usize> = (0..columns).map(|at| widest(at, display_width)).collect();
    let wished = |at: usize| match set[at] {
        Set::Left(Some(width)) | Set::Right(Some(width)) if look.width >= ROOMY => usize::from(width).max(least[at]),
        Set::Right(_) => whole[at],
        Set::Left(_) => whole[at].max(least[at]),
    };
    let mut own: Vec<usize> = (0..columns).map(wished).collect();
    // A column of words may be narrowed to a readable width, figures stay on one line as long as they can.
    let readable = |at: usize| match set[at] {
        Set::Left(_) => least[at].max(LEAST_FREE.min(whole[at])),
        Set::Right(_) => figures(at),
    };
    // Words first give way to a comfortable width, then heads of figures are broken, then words give way further.
    let eased: Vec<usize> = (0..columns)
        .map(|at| if matches!(set[at], Set::Left(None)) { own[at].min(COMFORTABLE).max(least[at]) } else { own[at] })
        .collect();
    let heads = (0..columns)
        .map(|at| if matches!(set[at], Set::Right(None)) { figures(at).min(own[at]) } else { eased[at] })
        .collect();
    let fixed = |at: usize| matches!(set[at], Set::Left(Some(_)) | Set::Right(Some(_))) && look.width >= ROOMY;
    let first = (0..columns).map(|at| if fixed(at) { own[at] } else { readable(at) }).collect();
    let floors: [Vec<usize>; 5] = [eased, heads, first, (0..columns).map(readable).collect(), least];
    for floor in floors {
        while own.iter().sum::<usize>() > look.width {
            let Some(at) = (0..columns).filter(|at| own[*at] > floor[*at]).max_by_key(|at| own[*at]) else { break };
            own[at] -= 1;
        }
    }
    if own.iter().sum::<usize>() > look.width {
        return None;
    }
    Some(own)
}

/// Rows below each other, a line a cell, where not even the longest words of all columns fit side by side.
fn stacked(head: &[&str], rows: &[Vec<String>], look: &Look) -> String {
    let mut text = String::new();
    for row in rows {
        let mut indent = "  ";
        for (at, cell) in row.iter().enumerate().filter(|(_, cell)| !cell.is_empty()) {
            let title = head.get(at).filter(|title| !title.is_empty() && at > 0);
            let line = title.map_or_else(|| cell.clone(), |title| format!("{title}: {cell}"));
            text += &super::wrapped(&format!("{indent}{line}"), look, "      ");
            indent = "    ";
        }
    }
    text
}

fn display_width(text: &str) -> usize {
    text.lines().map(textwrap::core::display_width).max().unwrap_or(0)
}

fn longest_word(text: &str) -> usize {
    text.split_whitespace().map(textwrap::core::display_width).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::{Set, table};
    use crate::Look;
    use fardel_core::units::UnitSystem;

    fn shown(width: usize) -> String {
        let rows = vec![
            vec![
                "1".into(),
                "licence, registration, insurance, emergency card".into(),
                "110 g".into(),
                "papers for rider and bike".into(),
            ],
            vec![
                "12".into(),
                "pump".into(),
                "1.00 kg".into(),
                "rear tyre punctured; front tyre punctured; 8 more".into(),
            ],
        ];
        let set = [Set::Right(Some(6)), Set::Left(Some(46)), Set::Right(Some(10)), Set::Left(None)];
        table(&[], &set, rows, &Look { units: UnitSystem::Metric, width })
    }

    #[test]
    fn words_stay_whole_at_every_width() {
        let whole: Vec<String> = shown(140).split_whitespace().map(str::to_owned).collect();
        for width in 44..140 {
            let text = shown(width);
            assert!(text.lines().all(|line| line.chars().count() <= width), "{width}:\n{text}");
            assert!(text.split_whitespace().all(|word| whole.iter().any(|known| known == word)), "{width}:\n{text}");
        }
    }
}
