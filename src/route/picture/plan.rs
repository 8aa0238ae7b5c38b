//! The ride from above, north up.

use super::pen::Pen;
use super::{LETTERS, MARGIN, WIDTH, ground, is_water, look, sign};
use crate::draft::Leg;
use crate::geo::Space;
use crate::map::{Ground, PlaceKind};
use crate::survey::Survey;
use fardel_words::say;
use std::collections::BTreeSet;

/// Highest that the plan may be, and how far apart signs are kept.
const HEIGHT: f64 = 420.0;
const APART: f64 = 20.5;

/// From space to the paper: seen from straight above the middle of the ride.
struct View {
    east: Space,
    north: Space,
    low: (f64, f64),
    scale: f64,
    offset: (f64, f64),
    size: (f64, f64),
}

fn unit(vector: Space) -> Option<Space> {
    let length = vector.length();
    (length > 1e-6).then(|| Space(vector.0.map(|part| part / length)))
}

impl View {
    fn of(survey: &Survey, top: f64) -> Self {
        let pieces = &survey.ride.pieces;
        let sum = pieces.iter().fold([0.0; 3], |sum, piece| [0, 1, 2].map(|axis| sum[axis] + piece.space.0[axis]));
        let up = unit(Space(sum)).unwrap_or(Space([1.0, 0.0, 0.0]));
        // At a pole every direction is the same: there the meridian of Greenwich points up.
        let east = unit(Space([-up.0[1], up.0[0], 0.0])).unwrap_or(Space([0.0, 1.0, 0.0]));
        let [ux, uy, uz] = up.0;
        let [ex, ey, ez] = east.0;
        let north = Space([uy * ez - uz * ey, uz * ex - ux * ez, ux * ey - uy * ex]);
        let mut view = Self { east, north, low: (0.0, 0.0), scale: 1.0, offset: (0.0, 0.0), size: (0.0, 0.0) };
        let flat: Vec<(f64, f64)> = pieces.iter().map(|piece| view.flat(piece.space)).collect();
        let range = |of: fn(&(f64, f64)) -> f64| {
            let values = flat.iter().map(of);
            values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
        };
        let ((west, east), (south, north)) = (range(|at| at.0), range(|at| at.1));
        let (across, along) = ((east - west).max(100.0), (north - south).max(100.0));
        let width = WIDTH - 2.0 * MARGIN;
        view.scale = ((width - 60.0) / across).min((HEIGHT - 60.0) / along);
        let height = (along * view.scale + 60.0).max(160.0);
        let middle = (f64::midpoint(west, east), f64::midpoint(south, north));
        view.low = middle;
        view.offset = (WIDTH / 2.0, top + height / 2.0);
        view.size = (width, height);
        view
    }

    fn flat(&self, at: Space) -> (f64, f64) {
        (at.dot(self.east), at.dot(self.north))
    }

    fn paper(&self, at: Space) -> (f64, f64) {
        let (x, y) = self.flat(at);
        ((x - self.low.0) * self.scale + self.offset.0, (self.low.1 - y) * self.scale + self.offset.1)
    }
}

/// Draws it below `top` and says where it ends.
pub(super) fn draw(pen: &mut Pen, survey: &Survey, legs: &[Leg], top: f64) -> f64 {
    let view = View::of(survey, top);
    let bottom = top + view.size.1;
    let frame = [(MARGIN, top), (WIDTH - MARGIN, top), (WIDTH - MARGIN, bottom), (MARGIN, bottom)];
    pen.area(&frame, "#f6f5f1");
    for (ground, line) in runs(survey, &view) {
        pen.line(&line, ("#fff", "", look(ground).2 + 3.0));
        pen.line(&line, look(ground));
    }
    let mut taken: Vec<(f64, f64)> = Vec::new();
    let place = |metres: f64| survey.ride.piece_at(metres).map(|piece| view.paper(piece.space));
    if let Some(start) = place(0.0) {
        pen.disc(start, "0");
        taken.push(start);
    }
    for (leg, day) in legs.iter().zip(1..) {
        let ends = place(leg.to).filter(|at| free(&taken, *at));
        if let Some(at) = ends {
            pen.disc(at, &day.to_string());
            taken.push(at);
        }
    }
    signs(pen, survey, &view, &mut taken);
    scale_bar(pen, &view, bottom);
    bottom
}

fn free(taken: &[(f64, f64)], at: (f64, f64)) -> bool {
    taken.iter().all(|other| (other.0 - at.0).hypot(other.1 - at.1) >= APART)
}

/// Stretches of the same ground, with no more points than can be seen.
fn runs(survey: &Survey, view: &View) -> Vec<(Ground, Vec<(f64, f64)>)> {
    let mut runs: Vec<(Ground, Vec<(f64, f64)>)> = Vec::new();
    let mut last_line = 0;
    for (at, piece) in survey.ride.pieces.iter().enumerate() {
        let (ground, paper) = (ground(survey, at), view.paper(piece.at.space()));
        let line = survey.ride.lines.partition_point(|(start, _)| *start <= piece.from);
        let new_line = line != last_line;
        last_line = line;
        match runs.last_mut() {
            Some((same, points)) if *same == ground && !new_line => {
                let far = points.last().is_none_or(|last| (last.0 - paper.0).hypot(last.1 - paper.1) >= 0.8);
                if far {
                    points.push(paper);
                }
            }
            before => {
                // The next one begins where the last one ends.
                if let Some((_, points)) = before.filter(|_| !new_line) {
                    points.push(paper);
                }
                runs.push((ground, vec![paper]));
            }
        }
    }
    if let (Some((_, points)), Some(piece)) = (runs.last_mut(), survey.ride.pieces.last()) {
        points.push(view.paper(piece.space));
    }
    runs
}

/// Letters of places beside the ride, where there is room for them.
fn signs(pen: &mut Pen, survey: &Survey, view: &View, taken: &mut Vec<(f64, f64)>) {
    let passes =
        survey.fuel.iter().chain(&survey.food).chain(survey.water.iter().filter(|pass| is_water(survey, pass.1)));
    // A place that is passed twice has one sign.
    let mut seen = BTreeSet::new();
    let once = passes.filter(|pass| seen.insert(pass.1));
    let places = once.map(|(_, number)| (survey.places[*number].at.space(), survey.places[*number].kind));
    let at = |metres: &f64| survey.ride.piece_at(*metres).map(|piece| piece.space);
    let fords = survey.fords.iter().filter_map(at).map(|space| (space, PlaceKind::Ford));
    let gates = survey.gates.iter().filter_map(at).map(|space| (space, PlaceKind::Gate));
    for (space, kind) in places.chain(fords).chain(gates) {
        let (x, y) = view.paper(space);
        let steps = [
            (16.0, -14.0),
            (-16.0, -14.0),
            (16.0, 14.0),
            (-16.0, 14.0),
            (24.0, 0.0),
            (-24.0, 0.0),
            (0.0, -24.0),
            (0.0, 24.0),
        ];
        let beside = steps.map(|(right, down)| (x + right, y + down));
        if let Some(at) = beside.into_iter().find(|at| free(taken, *at)) {
            pen.sign(at, sign(kind));
            taken.push(at);
        }
    }
}

fn scale_bar(pen: &mut Pen, view: &View, bottom: f64) {
    let steps = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0];
    let fits = |km: &f64| km * 1000.0 * view.scale <= 160.0;
    let km = steps.into_iter().rfind(fits).unwrap_or(0.1);
    let (x, y) = (MARGIN + 14.0, bottom - 14.0);
    let end = x + km * 1000.0 * view.scale;
    pen.line(&[(x, y - 5.0), (x, y), (end, y), (end, y - 5.0)], ("#1a1a1a", "", 1.5));
    pen.text((end + 8.0, y), LETTERS, "start", "normal", &say!("{km} km, north is up"));
}
