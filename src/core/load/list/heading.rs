//! The heading of a list as riders keep it: which column is what, whatever it is called.

use csv::StringRecord;

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holds {
    Name,
    Count,
    /// Of one.
    Mass,
    /// Of all of the line.
    AllMass,
    Volume,
    Longest,
    Price,
    Kind,
    Bag,
}

/// A column that is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Column {
    pub at: usize,
    pub holds: Holds,
    /// The unit of bare numbers; empty if the heading has none.
    pub unit: String,
    pub title: String,
}

/// Titles for each sort of column, plain: lower case, letters and spaces only. Several tongues of the trade's spreadsheets
/// are not guessed at: English only.
const TITLES: &[(Holds, &[&str])] = &[
    (
        Holds::Name,
        &[
            "item",
            "items",
            "name",
            "thing",
            "things",
            "what",
            "description",
            "gear",
            "article",
            "equipment",
            "object",
            "tool",
            "stuff",
        ],
    ),
    (
        Holds::Count,
        &[
            "qty", "quantity", "count", "number", "no", "nr", "pcs", "pieces", "how many", "amount", "units", "x",
            "each",
        ],
    ),
    (
        Holds::AllMass,
        &["total weight", "weight total", "total mass", "mass total", "total", "sum", "line weight", "combined weight"],
    ),
    (
        Holds::Mass,
        &[
            "weight",
            "mass",
            "wt",
            "weight each",
            "each weight",
            "unit weight",
            "weight per item",
            "weight of one",
            "mass of one",
            "mass each",
            "item weight",
        ],
    ),
    (Holds::Volume, &["volume", "vol", "packed volume", "size packed"]),
    (Holds::Longest, &["longest", "length", "longest side"]),
    (Holds::Price, &["price", "cost", "value"]),
    (Holds::Kind, &["kind", "category", "type", "group", "class", "section"]),
    (Holds::Bag, &["bag", "where", "location", "packed in", "stowed", "pannier", "in"]),
];

/// Units of mass as headings name them, and as they are read.
pub(super) const UNITS: &[(&str, &str)] = &[
    ("g", "g"),
    ("gr", "g"),
    ("gram", "g"),
    ("grams", "g"),
    ("gramme", "g"),
    ("grammes", "g"),
    ("gms", "g"),
    ("kg", "kg"),
    ("kgs", "kg"),
    ("kilo", "kg"),
    ("kilos", "kg"),
    ("kilogram", "kg"),
    ("kilograms", "kg"),
    ("lb", "lb"),
    ("lbs", "lb"),
    ("pound", "lb"),
    ("pounds", "lb"),
    ("oz", "oz"),
    ("ozs", "oz"),
    ("ounce", "oz"),
    ("ounces", "oz"),
    ("ml", "mL"),
    ("l", "L"),
    ("litre", "L"),
    ("litres", "L"),
    ("liter", "L"),
    ("liters", "L"),
    ("mm", "mm"),
    ("cm", "cm"),
    ("in", "in"),
    ("inch", "in"),
    ("inches", "in"),
    ("usd", "USD"),
    ("eur", "EUR"),
    ("gbp", "GBP"),
    ("aud", "AUD"),
];

/// The unit as it is read.
pub(super) fn unit(word: &str) -> Option<&'static str> {
    let word = word.trim().trim_end_matches('.').to_lowercase();
    UNITS.iter().find(|(written, _)| *written == word).map(|(_, unit)| *unit)
}

/// The columns, if this row is a heading: it has a column of names, and at least one other or a unit.
pub(super) fn columns(row: &StringRecord) -> Option<Vec<Column>> {
    let mut columns: Vec<Column> = Vec::new();
    for (at, title) in row.iter().enumerate() {
        let Some((holds, unit)) = read(title) else { continue };
        // `Weight (g)` and `Weight (lb)` side by side say the same: the first is read.
        if !columns.iter().any(|other| other.holds == holds) {
            columns.push(Column { at, holds, unit, title: title.to_owned() });
        }
    }
    columns.iter().any(|column| column.holds == Holds::Name).then_some(columns)
}

/// Is there a column of ids, which a list of names does not have?
pub(super) fn has_ids(row: &StringRecord) -> bool {
    row.iter().any(|title| matches!(title.trim().to_lowercase().as_str(), "id" | "bag_id"))
}

fn read(title: &str) -> Option<(Holds, String)> {
    let plain: String = title.to_lowercase().chars().map(|c| if c.is_alphabetic() { c } else { ' ' }).collect();
    let words: Vec<&str> = plain.split_whitespace().filter(|word| *word != "in" || plain.trim() == "in").collect();
    let (unit_at, unit) = words.iter().enumerate().rev().find_map(|(at, word)| Some((at, unit(word)?))).unzip();
    let rest: Vec<&str> =
        words.iter().enumerate().filter(|(at, _)| Some(*at) != unit_at).map(|(_, word)| *word).collect();
    let (name, unit) = (rest.join(" "), unit.unwrap_or_default().to_owned());
    if name.is_empty() {
        // A heading that is only a unit: `g`, `kg`, `lbs`.
        return matches!(unit.as_str(), "g" | "kg" | "lb" | "oz").then_some((Holds::Mass, unit));
    }
    let known = |name: &str| TITLES.iter().find(|(_, titles)| titles.contains(&name)).map(|(holds, _)| *holds);
    known(&name).or_else(|| known(&words.join(" "))).map(|holds| (holds, unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn holds(heading: &[&str]) -> Vec<(Holds, String)> {
        let row = StringRecord::from(heading.to_vec());
        columns(&row).unwrap_or_default().into_iter().map(|column| (column.holds, column.unit)).collect()
    }

    #[test]
    fn usual_headings_are_known() {
        let own = |holds, unit: &str| (holds, unit.to_owned());
        assert_eq!(
            holds(&["Item", "Qty", "Weight"]),
            [own(Holds::Name, ""), own(Holds::Count, ""), own(Holds::Mass, "")]
        );
        assert_eq!(holds(&["what", "g"]), [own(Holds::Name, ""), own(Holds::Mass, "g")]);
        assert_eq!(holds(&["Gear", "Weight (lbs.)"]), [own(Holds::Name, ""), own(Holds::Mass, "lb")]);
        assert_eq!(
            holds(&["Name", "weight in grams", "Total weight [kg]"]),
            [own(Holds::Name, ""), own(Holds::Mass, "g"), own(Holds::AllMass, "kg")]
        );
        assert!(holds(&["tyre lever", "2", "210"]).is_empty());
    }
}
