//! Many answers made into one: all riders alike, and by how well they answered the questions whose answers are known.

use super::answers::{Answers, Given};
use super::calibration::CALIBRATION;
use super::cooke;
use super::quantiles::Quantiles;
use super::question::About;

/// What all riders together think of a number.
#[derive(Debug, Clone, PartialEq)]
pub struct Pooled {
    /// Id of the question.
    pub id: String,
    /// What it is about.
    pub about: About,
    /// How many answered.
    pub riders: usize,
    /// Everybody weighs the same.
    pub equal: Opinion,
    /// By calibration and information; `None` where none of those who answered has a weight.
    pub performance: Option<Opinion>,
}

/// A pooled distribution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opinion {
    /// Its quantiles.
    pub quantiles: Quantiles,
    /// Its mean.
    pub mean: f64,
    /// Its variance.
    pub variance: f64,
}

/// How well a rider knew what is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Score {
    /// The rider.
    pub rider: String,
    /// Questions with known answers that the rider answered.
    pub answered: usize,
    /// Of these, those whose answer lies between the 5 and the 95 % quantile.
    pub held: usize,
    /// Calibration: a p-value; low ones are bad.
    pub calibration: f64,
    /// Information: high ones are narrow intervals.
    pub information: f64,
    /// Share of the weight; `None` for a rider who left some of these questions open, whose score would not compare.
    pub weight: Option<f64>,
}

/// Scores the riders and pools what they say of each number, in the order in which the questions first appear.
#[must_use]
pub fn pool(answers: &[Answers]) -> (Vec<Score>, Vec<Pooled>) {
    let scores = scores(answers);
    let mut ids: Vec<(&String, &About)> = Vec::new();
    for (id, given) in answers.iter().flat_map(|own| &own.given) {
        if !matches!(given.about, About::Known(_)) && !ids.iter().any(|(known, _)| *known == id) {
            ids.push((id, &given.about));
        }
    }
    let pooled = ids.into_iter().map(|(id, about)| one(id, about, answers, &scores)).collect();
    (scores, pooled)
}

fn one(id: &str, about: &About, answers: &[Answers], scores: &[Score]) -> Pooled {
    let given = answers.iter().zip(scores).filter_map(|(own, score)| Some((own.given.get(id)?, score)));
    let (all, weights): (Vec<Quantiles>, Vec<f64>) =
        given.map(|(given, score)| (quantiles(given), score.weight.unwrap_or(0.0))).unzip();
    let range = cooke::range(&all, None, about.bounds());
    #[allow(clippy::cast_precision_loss, reason = "a count of riders")]
    let equal = vec![1.0 / all.len() as f64; all.len()];
    let sum: f64 = weights.iter().sum();
    let performance = (sum > 0.0).then(|| {
        let own: Vec<f64> = weights.iter().map(|weight| weight / sum).collect();
        opinion(&all, &own, range)
    });
    let riders = all.len();
    Pooled { id: id.to_owned(), about: about.clone(), riders, equal: opinion(&all, &equal, range), performance }
}

fn quantiles(given: &Given) -> Quantiles {
    Quantiles::of_interval(given.between, given.best, given.confidence, given.about.bounds())
}

/// Weights of the 5, 50 and 95 % quantiles in a mean.
const MOMENTS: [f64; 3] = [0.185, 0.63, 0.185];

/// Quantiles of a mixture, and mean and variance by its three quantiles (extended Pearson-Tukey: Keefer & Bodily 1983,
/// Management Science 29, 595-609). Beyond the outer quantiles nobody said anything; a mean over the whole range would hang on
/// how far the widest answer reaches.
fn opinion(all: &[Quantiles], weights: &[f64], range: (f64, f64)) -> Opinion {
    let quantiles = cooke::mixture(all, weights, range);
    let three = [quantiles.low, quantiles.best, quantiles.high];
    let mean: f64 = MOMENTS.iter().zip(three).map(|(weight, value)| weight * value).sum();
    let variance = MOMENTS.iter().zip(three).map(|(weight, value)| weight * (value - mean) * (value - mean)).sum();
    Opinion { quantiles, mean, variance }
}

fn scores(answers: &[Answers]) -> Vec<Score> {
    let known = |own: &Answers, id: &str| own.given.get(id).map(quantiles);
    let ranges: Vec<(f64, f64)> = CALIBRATION
        .iter()
        .map(|question| {
            let all: Vec<Quantiles> = answers.iter().filter_map(|own| known(own, question.id)).collect();
            cooke::range(&all, Some(question.truth), About::Known(question.id).bounds())
        })
        .collect();
    let mut scores: Vec<Score> = answers
        .iter()
        .map(|own| {
            let each = CALIBRATION.iter().zip(&ranges);
            let answered: Vec<(Quantiles, f64, (f64, f64))> =
                each.filter_map(|(question, range)| Some((known(own, question.id)?, question.truth, *range))).collect();
            score(&own.rider, &answered)
        })
        .collect();
    let whole: Vec<usize> = (0..scores.len()).filter(|at| scores[*at].answered == CALIBRATION.len()).collect();
    let products: Vec<(f64, f64)> = whole.iter().map(|at| (scores[*at].calibration, scores[*at].information)).collect();
    for (at, weight) in whole.into_iter().zip(cooke::weights(&products)) {
        scores[at].weight = Some(weight);
    }
    scores
}

#[allow(clippy::cast_precision_loss, reason = "a count of questions")]
fn score(rider: &str, answered: &[(Quantiles, f64, (f64, f64))]) -> Score {
    let (own, truths): (Vec<Quantiles>, Vec<f64>) = answered.iter().map(|(own, truth, _)| (*own, *truth)).unzip();
    let information: f64 = answered.iter().map(|(own, _, range)| cooke::information(own, *range)).sum();
    Score {
        rider: rider.to_owned(),
        answered: answered.len(),
        held: answered.iter().filter(|(own, truth, _)| matches!(own.part(*truth), 1 | 2)).count(),
        calibration: cooke::calibration(&own, &truths),
        information: information / (answered.len() as f64).max(1.0),
        weight: None,
    }
}
