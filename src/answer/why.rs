//! `why`: an item that is in the kit, one that is not, or a failure. Losses are found by packing again, not guessed: when
//! one thing goes the others rearrange.

use super::pack::PackError;
use super::plan::{PackAnswer, Standing, TripSummary};
use super::purpose::purposes;
use super::ready::Ready;
use super::sufficient::{Set, sufficient};
use super::tradeoff::{Change, differences};
use crate::domain::{Catalogue, Kind, Rider, Scenario};
use crate::engine::Effort;
use crate::resolve::{Measure, Reason};
use crate::risk;
use crate::units::{Currency, Hours, Mass, Money};
use thiserror::Error;

/// The reasons.
#[derive(Debug, Clone)]
pub struct WhyAnswer {
    /// Where and who.
    pub trip: TripSummary,
    /// Currency of all money.
    pub currency: Currency,
    /// Key in the catalogue.
    pub id: String,
    /// As a rider would say it.
    pub name: String,
    /// What there is to say.
    pub about: About,
    /// Is every kit compared here the best of its sort?
    pub proven: bool,
    /// Things the rider should know.
    pub warnings: Vec<String>,
    /// Kinds of things in the kit, which decide the cautions.
    pub kinds: Vec<Kind>,
}

/// What there is to say.
#[derive(Debug, Clone)]
pub enum About {
    /// An item in the kit.
    Carried(Carried),
    /// An item that could be taken and is not.
    Left(Left),
    /// An item that was never weighed.
    Dropped(Reason),
    /// A failure that can happen on this bike.
    Failure(FailureReasons),
    /// A failure that cannot.
    NotOnThisBike,
}

/// An item in the kit.
#[derive(Debug, Clone)]
pub struct Carried {
    /// Units of it.
    pub count: u32,
    /// Their mass.
    pub mass: Mass,
    /// Why it is there, beside what it saves.
    pub standing: Standing,
    /// Needs and failures it serves, and items that are useless without it.
    pub purposes: Vec<String>,
    /// What would be lost at each failure if it stayed at home and nothing else changed, the greatest first.
    pub covers: Vec<Cover>,
    /// All of that together, less what carrying it costs.
    pub alone: Hours,
    /// Names of needs that would not be met then.
    pub unmet: Vec<String>,
    /// The best kit without it; `None`: there is none.
    pub without: Option<Other>,
}

/// What an item does for one failure.
#[derive(Debug, Clone)]
pub struct Cover {
    /// As a rider would say it.
    pub failure: String,
    /// Expected hours lost more without the item.
    pub hours: Hours,
    /// Names of the other things in the kit that this takes as well; empty: it does it alone.
    pub with: Vec<String>,
}

/// An item that could be taken.
#[derive(Debug, Clone)]
pub struct Left {
    /// Mass of one.
    pub mass: Mass,
    /// Money for one; zero if it is owned.
    pub price: Money,
    /// What one would save on top of the kit as it is, limits aside, less what carrying it costs.
    pub on_top: Hours,
    /// The best kit with it; `None`: there is none.
    pub with: Option<Other>,
}

/// The best kit when one thing is settled beforehand.
#[derive(Debug, Clone)]
pub struct Other {
    /// Net hours that it saves less than the best kit.
    pub loss: Hours,
    /// What comes in instead.
    pub entering: Vec<Change>,
    /// What goes out.
    pub leaving: Vec<Change>,
    /// Mass of that kit.
    pub mass: Mass,
    /// Chance of getting home with it, at least.
    pub self_recovery: f64,
}

/// A failure and how it is dealt with.
#[derive(Debug, Clone)]
pub struct FailureReasons {
    /// `stops`, `limps` or `nags`.
    pub outcome: &'static str,
    /// Expected occurrences.
    pub mean: f64,
    /// Expected hours lost to it with nothing aboard.
    pub hours_empty: Hours,
    /// Expected hours lost to it with the kit.
    pub hours_left: Hours,
    /// The repairs within the rider's skill, the most valuable first.
    pub repairs: Vec<RepairReasons>,
    /// The least skill that would allow more repairs.
    pub skill_wanted: Option<&'static str>,
}

/// One way to deal with a failure.
#[derive(Debug, Clone)]
pub struct RepairReasons {
    /// As a rider would say it.
    pub name: String,
    /// Expected hours it saves if it can always be done.
    pub hours: Hours,
    /// Share of the occurrences that the kit meets with it.
    pub share: f64,
    /// Things in the kit that it takes.
    pub uses: Vec<String>,
    /// Where the kit cannot do it: the lightest things that would make it possible.
    pub lightest: Option<Set>,
    /// The same for the least money.
    pub cheapest: Option<Set>,
}

/// Why there are no reasons.
#[derive(Debug, Error)]
pub enum WhyError {
    /// Neither an item nor a failure.
    #[error("`{name}` is neither an item nor a failure of the catalogue")]
    Unknown {
        /// What was asked for.
        name: String,
        /// The nearest name there is.
        nearest: Option<String>,
    },
    /// There is no kit to explain.
    #[error(transparent)]
    Pack(#[from] PackError),
}

/// Explains an item or a failure, by its key or name.
///
/// # Errors
/// [`WhyError`]: an unknown name, or no kit.
pub fn why(
    catalogue: &Catalogue,
    scenario: &Scenario,
    rider: &Rider,
    name: &str,
    effort: &Effort,
) -> Result<WhyAnswer, WhyError> {
    let ready = Ready::new(catalogue, scenario, rider)?;
    let found = find(&ready.catalogue, name)?;
    let solved = ready.solve(effort)?;
    let answer = ready.answer(&solved, effort)?;
    let asked = Asked { ready: &ready, answer: &answer, counts: &solved.choice.counts, effort };
    let (id, own_name, (about, proven)) = match found {
        Found::Item(id) => (id, ready.catalogue.items[id].name.clone(), asked.item(id)?),
        Found::Failure(id) => (id, ready.catalogue.failures[id].name.clone(), (asked.failure(id)?, true)),
    };
    Ok(WhyAnswer {
        id: id.to_owned(),
        name: own_name,
        about,
        proven: proven && answer.proof.proven,
        currency: ready.catalogue.currency,
        warnings: answer.warnings.clone(),
        kinds: answer.kinds.clone(),
        trip: answer.trip.clone(),
    })
}

enum Found<'a> {
    Item(&'a str),
    Failure(&'a str),
}

/// By key, then by name as shown.
fn find<'a>(catalogue: &'a Catalogue, name: &str) -> Result<Found<'a>, WhyError> {
    let named = |own: &str| own.eq_ignore_ascii_case(name.trim());
    let item = catalogue.items.values().find(|item| named(&item.id) || named(&item.name));
    let failure = || catalogue.failures.values().find(|failure| named(&failure.id) || named(&failure.name));
    if let Some(item) = item {
        return Ok(Found::Item(&item.id));
    }
    if let Some(failure) = failure() {
        return Ok(Found::Failure(&failure.id));
    }
    let items = catalogue.items.values().flat_map(|item| [item.id.as_str(), item.name.as_str()]);
    let failures = catalogue.failures.values().flat_map(|failure| [failure.id.as_str(), failure.name.as_str()]);
    let nearest = crate::diagnostic::nearest(name, items.chain(failures));
    Err(WhyError::Unknown { name: name.to_owned(), nearest })
}

struct Asked<'a> {
    ready: &'a Ready<'a>,
    answer: &'a PackAnswer,
    counts: &'a [u32],
    effort: &'a Effort,
}

impl Asked<'_> {
    fn item(&self, id: &str) -> Result<(About, bool), PackError> {
        let case = &self.ready.case;
        let Some(at) = case.items.iter().position(|item| item.id == id) else {
            let reason = case.left_out.iter().find(|left| left.item == id).map_or(Reason::NothingNeedsIt, |l| l.reason);
            return Ok((About::Dropped(reason), true));
        };
        if self.counts[at] > 0 { self.carried(at) } else { self.left(at) }
    }

    fn carried(&self, at: usize) -> Result<(About, bool), PackError> {
        let Self { ready, answer, counts, .. } = *self;
        let Ready { case, stakes, .. } = ready;
        let own = &case.items[at];
        let value = risk::value(case, stakes, counts);
        let mut less = counts.to_vec();
        less[at] = 0;
        let after = risk::value(case, stakes, &less);
        let packed = answer.bags.iter().flat_map(|bag| &bag.items).find(|item| item.id == own.id);
        let (other, proven) = self.again(|scenario| {
            scenario.always.shift_remove(&own.id);
            scenario.never.push(own.id.clone());
        })?;
        let unmet = case.demands.iter().enumerate().filter(|(d, demand)| {
            let met = |kit: &[u32]| -> f64 {
                let met = case.items.iter().zip(kit).flat_map(|(item, n)| item.meets.iter().map(move |m| (m, *n)));
                met.filter(|((at, _), _)| at == d).map(|((_, amount), n)| amount * f64::from(n)).sum()
            };
            met(&less) < demand.amount * (1.0 - 1e-9)
        });
        let carried = Carried {
            count: counts[at],
            mass: own.mass * counts[at],
            standing: packed.map_or(Standing::Earns, |item| item.standing),
            purposes: purposes(case, stakes, &value, counts, at),
            covers: self.covers(at, &value.saved, &after.saved),
            alone: Hours::new(value.objective() - after.objective()),
            unmet: unmet.map(|(_, demand)| demand.name.clone()).collect(),
            without: other,
        };
        Ok((About::Carried(carried), proven))
    }

    /// What goes at each failure, and what else in the kit it hangs on.
    fn covers(&self, at: usize, before: &[f64], after: &[f64]) -> Vec<Cover> {
        let Self { ready: Ready { case, stakes, .. }, counts, .. } = *self;
        let lost: Vec<usize> = (0..case.failures.len()).filter(|f| before[*f] - after[*f] > 1e-9).collect();
        let others: Vec<usize> = (0..counts.len()).filter(|i| *i != at && counts[*i] > 0).collect();
        let mut with: Vec<Vec<String>> = vec![Vec::new(); case.failures.len()];
        for other in others {
            let mut less = counts.to_vec();
            less[other] = 0;
            let saved = risk::value(case, stakes, &less).saved;
            for f in lost.iter().filter(|f| before[**f] - saved[**f] > 1e-9) {
                with[*f].push(case.items[other].name.clone());
            }
        }
        let cover = |f: usize| Cover {
            failure: case.failures[f].name.clone(),
            hours: Hours::new(before[f] - after[f]),
            with: with[f].clone(),
        };
        let mut covers: Vec<Cover> = lost.into_iter().map(cover).collect();
        covers.sort_by(|a, b| b.hours.get().total_cmp(&a.hours.get()));
        covers
    }

    fn left(&self, at: usize) -> Result<(About, bool), PackError> {
        let Self { ready, counts, .. } = *self;
        let Ready { case, stakes, .. } = ready;
        let own = &case.items[at];
        let mut more = counts.to_vec();
        more[at] = 1;
        let value = |kit: &[u32]| risk::value(case, stakes, kit).objective();
        let (with, proven) = self.again(|scenario| {
            scenario.always.insert(own.id.clone(), 1);
        })?;
        let left = Left {
            mass: own.mass,
            price: if own.owned > 0 { Money::ZERO } else { own.price },
            on_top: Hours::new(value(&more) - value(counts)),
            with,
        };
        Ok((About::Left(left), proven))
    }

    /// The best kit of a changed trip against the best kit; `None` where there is none. Also: is it proven?
    fn again(&self, change: impl FnOnce(&mut Scenario)) -> Result<(Option<Other>, bool), PackError> {
        let mut scenario = self.ready.scenario.clone();
        change(&mut scenario);
        let changed = Ready::new(&self.ready.catalogue, &scenario, self.ready.rider)?;
        let solved = match changed.solve(self.effort) {
            Ok(solved) => solved,
            Err(PackError::Infeasible { .. }) => return Ok((None, true)),
            Err(error) => return Err(error),
        };
        let answer = changed.answer(&solved, self.effort)?;
        let (entering, leaving) = differences(&self.ready.catalogue, &self.answer.kit, &answer.kit);
        let other = Other {
            loss: Hours::new(self.answer.proof.objective - answer.proof.objective),
            entering,
            leaving,
            mass: answer.totals.mass,
            self_recovery: answer.figures.self_recovery,
        };
        Ok((Some(other), answer.proof.proven))
    }

    fn failure(&self, id: &str) -> Result<About, PackError> {
        let Self { ready, counts, .. } = *self;
        let Ready { case, stakes, .. } = ready;
        let Some(f) = case.failures.iter().position(|failure| failure.id == id) else {
            return Ok(About::NotOnThisBike);
        };
        let failure = &case.failures[f];
        let value = risk::value(case, stakes, counts);
        let mut repairs = Vec::new();
        for (r, repair) in failure.repairs.iter().enumerate() {
            let share = value.shares[f][r];
            let able = risk::value::able(case, counts, repair);
            let set = |measure: Measure| {
                if able { Ok(None) } else { sufficient(case, stakes, counts, repair, measure, self.effort) }
            };
            let explain = |error| ready.explain(error, self.effort);
            repairs.push(RepairReasons {
                name: repair.name.clone(),
                hours: Hours::new(stakes.repairs[f][r].benefit),
                share,
                uses: if share > 0.0 { self.taken_by(f) } else { Vec::new() },
                lightest: set(Measure::Mass).map_err(explain)?,
                cheapest: set(Measure::Money).map_err(explain)?,
            });
        }
        repairs.sort_by(|a, b| b.hours.get().total_cmp(&a.hours.get()));
        Ok(About::Failure(FailureReasons {
            outcome: failure.outcome.word(),
            mean: stakes.means[f],
            hours_empty: Hours::new(stakes.hours_unrepaired[f]),
            hours_left: Hours::new((stakes.hours_unrepaired[f] - value.saved[f]).max(0.0)),
            repairs,
            skill_wanted: failure.beyond_skill.map(crate::domain::RepairSkill::word),
        }))
    }

    /// Things in the kit without which less would be saved at a failure.
    fn taken_by(&self, f: usize) -> Vec<String> {
        let Self { ready: Ready { case, stakes, .. }, counts, .. } = *self;
        let before = risk::value(case, stakes, counts).saved[f];
        let matters = |i: &usize| {
            let mut less = counts.to_vec();
            less[*i] = 0;
            before - risk::value(case, stakes, &less).saved[f] > 1e-9
        };
        let carried = (0..counts.len()).filter(|i| counts[*i] > 0);
        carried.filter(matters).map(|i| case.items[i].name.clone()).collect()
    }
}
