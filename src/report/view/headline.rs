//! What matters first: what to carry, what it saves, how sure that is.

use super::fuel;
use super::load::name;
use crate::Look;
use crate::firm::firm;
use crate::told::Line;
use crate::words::{chance, finely, home, minutes, percent, sentence};
use fardel_core::answer::solve::Way;
use fardel_core::answer::{Allowance, By, Figures, PackAnswer, PriceTags, Proof};
use fardel_core::risk::Terms;
use fardel_core::units::{Currency, Hours, Money};
use fardel_words::{say, several, word};

/// Who rides what, how far.
pub(crate) fn who(answer: &PackAnswer, look: &Look) -> String {
    let trip = &answer.trip;
    let nights = if trip.nights == 0 {
        String::new()
    } else {
        format!(", {}", several!(f64::from(trip.nights), "{n} night", "{n} nights"))
    };
    let off_road = if trip.off_road.km() > 0.0 {
        say!(", {} of it track and rough", look.show(trip.off_road))
    } else {
        String::new()
    };
    say!(
        "{} on a {}: {}{nights}, {}{off_road}, help up to {} away.",
        trip.rider,
        trip.bike,
        several!(trip.days, "{n} day", "{n} days"),
        look.show(trip.distance),
        look.show(trip.furthest),
    )
}

/// The same in few words, for a page's head.
pub(crate) fn who_in_short(answer: &PackAnswer, look: &Look) -> String {
    let trip = &answer.trip;
    let parts = [
        trip.rider.clone(),
        trip.bike.clone(),
        several!(trip.days, "{n} day", "{n} days"),
        look.show(trip.distance),
        say!("help up to {} away", look.show(trip.furthest)),
    ];
    parts.join(" \u{b7} ")
}

/// What matters first, each with its opening word.
pub(crate) fn lines(answer: &PackAnswer, look: &Look) -> Vec<Line> {
    let mut lines = fuel::lines(answer.fuel.as_ref(), answer.charge.as_ref(), look);
    lines.push(Line::new("Carry", carry(answer, look)));
    lines.push(Line::new("Worth", saves(&answer.figures, look)));
    lines.push(Line::new("Home", recovery(&answer.figures)));
    lines.extend(costs(answer, look));
    lines.push(proof(&answer.proof, look));
    lines.extend(answer.firm.as_ref().and_then(firm).map(|text| Line::new("Firm", text)));
    lines
}

fn carry(answer: &PackAnswer, look: &Look) -> String {
    let totals = &answer.totals;
    let tightest = answer.loads.first().and_then(|load| load.allowances.first());
    let limit = match (tightest, totals.mass_limit) {
        (Some(Allowance { by: by @ By::Bike(_), mass }), _) => {
            say!(" of the {} that {} leaves", look.show(*mass), name(*by))
        }
        (_, Some(limit)) => say!(" of the {} you allow", look.show(limit)),
        (_, None) => String::new(),
    };
    let budget = totals.budget.map_or_else(String::new, |budget| say!(" of {:.0}", budget.units()));
    let money = if totals.to_buy == fardel_core::units::Money::ZERO {
        say!("nothing to buy")
    } else {
        say!("{:.0}{budget} {} to buy", totals.to_buy.units(), totals.currency)
    };
    say!(
        "{}, {}{limit}, {} in {} of bags, {money}.",
        several!(totals.units as usize, "{n} thing", "{n} things"),
        look.show(totals.mass),
        look.show(totals.volume),
        look.show(totals.room),
    )
}

fn saves(figures: &Figures, look: &Look) -> String {
    let often = if figures.failures < 1.0 {
        say!("something breaks on {}", chance(figures.failures))
    } else {
        say!("{:.1} things break", figures.failures)
    };
    say!(
        "With nothing aboard, expect to lose {} to breakdowns ({often}). This kit saves {} of that ({}), which leaves {}.",
        look.show(figures.hours_empty),
        look.show(figures.hours_saved),
        percent(figures.coverage),
        look.show(hours_left(figures.hours_empty, figures.hours_saved)),
    )
}

/// What is lost all the same.
pub(crate) fn hours_left(empty: Hours, saved: Hours) -> Hours {
    Hours::new((empty.get() - saved.get()).max(0.0))
}

/// What the kit costs beside, by the prices of the trip.
fn costs(answer: &PackAnswer, look: &Look) -> Option<Line> {
    let (tags, terms) = (&answer.prices, &answer.figures.terms);
    if !tags.any() && terms.handling() < 1.0 / 60.0 {
        return None;
    }
    Some(Line::new("Price", price_text(tags, terms, answer.totals.currency, look)))
}

/// What a kilogram, a thing and money cost, and what that comes to for this kit.
pub(crate) fn price_text(tags: &PriceTags, terms: &Terms, currency: Currency, look: &Look) -> String {
    let minutes = |hours: f64| minutes(Hours::new(hours));
    let mut parts = vec![say!(
        "a kilogram costs {} on this trip ({} riding, {} falls): {} for this kit",
        minutes(tags.kilogram.hours()),
        minutes(tags.kilogram.riding),
        minutes(tags.kilogram.falls),
        look.show(Hours::new(terms.handling())),
    )];
    if tags.thing > Hours::ZERO {
        parts.push(say!("packing, at {} a thing, {}", minutes(tags.thing.get()), look.show(Hours::new(terms.packing))));
    }
    if tags.hour > Money::ZERO {
        let hour = say!("{:.0} {currency}", tags.hour.units());
        parts.push(say!("what is bought, at {hour} an hour, {}", look.show(Hours::new(terms.money))));
    }
    sentence(&format!("{}.", parts.join("; ")))
}

fn recovery(figures: &Figures) -> String {
    say!(
        "Chance that no breakdown leaves you stranded: {}; with nothing aboard {}.",
        home(&figures.home),
        finely(figures.self_recovery_empty),
    )
}

fn proof(proof: &Proof, look: &Look) -> Line {
    let how = if proof.way == Way::Joint { word!(" Items and bags were decided together.") } else { "" };
    if proof.proven {
        return Line::new("Proven", say!("No other kit within your limits saves more, by these rates.{how}"));
    }
    if let Some(line) = nearly(proof.objective, proof.bound) {
        return line;
    }
    let more = look.show(Hours::new((proof.bound - proof.objective).max(0.0)));
    let share = percent(proof.gap);
    if proof.way == Way::Roomier {
        let text = say!(
            "The very best kits do not quite go into these bags together; this one does, and another might save up to \
             {more} more ({share} of this one's).",
        );
        return Line::new("Not proven", text);
    }
    let text = say!(
        "Stopped before the proof was complete: another kit might save up to {more} more ({share} of this one's).{how}"
    );
    Line::new("Not proven", text)
}

/// What no rider would notice, in hours: it is told as 0 minutes.
const HALF_A_MINUTE: f64 = 0.5 / 60.0;

/// How sure it is that no kit is better, in a line; `more` says what another kit might save.
pub(super) fn sure(
    (proven, objective, bound): (bool, f64, f64),
    more: impl FnOnce(String) -> String,
    look: &Look,
) -> Line {
    if proven {
        return Line::new("Proven", word!("no kit within your limits saves more, by these rates"));
    }
    let open = || more(look.show(Hours::new((bound - objective).max(0.0))));
    nearly(objective, bound).unwrap_or_else(|| Line::new("Not proven", open()))
}

/// Proven as far as matters: what another kit might save beyond this one, in hours, rounds to nothing.
fn nearly(objective: f64, bound: f64) -> Option<Line> {
    let text = word!("no kit within your limits saves half a minute more, by these rates");
    (bound - objective < HALF_A_MINUTE).then(|| Line::new("Proven", text))
}
