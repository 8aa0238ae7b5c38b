//! A class, a row for each thing that is carried, bought or lacking, and for each fastener that cannot be turned.

use super::{plain, several, table};
use csv::Error;
use fardel_core::answer::class::{ClassAnswer, Member};
use fardel_core::units::Currency;

const HEAD: [&str; 10] = ["rider", "bike", "what", "bag", "id", "name", "count", "mass_g", "price", "for"];

/// All riders.
///
/// # Errors
/// [`Error`] when a row cannot be written, which memory always can.
pub fn class(answer: &ClassAnswer) -> Result<String, Error> {
    table(&HEAD, answer.members.iter().flat_map(|member| rows(member, answer.currency)).chain(shared(answer)))
}

/// One rider.
///
/// # Errors
/// As [`class`].
pub fn class_member(member: &Member, currency: Currency) -> Result<String, Error> {
    table(&HEAD, rows(member, currency))
}

fn row(member: &Member, what: &str, cells: [String; 7]) -> Vec<String> {
    [plain(&member.rider), plain(&member.bike), what.to_owned()].into_iter().chain(cells).collect()
}

fn rows(member: &Member, currency: Currency) -> Vec<Vec<String>> {
    let none = String::new;
    let mut rows = Vec::new();
    if let Ok(kit) = &member.kit {
        for (bag, item) in kit.bags.iter().flat_map(|bag| bag.items.iter().map(move |item| (bag, item))) {
            let mass = item.mass.grams().to_string();
            let cells = [
                bag.id.clone(),
                item.id.clone(),
                plain(&item.name),
                item.count.to_string(),
                mass,
                none(),
                several(&item.purposes),
            ];
            rows.push(row(member, "carry", cells));
        }
        for own in &kit.purchases {
            let price = format!("{} {currency}", own.price.units());
            rows.push(row(
                member,
                "buy",
                [none(), none(), plain(&own.name), own.count.to_string(), none(), price, none()],
            ));
        }
    } else {
        rows.push(row(member, "no_kit", std::array::from_fn(|_| none())));
    }
    for own in &member.unturned {
        let name = format!("{}, {}", own.what, own.size);
        rows.push(row(
            member,
            "cannot_turn",
            [none(), none(), plain(&name), none(), none(), none(), several(&own.jobs)],
        ));
    }
    for own in &member.lacks {
        let mass = own.mass.grams().to_string();
        rows.push(row(
            member,
            "leader_has",
            [none(), own.id.clone(), plain(&own.name), "1".to_owned(), mass, none(), none()],
        ));
    }
    rows
}

/// What one does for all.
fn shared(answer: &ClassAnswer) -> impl Iterator<Item = Vec<String>> + '_ {
    answer.shopping.iter().filter_map(|line| {
        let once = line.once.as_ref()?;
        let price = format!("{} {}", once.money.units(), answer.currency);
        let (id, name, mass) = (line.id.clone(), plain(&line.name), once.mass.grams().to_string());
        let carrier = plain(&once.carrier);
        let what = "one_for_all_saves".to_owned();
        Some(vec![carrier, String::new(), what, String::new(), id, name, String::new(), mass, price, String::new()])
    })
}
