//! Drawing all numbers of a case at once.
//!
//! Numbers that belong together (the rates of one system, falls on all surfaces, hours to help of all legs) have normal
//! scores with a common factor, `score = sqrt(c) common + sqrt(1 - c) own`, and each is its own quantile at its score: a
//! Gaussian copula with one factor, so that every number keeps the distribution that its evidence gives it, whatever it is
//! drawn with (e.g. Embrechts, McNeil & Straumann 2002, in Risk Management: Value at Risk and Beyond, ed. Dempster).

use super::list;
use super::number::Number;
use super::widths::IN_COMMON;
use super::world;
use crate::domain::{BySurface, Catalogue, Scenario};
use crate::resolve::Instance;
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use rand_distr::{Distribution, StandardNormal};

/// A case with all that is uncertain about it.
#[derive(Debug, Clone)]
pub struct Uncertain<'a> {
    pub(super) instance: &'a Instance,
    pub(super) numbers: Vec<Number>,
    /// For each number, which common factor it has a part of.
    common: Vec<Option<usize>>,
    factors: usize,
    /// Falls by surface as the catalogue has them.
    pub(super) falls: BySurface<f64>,
}

/// One draw of all numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// The factor on each number (on the odds of a share).
    pub factors: Vec<f64>,
}

impl<'a> Uncertain<'a> {
    /// Lists the numbers of a case.
    #[must_use]
    pub fn new(catalogue: &Catalogue, scenario: &Scenario, instance: &'a Instance) -> Self {
        let numbers = list::numbers(catalogue, scenario, instance);
        let mut names: Vec<&str> = Vec::new();
        let common: Vec<Option<usize>> = numbers
            .iter()
            .map(|number| {
                let name = number.together.as_deref()?;
                Some(names.iter().position(|known| *known == name).unwrap_or_else(|| {
                    names.push(name);
                    names.len() - 1
                }))
            })
            .collect();
        let factors = names.len();
        Self { instance, common, factors, falls: catalogue.model.falls_per_1000_km, numbers }
    }

    /// The case itself.
    #[must_use]
    pub const fn instance(&self) -> &Instance {
        self.instance
    }

    /// The numbers, in the order in which they are drawn.
    #[must_use]
    pub fn numbers(&self) -> &[Number] {
        &self.numbers
    }

    /// Draws all numbers. Each draw has a stream of random numbers of its own, so that draws can be made in any order.
    #[must_use]
    pub fn draw(&self, seed: u64, draw: u64) -> Drawn {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        rng.set_stream(draw);
        let mut normal = || -> f64 { StandardNormal.sample(&mut rng) };
        let common: Vec<f64> = (0..self.factors).map(|_| normal()).collect();
        let each = self.numbers.iter().zip(&self.common).map(|(number, factor)| {
            let own = normal();
            let score = factor.map_or(own, |factor| IN_COMMON.sqrt() * common[factor] + (1.0 - IN_COMMON).sqrt() * own);
            number.law.factor(score)
        });
        Drawn { factors: each.collect() }
    }

    /// The case with these values in it.
    #[must_use]
    pub fn world(&self, drawn: &Drawn) -> Instance {
        world::world(self, drawn)
    }
}
