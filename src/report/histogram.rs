//! Hours lost on a trip as a picture: bars, the mean, and what the optimiser reckons.

use crate::drawing::{self, FONT, GREY, NoPicture, STRONG, Sheet, axes, failed};
use fardel_core::answer::RehearseAnswer;
use fardel_core::rehearse::party::PER_HOUR;
use fardel_words::{say, word};
use plotters::prelude::*;

/// Bars, beside the one for trips that lose nothing.
const BARS: u32 = 30;
/// Share of the trips that the bars show; the rest lies further to the right.
const SHOWN: f64 = 0.995;

/// The spread of hours lost as SVG text.
///
/// # Errors
/// [`NoPicture`] when the drawing library refuses.
pub fn svg(answer: &RehearseAnswer) -> Result<String, NoPicture> {
    drawing::svg(|sheet| draw(sheet, answer))
}

/// The same as the bytes of a PNG file.
///
/// # Errors
/// [`NoPicture`] when the drawing library or the encoder refuses.
pub fn png(answer: &RehearseAnswer) -> Result<Vec<u8>, NoPicture> {
    drawing::png(|sheet| draw(sheet, answer))
}

fn draw<B: DrawingBackend>(sheet: &Sheet<B>, answer: &RehearseAnswer) -> Result<(), NoPicture> {
    let bars = bars(answer);
    let width = bars.first().map_or(1.0, |bar| bar.1 - bar.0);
    let right = bars.last().map_or(1.0, |bar| bar.1);
    let top = bars.iter().map(|bar| bar.2).fold(1.0, f64::max) * 1.06;
    let title = say!("{}: hours lost by {}", answer.trip.scenario, answer.trip.rider);
    let along = word!("hours lost on a trip (left of 0: none at all)");
    let mut chart = axes(sheet, &title, (-width..right, along), (0.0..top, word!("of 100 trips")))?;
    let bar = |(from, to, share): &(f64, f64, f64)| {
        let gap = width * 0.06;
        Rectangle::new([(from + gap, 0.0), (to - gap, *share)], STRONG.mix(0.8).filled())
    };
    chart.draw_series(bars.iter().map(bar)).map_err(failed)?;
    let marks = [
        (answer.tally.hours_lost().mean, word!("mean"), &RED, 0.98),
        (answer.predicted.hours_lost.get(), word!("reckoned"), &GREY, 0.92),
    ];
    for (hours, name, colour, height) in marks.into_iter().filter(|mark| mark.0 < right) {
        let line = PathElement::new([(hours, 0.0), (hours, top)], colour.stroke_width(2));
        let text = Text::new(say!(" {name} {hours:.2} h"), (hours, top * height), (FONT, 15).into_font().color(colour));
        chart.draw_series([line]).map_err(failed)?;
        chart.draw_series([text]).map_err(failed)?;
    }
    sheet.present().map_err(failed)
}

/// From, to, and trips in a hundred. The first bar is for no loss at all.
pub(super) fn bars(answer: &RehearseAnswer) -> Vec<(f64, f64, f64)> {
    let tally = &answer.tally;
    let width = (tally.hours_percentile(SHOWN).get() / f64::from(BARS)).max(1e-3);
    let none = tally.hours.up_to(0);
    let mut below = none;
    let mut bars = vec![(-width, 0.0, 100.0 * tally.share(none).mean)];
    for at in 0..BARS {
        let (from, to) = (f64::from(at) * width, f64::from(at + 1) * width);
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "hours are not negative; `as` saturates"
        )]
        let up_to = tally.hours.up_to((to * PER_HOUR) as u64);
        bars.push((from, to, 100.0 * tally.share(up_to - below).mean));
        below = up_to;
    }
    bars
}
