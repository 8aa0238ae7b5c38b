//! The curve as a picture: SVG, or PNG with a font that comes with the program.

use crate::Look;
use crate::drawing::{self, FONT, GREY, NoPicture, STRONG, Sheet, axes, failed};
use fardel_core::answer::{TradeoffAnswer, TradeoffPoint};
use fardel_core::resolve::{Amount, Measure};
use fardel_core::units::UnitSystem;
use fardel_words::{say, word};
use plotters::prelude::*;

/// The curve as SVG text.
///
/// # Errors
/// [`NoPicture`] when the drawing library refuses.
pub fn svg(answer: &TradeoffAnswer, look: &Look) -> Result<String, NoPicture> {
    drawing::svg(|sheet| draw(sheet, answer, look))
}

/// The curve as the bytes of a PNG file.
///
/// # Errors
/// [`NoPicture`] when the drawing library or the encoder refuses.
pub fn png(answer: &TradeoffAnswer, look: &Look) -> Result<Vec<u8>, NoPicture> {
    drawing::png(|sheet| draw(sheet, answer, look))
}

fn draw<B: DrawingBackend>(sheet: &Sheet<B>, answer: &TradeoffAnswer, look: &Look) -> Result<(), NoPicture> {
    let (x, y) = ranges(answer, look);
    let title = format!("{}: {}", answer.trip.scenario, answer.trip.rider);
    let upwards = word!("hours saved, less what the kit costs by your other prices");
    let mut chart = axes(sheet, &title, (x.clone(), &along(answer, look)), (y.clone(), upwards))?;
    let place = |point: &TradeoffPoint, used: Amount| (axis(answer.measure, used, look), point.net().get());
    // Between two rows nothing is known but that the curve does not fall: a staircase from kit to kit.
    let mut stairs = Vec::new();
    for point in &answer.points {
        if let Some((_, height)) = stairs.last().copied() {
            stairs.push((axis(answer.measure, point.used, look), height));
        }
        stairs.push(place(point, point.used));
    }
    chart.draw_series(LineSeries::new(stairs, GREY.mix(0.6))).map_err(failed)?;
    let corners = answer.points.iter().filter(|point| point.on_envelope).map(|point| place(point, point.used));
    chart.draw_series(LineSeries::new(corners, STRONG.stroke_width(2))).map_err(failed)?;
    let mark = |point: &TradeoffPoint| {
        let style = if point.on_envelope { STRONG.filled() } else { ShapeStyle::from(STRONG) };
        Circle::new(place(point, point.used), 4, style)
    };
    chart.draw_series(answer.points.iter().map(mark)).map_err(failed)?;
    if let Some(limit) = answer.own_limit.map(|limit| axis(answer.measure, limit, look)).filter(|at| x.contains(at)) {
        let line = [(limit, y.start), (limit, y.end)];
        chart.draw_series(LineSeries::new(line, RED.mix(0.6))).map_err(failed)?;
        let text = Text::new(word!("your limit"), (limit, y.end), (FONT, 14).into_font().color(&RED));
        chart.draw_series([text]).map_err(failed)?;
    }
    if let Some(worth) = answer.worth.map(|worth| axis(answer.measure, worth, look)).filter(|at| x.contains(at)) {
        let line = [(worth, y.start), (worth, y.end)];
        chart.draw_series(LineSeries::new(line, GREY.stroke_width(2))).map_err(failed)?;
        let text = Text::new(
            word!("your price stops here"),
            (worth, y.start + (y.end - y.start) / 20.0),
            (FONT, 14).into_font(),
        );
        chart.draw_series([text]).map_err(failed)?;
    }
    sheet.present().map_err(failed)
}

/// From a little below the first kit to a little above the last; upwards from zero or the lowest point.
pub(super) fn ranges(answer: &TradeoffAnswer, look: &Look) -> (std::ops::Range<f64>, std::ops::Range<f64>) {
    let used: Vec<f64> = answer.points.iter().map(|point| axis(answer.measure, point.used, look)).collect();
    let nets: Vec<f64> = answer.points.iter().map(|point| point.net().get()).collect();
    let least = |values: &[f64]| values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = |values: &[f64]| values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    if used.is_empty() {
        return (0.0..1.0, 0.0..1.0);
    }
    let (left, right) = (least(&used), most(&used));
    let wide = (right - left).max(right.abs() * 0.02).max(1e-3) * 0.04;
    let (low, high) = (least(&nets).min(0.0), most(&nets).max(0.0));
    let tall = (high - low).max(1e-3) * 0.08;
    (left - wide..right + wide, low - if low < 0.0 { tall } else { 0.0 }..high + tall)
}

/// An amount as it stands on the axis: kg or lb, L or gal, money.
pub(super) fn axis(measure: Measure, amount: Amount, look: &Look) -> f64 {
    let value = measure.in_row(amount);
    match (measure, look.units) {
        (Measure::Money, _) => value,
        (_, UnitSystem::Metric) => value / 1000.0,
        (Measure::Mass, UnitSystem::Imperial) => value / 453.592_37,
        (Measure::Volume, UnitSystem::Imperial) => value / 3_785.411_784,
    }
}

pub(super) fn along(answer: &TradeoffAnswer, look: &Look) -> String {
    let unit = match (answer.measure, look.units) {
        (Measure::Mass, UnitSystem::Metric) => "kg".to_owned(),
        (Measure::Mass, UnitSystem::Imperial) => "lb".to_owned(),
        (Measure::Volume, UnitSystem::Metric) => "L".to_owned(),
        (Measure::Volume, UnitSystem::Imperial) => say!("US gal"),
        (Measure::Money, _) => answer.currency.to_string(),
    };
    match answer.measure {
        Measure::Mass => say!("mass of the kit, {unit}"),
        Measure::Volume => say!("packed volume of the kit, {unit}"),
        Measure::Money => say!("spent on what you do not own, {unit}"),
    }
}
