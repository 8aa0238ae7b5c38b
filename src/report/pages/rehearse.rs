//! The page of `rehearse`: how the hours lost spread, what did the harm, and what was used.

use super::PageError;
use super::chart::{Area, Tick};
use super::frame::{page, whole};
use crate::Look;
use crate::cautions::cautions;
use crate::histogram::bars;
use crate::told::{Line, Rows};
use crate::view::rehearsal as told;
use fardel_core::answer::RehearseAnswer;
use fardel_words::{say, word};
use serde::Serialize;

const AREA: Area = Area { left: 34.0, right: 332.0, top: 26.0, bottom: 186.0 };

#[derive(Serialize)]
struct Rehearse {
    who: String,
    lines: Vec<Line>,
    picture: Picture,
    percentiles: String,
    tables: Vec<(&'static str, Rows)>,
    nobody_stranded: bool,
    idle: Vec<String>,
    reading: [String; 4],
    cautions: Vec<&'static str>,
}

/// The spread of the hours lost.
#[derive(Serialize)]
struct Picture {
    area: Area,
    across: Vec<Tick>,
    upwards: Vec<Tick>,
    bars: Vec<Bar>,
    mean: f64,
    reckoned: f64,
    mean_text: String,
    reckoned_text: String,
    /// Where the words beside the lines stand, and on which side of them there is room.
    words_at: f64,
    to_left: bool,
}

#[derive(Serialize)]
struct Bar {
    x: f64,
    y: f64,
    width: f64,
    height: f64,
}

/// The whole page.
///
/// # Errors
/// [`PageError`] where the template asks for what is not there: a defect of the program.
pub fn rehearse(answer: &RehearseAnswer, look: &Look) -> Result<String, PageError> {
    let tables = [
        (word!("What did the harm"), head(&told::HARM, told::harm_rows(answer))),
        (word!("What stranded somebody"), head(&told::STRANDINGS, told::stranding_rows(answer))),
        (word!("What was used"), head(&told::USE, told::used_rows(answer))),
        (word!("What ran out"), head(&told::SHORT, told::short_rows(answer))),
    ];
    let content = Rehearse {
        who: told::who(answer, look),
        lines: told::lines(answer, look),
        picture: picture(answer),
        percentiles: told::percentiles(answer, look),
        nobody_stranded: tables[1].1.rows.is_empty(),
        tables: tables.into_iter().filter(|(_, rows)| !rows.rows.is_empty()).collect(),
        idle: told::idle(answer),
        reading: told::reading(answer, look),
        cautions: cautions(&[]),
    };
    whole("rehearse.html", page(&answer.trip.scenario, word!("Rehearsal")), content, look)
}

/// A table whose columns but the first hold numbers.
fn head(heads: &[&str], rows: Vec<Vec<String>>) -> Rows {
    let heads: Vec<String> = heads
        .iter()
        .enumerate()
        .map(|(at, head)| if at == 0 { (*head).to_owned() } else { format!("#{head}") })
        .collect();
    Rows::new(&heads.iter().map(String::as_str).collect::<Vec<_>>(), rows)
}

fn picture(answer: &RehearseAnswer) -> Picture {
    let bars = bars(answer);
    let left = bars.first().map_or(-1.0, |bar| bar.0);
    let right = bars.last().map_or(1.0, |bar| bar.1);
    let top = bars.iter().map(|bar| bar.2).fold(1.0, f64::max);
    let (across, upwards) = (AREA.across(left, right), AREA.upwards(0.0, top));
    let bar = |(from, to, share): &(f64, f64, f64)| {
        let (x, y) = (across.place(*from), upwards.place(*share));
        let width = super::chart::hundredth(across.place(*to) - x);
        Bar { x, y, width, height: super::chart::hundredth(AREA.bottom - y) }
    };
    let (mean, reckoned) = (answer.tally.hours_lost().mean, answer.predicted.hours_lost.get());
    let (mean_at, reckoned_at) = (across.place(mean.min(right)), across.place(reckoned.min(right)));
    let to_left = mean_at.max(reckoned_at) > f64::midpoint(AREA.left, AREA.right);
    Picture {
        area: AREA,
        across: across.ticks(6.0),
        upwards: upwards.ticks(4.0),
        bars: bars.iter().map(bar).collect(),
        mean: mean_at,
        reckoned: reckoned_at,
        mean_text: say!("mean {mean:.2} h"),
        reckoned_text: say!("reckoned {reckoned:.2} h"),
        words_at: if to_left { mean_at.min(reckoned_at) - 6.0 } else { mean_at.max(reckoned_at) + 6.0 },
        to_left,
    }
}
