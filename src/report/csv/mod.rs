//! Answers for a spreadsheet: one heading, then a flat row for each thing. Amounts stand in the unit that their column
//! names; cells that do not apply are empty.
//!
//! A spreadsheet takes a cell that opens with `=`, `+`, `-` or `@` for a formula and runs it. Names come from files that
//! others may have written, so such a text gets an apostrophe in front, which spreadsheets read as "this is text".

mod class;
mod kit;
mod rehearsal;
mod season;
mod tradeoff;
mod trim;

pub use class::{class, class_member};
pub use kit::{card, pack, split};
pub use rehearsal::rehearsal;
pub use season::season;
pub use tradeoff::tradeoff;
pub use trim::trim;

use csv::Error;

/// Rows being written into memory.
type Csv = csv::Writer<Vec<u8>>;

/// A text from a file, harmless for a spreadsheet; line breaks become spaces, so that a row stays on a line.
fn plain(name: &str) -> String {
    let name: String = name.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    let name = name.trim();
    if name.starts_with(['=', '+', '-', '@']) { format!("'{name}") } else { name.to_owned() }
}

/// Several texts in one cell.
fn several(names: &[String]) -> String {
    plain(&names.join("; "))
}

/// Rows under a heading.
fn table(head: &[&str], rows: impl IntoIterator<Item = Vec<String>>) -> Result<String, Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(head)?;
    rows.into_iter().try_for_each(|row| writer.write_record(row))?;
    text(writer)
}

fn text(writer: Csv) -> Result<String, Error> {
    let bytes = writer.into_inner().map_err(|error| Error::from(error.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_become_text() {
        for name in ["=1+1", "+1", "-1", "@sum", "\t=1", " =1", "\r\n=cmd"] {
            assert!(plain(name).starts_with('\''), "{name:?}: {}", plain(name));
        }
        assert_eq!(plain("pump, 2 L"), "pump, 2 L");
        assert_eq!(plain("two\nlines"), "two lines");
    }

    #[test]
    fn what_separates_cells_is_quoted() {
        let told = table(&["id", "name"], [vec!["a".to_owned(), "big, \"red\"".to_owned()]]).unwrap();
        assert_eq!(told, "id,name\na,\"big, \"\"red\"\"\"\n");
    }
}
