//! What lies along the ride: hours to help, what is ridden on, pumps, shops and water, heights.

use super::pen::Pen;
use super::{LETTERS, MARGIN, WIDTH, ground, is_water, look};
use crate::draft::Leg;
use crate::gaps::{Gap, longest};
use crate::map::Ground;
use crate::survey::Survey;
use fardel_words::{say, word};

const TALL: f64 = 150.0;
const AXIS: (&str, &str, f64) = ("#1a1a1a", "", 1.0);
const GRID: (&str, &str, f64) = ("#d9d6cd", "", 1.0);
const DAY: (&str, &str, f64) = ("#8a867a", "3 3", 1.0);

/// A step of an axis that gives at most so many lines.
fn step(range: f64, most: f64) -> f64 {
    let rough = (range / most).max(1e-6);
    let power = 10_f64.powf(rough.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|factor| factor * power).find(|step| *step >= rough * 0.999).unwrap_or(rough)
}

/// Multiples of a step up to an end.
fn ticks(step: f64, end: f64) -> impl Iterator<Item = f64> {
    (0..200_u32).map(move |number| f64::from(number) * step).take_while(move |value| *value <= end * 1.0001)
}

/// Draws it below `top` and says where it ends.
pub(super) fn draw(pen: &mut Pen, survey: &Survey, legs: &[Leg], top: f64) -> f64 {
    let total = survey.ride.metres;
    let x = |metres: f64| MARGIN + metres / total * (WIDTH - 2.0 * MARGIN);
    let mut y = top;
    let below = pen.drawn();
    days(pen, legs, &x, y);
    y += 12.0;
    let first = y;
    if survey.map.is_some() {
        y = help(pen, survey, legs, &x, y + 22.0) + 26.0;
    }
    y = strip(pen, survey, &x, y + 14.0) + 12.0;
    y = rows(pen, survey, &x, y);
    y = heights(pen, survey, &x, y + 26.0);
    for leg in &legs[..legs.len().saturating_sub(1)] {
        pen.line_below(below, &[(x(leg.to), first), (x(leg.to), y)], DAY);
    }
    kilometres(pen, total, &x, y)
}

fn days(pen: &mut Pen, legs: &[Leg], x: &impl Fn(f64) -> f64, y: f64) {
    for (leg, day) in legs.iter().zip(1..) {
        let room = x(leg.to) - x(leg.from);
        let text = if room > 60.0 { say!("day {day}") } else { day.to_string() };
        if room > 18.0 {
            pen.text((f64::midpoint(x(leg.from), x(leg.to)), y), LETTERS, "middle", "bold", &text);
        }
    }
}

/// Hours to help, with the worst and the mean of each day.
fn help(pen: &mut Pen, survey: &Survey, legs: &[Leg], x: &impl Fn(f64) -> f64, top: f64) -> f64 {
    let Some(map) = &survey.map else { return top };
    pen.text(
        (MARGIN, top - 6.0),
        LETTERS,
        "start",
        "normal",
        word!("hours to help: line; mean of the day: dashes; worst: number"),
    );
    let top = top + 16.0;
    let most = map.help.iter().filter_map(crate::help::HelpAt::hours).fold(1.0, f64::max);
    let step = step(most, 5.0);
    let high = (most / step).ceil() * step;
    let y = |hours: f64| top + TALL - hours / high * TALL;
    for hours in ticks(step, high) {
        pen.line(&[(MARGIN, y(hours)), (WIDTH - MARGIN, y(hours))], GRID);
        pen.text((MARGIN - 8.0, y(hours) + 4.5), LETTERS, "end", "normal", &format!("{hours}"));
    }
    let mut line: Vec<(f64, f64)> = Vec::new();
    for look in &map.help {
        match look.hours() {
            Some(hours) => line.push((x(look.metres), y(hours))),
            None => flush(pen, &mut line),
        }
    }
    flush(pen, &mut line);
    for leg in legs {
        let looks = map.help.iter().filter(|look| (leg.from..leg.to).contains(&look.metres));
        let worst = looks.filter_map(|look| Some((look.hours()?, look.metres))).max_by(|a, b| a.0.total_cmp(&b.0));
        if let (Some((hours, metres)), Some(mean)) = (worst, leg.mean_hours) {
            pen.line(&[(x(leg.from), y(mean)), (x(leg.to), y(mean))], ("#c25200", "10 4", 1.5));
            let middle = x(metres).clamp(MARGIN + 20.0, WIDTH - MARGIN - 20.0);
            pen.text((middle, y(hours) - 6.0), LETTERS, "middle", "bold", &say!("{hours:.1} h"));
        }
    }
    top + TALL
}

fn flush(pen: &mut Pen, line: &mut Vec<(f64, f64)>) {
    if line.len() == 1 {
        line.push((line[0].0 + 1.0, line[0].1));
    }
    if !line.is_empty() {
        pen.line(line, ("#0067a5", "", 2.0));
    }
    line.clear();
}

/// What is ridden on, as on the plan; stretches too short to be seen go with the one before.
fn strip(pen: &mut Pen, survey: &Survey, x: &impl Fn(f64) -> f64, y: f64) -> f64 {
    if survey.map.is_none() {
        return y;
    }
    let mut runs: Vec<(Ground, f64, f64)> = Vec::new();
    for (at, piece) in survey.ride.pieces.iter().enumerate() {
        let (start, end, ground) = (x(piece.from), x(piece.from + piece.metres), ground(survey, at));
        match runs.last_mut() {
            Some((same, _, to)) if *same == ground => *to = end,
            _ => runs.push((ground, start, end)),
        }
    }
    pen.text((MARGIN - 14.0, y + 4.5), LETTERS, "end", "normal", word!("surface"));
    runs.iter().for_each(|(ground, from, to)| pen.line(&[(*from, y), (*to, y)], look(*ground)));
    y + 8.0
}

/// Pumps, shops and water, each with its longest gap.
fn rows(pen: &mut Pen, survey: &Survey, x: &impl Fn(f64) -> f64, mut y: f64) -> f64 {
    let water: Vec<(f64, usize)> = survey.water.iter().copied().filter(|pass| is_water(survey, pass.1)).collect();
    for (word, letter, passes) in
        [(word!("fuel"), "F", &survey.fuel), (word!("shops"), "S", &survey.food), (word!("taps"), "W", &water)]
    {
        if passes.is_empty() {
            continue;
        }
        y += 26.0;
        pen.text((MARGIN - 14.0, y + 4.5), LETTERS, "end", "normal", word);
        let gap = longest(passes, survey.ride.metres, 0.0, survey.ride.metres);
        bracket(pen, x, gap, y);
        let mut last = f64::NEG_INFINITY;
        for (metres, _) in passes {
            if x(*metres) - last >= 14.0 {
                last = x(*metres);
                pen.text((last, y + 4.8), LETTERS, "middle", "bold", letter);
            }
        }
    }
    y
}

fn bracket(pen: &mut Pen, x: &impl Fn(f64) -> f64, gap: Gap, y: f64) {
    let (from, to) = (x(gap.from) + 7.0, x(gap.to) - 7.0);
    if to - from > 150.0 {
        let middle = f64::midpoint(from, to);
        let text = say!("longest {:.0} km", gap.metres() / 1000.0);
        pen.line(&[(from, y - 4.0), (from, y), (middle - 64.0, y)], AXIS);
        pen.line(&[(middle + 64.0, y), (to, y), (to, y - 4.0)], AXIS);
        pen.text((middle, y + 4.5), LETTERS, "middle", "normal", &text);
    }
}

/// Heights above the sea, where the track has them.
fn heights(pen: &mut Pen, survey: &Survey, x: &impl Fn(f64) -> f64, top: f64) -> f64 {
    let heights = &survey.ride.heights;
    let total = survey.ride.metres;
    let Some((low, high)) = heights.range(0.0, total) else { return top - 8.0 };
    let step = step((high - low).max(20.0), 3.0);
    let (low, high) =
        ((low / step).floor() * step, ((high / step).ceil() * step).max((low / step).floor() * step + step));
    let y = |height: f64| top + 12.0 + (high - height) / (high - low) * 70.0;
    pen.text((MARGIN, top), LETTERS, "start", "normal", word!("metres above the sea"));
    let mut rim = vec![(x(total), y(low)), (x(0.0), y(low))];
    let looks = (0..=400_u32).map(|number| f64::from(number) / 400.0 * total);
    rim.extend(looks.filter_map(|metres| Some((x(metres), y(heights.height(metres)?)))));
    pen.area(&rim, "#dcd8cc");
    for height in ticks(step, high - low).map(|height| height + low) {
        pen.line(&[(MARGIN, y(height)), (WIDTH - MARGIN, y(height))], GRID);
        pen.text((MARGIN - 8.0, y(height) + 4.5), LETTERS, "end", "normal", &format!("{height:.0}"));
    }
    y(low)
}

fn kilometres(pen: &mut Pen, total: f64, x: &impl Fn(f64) -> f64, y: f64) -> f64 {
    let y = y + 8.0;
    pen.line(&[(MARGIN, y), (WIDTH - MARGIN, y)], AXIS);
    let step = step(total / 1000.0, 8.0);
    for km in ticks(step, total / 1000.0) {
        let at = x(km * 1000.0);
        pen.line(&[(at, y), (at, y + 5.0)], AXIS);
        let unit = if km == 0.0 { " km" } else { "" };
        pen.text((at, y + 19.0), LETTERS, "middle", "normal", &format!("{km:.1}{unit}").replace(".0", ""));
    }
    y + 24.0
}
