//! No kit will do: which limits and needs stand against each other, and by how much.

use super::{Look, wrapped};
use crate::domain::Catalogue;
use crate::report::words::percent;
use crate::select::relax::Shortfall;
use crate::units::{Mass, Quantity, Volume};

/// The message of exit code 1.
#[must_use]
pub fn infeasible(catalogue: &Catalogue, shortfalls: &[Shortfall], look: &Look) -> String {
    let mut text = "No kit meets all needs within all limits.\n".to_owned();
    if shortfalls.is_empty() {
        text += "Masses and volumes would do, but the things cannot be stowed in these bags together: think of another bag.\n";
        return text;
    }
    text += "The least that would have to give:\n";
    for shortfall in shortfalls {
        text += &wrapped(&format!("- {}", line(catalogue, shortfall, look)), look, "  ");
    }
    text
}

fn line(catalogue: &Catalogue, shortfall: &Shortfall, look: &Look) -> String {
    let by = shortfall.by;
    match shortfall.family {
        "need" => {
            let name = catalogue.needs.get(&shortfall.key).map_or(shortfall.key.as_str(), |need| need.name.as_str());
            if by > 0.995 {
                format!("{name}: none of it can be had within these limits")
            } else {
                format!("{name}: {} of it cannot be had within these limits", percent(by))
            }
        }
        "cap" if shortfall.key == "budget" => {
            format!("the budget: {by:.0} {0} more than {1:.0} {0}", catalogue.currency, shortfall.limit)
        }
        "cap" if shortfall.key.ends_with("mL") => {
            format!("the kit's volume: {} more than {}", millilitres(by, look), millilitres(shortfall.limit, look))
        }
        "cap" => format!("the kit's mass: {} more than {}", grams(by, look), grams(shortfall.limit, look)),
        _ => match shortfall.key.rsplit_once(", ") {
            Some((bags, "mL")) => format!("room in {bags}: {} more", millilitres(by, look)),
            Some((bags, _)) => format!("load on {bags}: {} more", grams(by, look)),
            None => format!("{}: {by} more", shortfall.key),
        },
    }
}

fn millilitres(millilitres: f64, look: &Look) -> String {
    look.show(Volume::from_base(millilitres * 1e3))
}

fn grams(grams: f64, look: &Look) -> String {
    look.show(Mass::from_base(grams * 1e3))
}
