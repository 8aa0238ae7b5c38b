//! What all pictures share: size, font and colours, axes, and the way into SVG or PNG with a font of their own.

use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use std::ops::Range;
use thiserror::Error;

/// Width and height in pixels.
const SIZE: (u32, u32) = (960, 600);
pub(super) const FONT: &str = "sans-serif";
pub(super) const STRONG: RGBColor = RGBColor(0x1f, 0x4e, 0x79);
pub(super) const GREY: RGBColor = RGBColor(0x80, 0x80, 0x80);

/// Something to draw on.
pub(super) type Sheet<B> = DrawingArea<B, Shift>;
/// Axes on a sheet.
pub(super) type Axes<'a, B> = ChartContext<'a, B, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// Why a picture could not be drawn.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{0}")]
pub struct NoPicture(String);

pub(super) fn failed(error: impl std::fmt::Display) -> NoPicture {
    NoPicture(error.to_string())
}

/// A picture as SVG text.
pub(super) fn svg(draw: impl FnOnce(&Sheet<SVGBackend<'_>>) -> Result<(), NoPicture>) -> Result<String, NoPicture> {
    let mut text = String::new();
    draw(&SVGBackend::with_string(&mut text, SIZE).into_drawing_area())?;
    Ok(text)
}

/// A picture as the bytes of a PNG file.
pub(super) fn png(draw: impl FnOnce(&Sheet<BitMapBackend<'_>>) -> Result<(), NoPicture>) -> Result<Vec<u8>, NoPicture> {
    let mut pixels = vec![0; SIZE.0 as usize * SIZE.1 as usize * 3];
    draw(&BitMapBackend::with_buffer(&mut pixels, SIZE).into_drawing_area())?;
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, SIZE.0, SIZE.1);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().map_err(failed)?;
    writer.write_image_data(&pixels).map_err(failed)?;
    writer.finish().map_err(failed)?;
    Ok(bytes)
}

/// Makes the font known.
#[cfg(not(target_arch = "wasm32"))]
fn own_font() -> Result<(), NoPicture> {
    use plotters::style::{FontStyle, register_font};
    let registered = register_font(FONT, FontStyle::Normal, epaint_default_fonts::UBUNTU_LIGHT);
    registered.map_err(|_| NoPicture("the font cannot be read".to_owned()))
}

/// In a browser the page draws its own pictures.
#[cfg(target_arch = "wasm32")]
fn own_font() -> Result<(), NoPicture> {
    Err(NoPicture("no picture is drawn here".to_owned()))
}

/// A white sheet with a title and axes.
pub(super) fn axes<'a, B: DrawingBackend>(
    sheet: &'a Sheet<B>,
    title: &str,
    (x, along): (Range<f64>, &str),
    (y, upwards): (Range<f64>, &str),
) -> Result<Axes<'a, B>, NoPicture> {
    own_font()?;
    sheet.fill(&WHITE).map_err(failed)?;
    let mut chart = ChartBuilder::on(sheet)
        .caption(title, (FONT, 20))
        .margin(16)
        .x_label_area_size(46)
        .y_label_area_size(64)
        .build_cartesian_2d(x, y)
        .map_err(failed)?;
    chart
        .configure_mesh()
        .x_desc(along)
        .y_desc(upwards)
        .label_style((FONT, 14))
        .axis_desc_style((FONT, 15))
        .light_line_style(WHITE)
        .bold_line_style(GREY.mix(0.25))
        .draw()
        .map_err(failed)?;
    Ok(chart)
}
