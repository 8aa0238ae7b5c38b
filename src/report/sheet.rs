//! The sheet of a bike for a browser or a printer, for notes, and for a spreadsheet.

use crate::Look;
use crate::pages::style_hash;
use crate::template::render;
use crate::terminal::{HOW, jobs};
use csv::WriterBuilder;
use fardel_core::sheet::Sheet;
use fardel_words::{plain, word};
use serde::Serialize;

const STYLE: &str = concat!(include_str!("templates/palette.css"), include_str!("templates/sheet.css"));

#[derive(Serialize)]
struct Page<'a> {
    style_hash: String,
    how: &'static str,
    name: &'a str,
    bike: &'a str,
    checked: bool,
    parts: Vec<Part<'a>>,
}

#[derive(Serialize)]
struct Part<'a> {
    title: &'a str,
    lines: Vec<Line<'a>>,
}

#[derive(Serialize)]
struct Line<'a> {
    what: &'a str,
    jobs: String,
    value: &'a str,
    /// Empty where no kit was given.
    turned: &'static str,
}

fn page(sheet: &Sheet) -> Page<'_> {
    let line = |own: &'_ fardel_core::sheet::Line| match own.turned {
        Some(true) => word!("yes"),
        Some(false) => word!("no"),
        None => "",
    };
    let parts = sheet.parts.iter().map(|part| Part {
        title: part.title,
        lines: part
            .lines
            .iter()
            .map(|own| Line { what: &own.what, jobs: jobs(own), value: &own.value, turned: line(own) })
            .collect(),
    });
    Page {
        style_hash: style_hash(STYLE),
        how: plain(HOW),
        name: &sheet.name,
        bike: &sheet.bike,
        checked: sheet.fasteners() > 0,
        parts: parts.collect(),
    }
}

/// As a page to print.
///
/// # Errors
/// Where the template asks for what is not there: a defect of the program.
pub fn html(sheet: &Sheet, look: &Look) -> Result<String, String> {
    render("sheet.html", &page(sheet), look).map_err(|error| error.to_string())
}

/// As Markdown.
///
/// # Errors
/// As [`html`].
pub fn markdown(sheet: &Sheet, look: &Look) -> Result<String, String> {
    render("sheet.md", &page(sheet), look).map_err(|error| error.to_string())
}

/// As a spreadsheet to fill in; the column `yours` is read back.
///
/// # Errors
/// Never in practice: every sheet can be written.
pub fn csv(sheet: &Sheet) -> Result<String, String> {
    let mut writer = WriterBuilder::new().from_writer(Vec::new());
    let mut row = |cells: [&str; 5]| writer.write_record(cells).map_err(|error| error.to_string());
    row(["key", "what", "needed for", "catalogue", "yours"])?;
    for line in sheet.parts.iter().flat_map(|part| &part.lines) {
        row([&line.key, &line.what, &jobs(line), &line.value, ""])?;
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}
