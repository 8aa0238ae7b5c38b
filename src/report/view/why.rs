//! The reasons for one thing or failure as people read them.

use super::pack::care;
use super::{Cell, Figure, Names, Next, Section, Typed, View};
use crate::Look;
use crate::amount::money;
use crate::bill::bill;
use crate::told::Line;
use crate::words::{chance, counted, counted_words, list, percent, sentence};
use fardel_core::answer::{
    About, Carried, Change, FailureReasons, Left, Other, RepairReasons, Set, Standing, WhyAnswer,
};
use fardel_core::units::{Hours, Money};

/// Half a minute: less than that, both ways, is no difference that a rider would see.
const NOTICED: Hours = Hours::new(0.5 / 60.0);
/// So many names of a list are shown.
const FEW: usize = 4;

/// The view of `why`.
#[must_use]
pub fn why(answer: &WhyAnswer, names: &Names, typed: &Typed, look: &Look) -> View {
    told(answer, names, FEW, typed, look)
}

/// The same, naming at most so many of a list.
pub(crate) fn told(answer: &WhyAnswer, names: &Names, most: usize, typed: &Typed, look: &Look) -> View {
    let say = &Say { names, most, look };
    let mut view = View {
        title: sentence(&answer.name),
        who: format!("{}, {} on a {}", answer.trip.scenario, answer.trip.rider, answer.trip.bike),
        ..View::default()
    };
    match &answer.about {
        About::Carried(own) => say.carried(&mut view, own),
        About::Left(own) => say.left(&mut view, answer, own),
        About::Dropped(reason) => {
            view.verdict.push(Line::new("Left out", format!("it was not weighed at all: {}", reason.words())));
        }
        About::Failure(own) => say.failure(&mut view, answer, own),
        About::NotOnThisBike => view.verdict.push(Line::new("Never", "it cannot happen on this bike")),
    }
    if !answer.proven {
        view.remarks
            .push(Line::new("Not proven", "a better kit may exist; the hours may be off by what was left open"));
    }
    view.remarks.push(care());
    view.next = next(answer, typed);
    view
}

fn next(answer: &WhyAnswer, typed: &Typed) -> Vec<Next> {
    let show = Next { command: format!("fardel show {}", answer.id), tells: "what is known of it, and on what basis" };
    vec![show, typed.again(&format!("why {}", answer.id), "--full", "every failure and every kit compared")]
}

/// What a failure does to the bike.
pub(crate) fn outcome(word: &str) -> &'static str {
    match word {
        "stops" => "stops the bike",
        "limps" => "leaves it limping",
        _ => "is a nuisance",
    }
}

/// `you lose 12 min`, `you gain 1 min`, or that nobody would notice.
pub(crate) fn gained_or_lost(loss: Hours, look: &Look) -> String {
    match loss.get() {
        h if h.abs() < NOTICED.get() => "next to nothing changes".to_owned(),
        h if h < 0.0 => format!("you gain {} on average", look.show(Hours::new(-h))),
        _ => format!("you lose {} on average", look.show(loss)),
    }
}

/// How names and figures are said.
struct Say<'a> {
    names: &'a Names,
    /// So many names of a list.
    most: usize,
    look: &'a Look,
}

impl Say<'_> {
    fn carried(&self, view: &mut View, own: &Carried) {
        let saved = own.alone + own.costs.hours();
        let (word, verdict) = match own.standing {
            Standing::Needed => {
                ("Take it", "the trip demands it, or something that the trip demands needs it".to_owned())
            }
            Standing::Asked => ("Take it", "it is on your always list".to_owned()),
            Standing::Earns if own.alone.get() >= 0.0 => ("Take it", format!("it {}", bill(saved, &own.costs))),
            Standing::Earns => ("Doubtful", format!("by itself it {}", bill(saved, &own.costs))),
        };
        view.verdict.push(Line::new(word, verdict));
        view.verdict.push(Line::new("Carried", format!("{}, {} in all", own.count, self.look.show(own.mass))));
        if !own.purposes.is_empty() {
            view.verdict.push(Line::new("For", self.first_few(&own.purposes)));
        }
        let mut without = gained_or_lost(own.alone, self.look);
        if !own.unmet.is_empty() {
            without += &format!(", and the trip lacks {}", list(&own.unmet));
        }
        view.verdict.push(Line::new("Without it", format!("{without}, if nothing else changes")));
        view.verdict.push(Line::new("Packed anew", self.again(own.without.as_ref())));
        let row = |cover: &fardel_core::answer::Cover| -> Vec<Cell> {
            let with: Vec<String> = cover.with.iter().map(|name| self.names.short(name).to_owned()).collect();
            let with = if with.is_empty() { "alone".to_owned() } else { format!("with {}", self.first_few(&with)) };
            vec![Figure::minutes(cover.hours).into(), cover.failure.clone().into(), with.into()]
        };
        let rows: Vec<Vec<Cell>> = own.covers.iter().map(row).collect();
        if !rows.is_empty() {
            let section = Section::new("What it takes care of", &["#", "", ""], rows, 6);
            view.sections.push(section.with_rest(|more| counted_words(more, "smaller one", "smaller ones")));
        }
    }

    fn left(&self, view: &mut View, answer: &WhyAnswer, own: &Left) {
        let bill = bill(own.on_top + own.costs.hours(), &own.costs);
        let (word, verdict) = if own.on_top.get() > 0.0 {
            ("Worth it", format!("one {bill}; there is no room for it within your limits"))
        } else {
            ("Leave it", format!("one {bill}"))
        };
        view.verdict.push(Line::new(word, verdict));
        let price = if own.price == Money::ZERO {
            "you own it".to_owned()
        } else {
            format!("{} to buy", money(own.price, answer.currency))
        };
        view.verdict.push(Line::new("Weighs", format!("{}; {price}", self.look.show(own.mass))));
        view.verdict
            .push(Line::new("Taken along", format!("and all else packed anew: {}", self.again(own.with.as_ref()))));
    }

    fn failure(&self, view: &mut View, answer: &WhyAnswer, own: &FailureReasons) {
        view.verdict.push(Line::new("It", format!("{}; {}", outcome(own.outcome), chance(own.mean))));
        let (empty, now) = (self.look.show(own.hours_empty), self.look.show(own.hours_left));
        view.verdict.push(Line::new("Costs", format!("{now} on average with this kit, {empty} with nothing aboard")));
        if own.repairs.is_empty() {
            view.verdict.push(Line::new("No repair", "none on the road is worth beginning for this rider"));
        }
        if let Some(skill) = own.skill_wanted {
            view.verdict.push(Line::new("Skill", format!("somebody {skill} at repairs could do more")));
        }
        let row = |repair: &RepairReasons| -> Vec<Cell> {
            vec![Figure::minutes(repair.hours).into(), repair.name.clone().into(), self.way(answer, repair).into()]
        };
        let rows: Vec<Vec<Cell>> = own.repairs.iter().map(row).collect();
        if !rows.is_empty() {
            let section =
                Section::new("Repairs, and what each saves if it can always be done", &["#", "", ""], rows, 8);
            view.sections.push(section.with_rest(|more| format!("{more} more")));
        }
    }

    /// What the kit does about a repair, or what it would take.
    fn way(&self, answer: &WhyAnswer, own: &RepairReasons) -> String {
        if own.share > 0.0 {
            let uses: Vec<String> = own.uses.iter().map(|name| self.names.short(name).to_owned()).collect();
            let uses = if uses.is_empty() { String::new() } else { format!(" with {}", list(&uses)) };
            return format!("the kit does it{uses}, in {} of the cases", percent(own.share));
        }
        match own.lightest.as_ref().or(own.cheapest.as_ref()) {
            None => "possible with the kit, not the first choice".to_owned(),
            Some(set) => format!("would take {}", self.set(answer, set)),
        }
    }

    fn set(&self, answer: &WhyAnswer, own: &Set) -> String {
        let things: Vec<String> =
            own.items.iter().map(|(name, count)| counted(*count, self.names.short(name))).collect();
        let price =
            if own.price == Money::ZERO { "nothing to buy".to_owned() } else { money(own.price, answer.currency) };
        format!("{} ({}, {price})", list(&things), self.look.show(own.mass))
    }

    /// What packing anew comes to.
    fn again(&self, other: Option<&Other>) -> String {
        let Some(other) = other else { return "no kit meets all needs within all limits".to_owned() };
        let mut text = gained_or_lost(other.loss, self.look);
        let entering = self.changes(&other.entering);
        let leaving = self.changes(&other.leaving);
        if !entering.is_empty() {
            text += &format!("; in: {}", self.first_few(&entering));
        }
        if !leaving.is_empty() {
            text += &format!("; out: {}", self.first_few(&leaving));
        }
        text
    }

    fn changes(&self, changes: &[Change]) -> Vec<String> {
        changes.iter().map(|change| counted(change.count, self.names.short(&change.name))).collect()
    }

    fn first_few(&self, names: &[String]) -> String {
        let shown = names.iter().take(self.most).cloned().collect::<Vec<_>>().join("; ");
        match names.len().saturating_sub(self.most) {
            0 => shown,
            more => format!("{shown}; {more} more"),
        }
    }
}
