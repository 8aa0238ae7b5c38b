//! The reasons for one thing or failure as people read them.

use super::pack::care;
use super::{Cell, Figure, Names, Next, Section, Typed, View};
use crate::Look;
use crate::amount::money;
use crate::bill::bill;
use crate::told::Line;
use crate::words::{chance, counted, list, percent, sentence};
use fardel_core::answer::{
    About, Carried, Change, FailureReasons, Left, Other, RepairReasons, Set, Standing, WhyAnswer,
};
use fardel_core::units::{Hours, Money};
use fardel_words::{say, several, translated, word};

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
        who: say!("{}, {} on a {}", answer.trip.scenario, answer.trip.rider, answer.trip.bike),
        ..View::default()
    };
    match &answer.about {
        About::Carried(own) => say.carried(&mut view, own),
        About::Left(own) => say.left(&mut view, answer, own),
        About::Dropped(reason) => {
            view.verdict.push(Line::new("Left out", say!("it was not weighed at all: {}", reason.words())));
        }
        About::Failure(own) => say.failure(&mut view, answer, own),
        About::NotOnThisBike => view.verdict.push(Line::new("Never", word!("it cannot happen on this bike"))),
    }
    if !answer.proven {
        view.remarks
            .push(Line::new("Not proven", word!("a better kit may exist; the hours may be off by what was left open")));
    }
    view.remarks.push(care());
    view.next = next(answer, typed);
    view
}

fn next(answer: &WhyAnswer, typed: &Typed) -> Vec<Next> {
    let show =
        Next { command: format!("fardel show {}", answer.id), tells: word!("what is known of it, and on what basis") };
    vec![show, typed.again(&format!("why {}", answer.id), "--full", word!("every failure and every kit compared"))]
}

/// What a failure does to the bike.
pub(crate) fn outcome(word: &str) -> &'static str {
    match word {
        "stops" => word!("stops the bike"),
        "limps" => word!("leaves it limping"),
        _ => word!("is a nuisance"),
    }
}

/// `you lose 12 min`, `you gain 1 min`, or that nobody would notice.
pub(crate) fn gained_or_lost(loss: Hours, look: &Look) -> String {
    match loss.get() {
        h if h.abs() < NOTICED.get() => say!("next to nothing changes"),
        h if h < 0.0 => say!("you gain {} on average", look.show(Hours::new(-h))),
        _ => say!("you lose {} on average", look.show(loss)),
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
                (word!("Take it"), say!("the trip demands it, or something that the trip demands needs it"))
            }
            Standing::Asked => (word!("Take it"), say!("it is on your always list")),
            Standing::Earns if own.alone.get() >= 0.0 => (word!("Take it"), say!("it {}", bill(saved, &own.costs))),
            Standing::Earns => (word!("Doubtful"), say!("by itself it {}", bill(saved, &own.costs))),
        };
        view.verdict.push(Line::new(word, verdict));
        view.verdict.push(Line::new("Carried", say!("{}, {} in all", own.count, self.look.show(own.mass))));
        if !own.purposes.is_empty() {
            view.verdict.push(Line::new("For", self.first_few(&own.purposes)));
        }
        let mut without = gained_or_lost(own.alone, self.look);
        if !own.unmet.is_empty() {
            without += &say!(", and the trip lacks {}", list(&own.unmet));
        }
        view.verdict.push(Line::new("Without it", say!("{without}, if nothing else changes")));
        view.verdict.push(Line::new("Packed anew", self.again(own.without.as_ref())));
        let row = |cover: &fardel_core::answer::Cover| -> Vec<Cell> {
            let with: Vec<String> = cover.with.iter().map(|name| self.names.short(name).to_owned()).collect();
            let with = if with.is_empty() { say!("alone") } else { say!("with {}", self.first_few(&with)) };
            vec![Figure::minutes(cover.hours).into(), cover.failure.clone().into(), with.into()]
        };
        let rows: Vec<Vec<Cell>> = own.covers.iter().map(row).collect();
        if !rows.is_empty() {
            let section = Section::new(word!("What it takes care of"), &["#", "", ""], rows, 6);
            view.sections.push(section.with_rest(|more| several!(more, "{n} smaller one", "{n} smaller ones")));
        }
    }

    fn left(&self, view: &mut View, answer: &WhyAnswer, own: &Left) {
        let bill = bill(own.on_top + own.costs.hours(), &own.costs);
        let (word, verdict) = if own.on_top.get() > 0.0 {
            (word!("Worth it"), say!("one {bill}; there is no room for it within your limits"))
        } else {
            (word!("Leave it"), say!("one {bill}"))
        };
        view.verdict.push(Line::new(word, verdict));
        let price = if own.price == Money::ZERO {
            say!("you own it")
        } else {
            say!("{} to buy", money(own.price, answer.currency))
        };
        view.verdict.push(Line::new("Weighs", format!("{}; {price}", self.look.show(own.mass))));
        view.verdict
            .push(Line::new("Taken along", say!("and all else packed anew: {}", self.again(own.with.as_ref()))));
    }

    fn failure(&self, view: &mut View, answer: &WhyAnswer, own: &FailureReasons) {
        view.verdict.push(Line::new("It", format!("{}; {}", outcome(own.outcome), chance(own.mean))));
        let (empty, now) = (self.look.show(own.hours_empty), self.look.show(own.hours_left));
        view.verdict.push(Line::new("Costs", say!("{now} on average with this kit, {empty} with nothing aboard")));
        if own.repairs.is_empty() {
            view.verdict.push(Line::new("No repair", word!("none on the road is worth beginning for this rider")));
        }
        if let Some(skill) = own.skill_wanted {
            view.verdict
                .push(Line::new("Skill", say!("somebody {skill} at repairs could do more", skill = translated(skill))));
        }
        let row = |repair: &RepairReasons| -> Vec<Cell> {
            vec![Figure::minutes(repair.hours).into(), repair.name.clone().into(), self.way(answer, repair).into()]
        };
        let rows: Vec<Vec<Cell>> = own.repairs.iter().map(row).collect();
        if !rows.is_empty() {
            let section =
                Section::new(word!("Repairs, and what each saves if it can always be done"), &["#", "", ""], rows, 8);
            view.sections.push(section.with_rest(|more| say!("{more} more")));
        }
    }

    /// What the kit does about a repair, or what it would take.
    fn way(&self, answer: &WhyAnswer, own: &RepairReasons) -> String {
        if own.share > 0.0 {
            let uses: Vec<String> = own.uses.iter().map(|name| self.names.short(name).to_owned()).collect();
            let uses = if uses.is_empty() { String::new() } else { say!(" with {}", list(&uses)) };
            return say!("the kit does it{uses}, in {} of the cases", percent(own.share));
        }
        match own.lightest.as_ref().or(own.cheapest.as_ref()) {
            None => say!("possible with the kit, not the first choice"),
            Some(set) => say!("would take {}", self.set(answer, set)),
        }
    }

    fn set(&self, answer: &WhyAnswer, own: &Set) -> String {
        let things: Vec<String> =
            own.items.iter().map(|(name, count)| counted(*count, self.names.short(name))).collect();
        let price = if own.price == Money::ZERO { say!("nothing to buy") } else { money(own.price, answer.currency) };
        format!("{} ({}, {price})", list(&things), self.look.show(own.mass))
    }

    /// What packing anew comes to.
    fn again(&self, other: Option<&Other>) -> String {
        let Some(other) = other else { return say!("no kit meets all needs within all limits") };
        let mut text = gained_or_lost(other.loss, self.look);
        let entering = self.changes(&other.entering);
        let leaving = self.changes(&other.leaving);
        if !entering.is_empty() {
            text += &say!("; in: {}", self.first_few(&entering));
        }
        if !leaving.is_empty() {
            text += &say!("; out: {}", self.first_few(&leaving));
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
            more => say!("{shown}; {more} more"),
        }
    }
}
