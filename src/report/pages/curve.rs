//! The curve of `tradeoff` as a picture in a page.

use super::chart::{Area, Tick};
use crate::Look;
use crate::amount::amount;
use crate::plot::{along, axis, ranges};
use fardel_core::answer::{TradeoffAnswer, TradeoffPoint};
use fardel_core::resolve::Amount;
use fardel_words::{say, word};
use serde::Serialize;

const AREA: Area = Area { left: 40.0, right: 332.0, top: 26.0, bottom: 186.0 };

/// Axes, the staircase from kit to kit, and marks.
#[derive(Serialize)]
pub(super) struct Picture {
    area: Area,
    along: String,
    across: Vec<Tick>,
    upwards: Vec<Tick>,
    stairs: Vec<(f64, f64)>,
    envelope: Vec<(f64, f64)>,
    marks: Vec<Mark>,
    /// Where the rider's own limit lies, if it lies in the picture.
    limit: Option<f64>,
    /// The kit of the page, if the picture stands beside one.
    own: Option<Own>,
    /// What the marks in the picture are; only those that are there.
    caption: String,
    /// The curve in a sentence, for those who do not see it.
    told: String,
}

/// What the marks in the picture are.
fn caption(own: bool, limit: bool, hollow: bool) -> String {
    let mut text = say!(
        "Each dot is the best kit under one limit; between two dots nothing is known but that the curve does \
                    not fall."
    );
    if own {
        text += word!(" The diamond is this kit.");
    }
    if limit {
        text += word!(" The dashed line is your limit.");
    }
    if hollow {
        text += word!(" Hollow dots give less for what they take than a mixture of the full ones on either side.");
    }
    text
}

#[derive(Serialize)]
struct Mark {
    at: f64,
    up: f64,
    on_envelope: bool,
}

#[derive(Serialize)]
struct Own {
    at: f64,
    up: f64,
    /// On which side of its mark the words have room.
    to_left: bool,
}

/// The picture; `own` is what the kit of the page takes and what it saves in hours, net of its weight.
pub(super) fn picture(answer: &TradeoffAnswer, own: Option<(Amount, f64)>, look: &Look) -> Option<Picture> {
    let (first, last) = (answer.points.first()?, answer.points.last()?);
    let (x, y) = ranges(answer, look);
    let (across, upwards) = (AREA.across(x.start, x.end), AREA.upwards(y.start, y.end));
    let along_at = |used: Amount| across.place(axis(answer.measure, used, look));
    let place = |point: &TradeoffPoint| (along_at(point.used), upwards.place(point.net().get()));
    // Between two kits nothing is known but that the curve does not fall: a staircase.
    let mut stairs: Vec<(f64, f64)> = Vec::new();
    for point in &answer.points {
        let (at, up) = place(point);
        stairs.extend(stairs.last().map(|(_, before)| (at, *before)));
        stairs.push((at, up));
    }
    let limit = answer.own_limit.map(|limit| axis(answer.measure, limit, look)).filter(|limit| x.contains(limit));
    let show = |value: Amount| amount(answer.measure, value, answer.currency, look);
    let hollow = answer.points.iter().any(|point| !point.on_envelope);
    Some(Picture {
        caption: caption(own.is_some(), limit.is_some(), hollow),
        area: AREA,
        along: along(answer, look),
        across: across.ticks(4.0),
        upwards: upwards.ticks(5.0),
        stairs,
        envelope: answer.points.iter().filter(|point| point.on_envelope).map(place).collect(),
        marks: answer
            .points
            .iter()
            .map(|point| Mark { at: place(point).0, up: place(point).1, on_envelope: point.on_envelope })
            .collect(),
        limit: limit.map(|limit| across.place(limit)),
        own: own.map(|(used, net)| {
            let at = along_at(used).clamp(AREA.left, AREA.right);
            Own { at, up: upwards.place(net), to_left: at > f64::midpoint(AREA.left, AREA.right) }
        }),
        told: say!(
            "A curve that climbs from {:.2} h saved with {} to {:.2} h with {}.",
            first.net().get(),
            show(first.used),
            last.net().get(),
            show(last.used)
        ),
    })
}
