//! The questionnaire: a page to fill in without a network, and a spreadsheet.

use crate::Look;
use crate::pages::style_hash;
use crate::script;
use crate::template::render;
use csv::WriterBuilder;
use fardel_core::elicit::Question;
use fardel_core::elicit::answers::COLUMNS;
use fardel_words::{mark, plain};
use serde::Serialize;

const STYLE: &str = concat!(include_str!("templates/palette.css"), include_str!("templates/ask.css"));

/// How to answer; the same in every shape.
pub(crate) const HOW: [&str; 6] = [
    mark!(
        "Answer alone, before you talk to the others; afterwards compare, talk about what differs, and answer anew, each alone."
    ),
    mark!("For each question first the lowest value that you could believe, then the highest, then your best guess."),
    mark!("Last, how sure you are that the truth lies between lowest and highest: 50 to 100 per cent."),
    mark!(
        "Be honest rather than narrow: an interval of which you are 80 per cent sure should miss the truth in one case of five."
    ),
    mark!("The first questions have known answers. Do not look them up: they show how much to trust your intervals."),
    mark!("Leave a question open if you would only be guessing."),
];

#[derive(Serialize)]
struct Page<'a> {
    style_hash: String,
    script_hash: String,
    title: &'a str,
    how: [&'static str; 6],
    questions: Vec<Asked<'a>>,
}

#[derive(Serialize)]
struct Asked<'a> {
    id: String,
    text: &'a str,
    unit: &'static str,
}

fn asked(questions: &[Question]) -> Vec<Asked<'_>> {
    questions.iter().map(|own| Asked { id: own.about.id(), text: &own.text, unit: own.unit }).collect()
}

/// As a page whose answers are saved as a spreadsheet.
///
/// # Errors
/// Where the template asks for what is not there: a defect of the program.
pub fn html(title: &str, questions: &[Question], look: &Look) -> Result<String, String> {
    let page = Page {
        style_hash: style_hash(STYLE),
        script_hash: style_hash(&script::ask()),
        title,
        how: HOW.map(plain),
        questions: asked(questions),
    };
    render("ask.html", &page, look).map_err(|error| error.to_string())
}

/// As a spreadsheet to fill in.
///
/// # Errors
/// Never in practice: every question can be written.
pub fn csv(questions: &[Question]) -> Result<String, String> {
    let mut writer = WriterBuilder::new().from_writer(Vec::new());
    let [id, lowest, highest, best, confidence] = COLUMNS;
    let mut row = |cells: [&str; 7]| writer.write_record(cells).map_err(|error| error.to_string());
    row([id, "question", "unit", lowest, highest, best, confidence])?;
    for own in asked(questions) {
        row([&own.id, own.text, own.unit, "", "", "", ""])?;
    }
    let bytes = writer.into_inner().map_err(|error| error.to_string())?;
    String::from_utf8(bytes).map_err(|error| error.to_string())
}
