//! A text for a count, by the plural rules of the Unicode consortium (CLDR).

use crate::current::current;
use crate::number::number;
use crate::pattern::{Hole, filled};
use crate::table::words;
use fixed_decimal::Decimal;
use icu_locale_core::Locale;
use icu_plurals::PluralRules;

/// How many there are, as shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Count {
    shown: String,
}

macro_rules! whole {
    ($($number:ty),+) => {$(
        impl From<$number> for Count {
            fn from(count: $number) -> Self {
                Self { shown: count.to_string() }
            }
        }
        impl From<&$number> for Count {
            fn from(count: &$number) -> Self {
                Self { shown: count.to_string() }
            }
        }
    )+};
}

whole!(usize, u8, u16, u32, u64, u128, i32, i64);

impl From<f64> for Count {
    /// With one decimal, if it is not a whole number.
    fn from(count: f64) -> Self {
        Self { shown: if count.fract() == 0.0 { format!("{count:.0}") } else { format!("{count:.1}") } }
    }
}

/// The text for a count in the language that is spoken; its hole `n` is the count.
#[must_use]
pub fn several(count: Count, one: &str, many: &str, holes: &[Hole<'_>]) -> String {
    let english = if count.shown == "1" { one } else { many };
    let pattern = words(one).and_then(|forms| forms.get(form(&count, forms.len()))).map_or(english, |found| *found);
    let shown = number(count.shown);
    let mut all = holes.to_vec();
    let text = format_args!("{shown}");
    all.push(Hole { name: "n", number: false, text });
    filled(pattern, &all)
}

/// Which of the plural forms of the language this count takes.
fn form(count: &Count, forms: usize) -> usize {
    let last = forms.saturating_sub(1);
    let Ok(locale) = current().code().parse::<Locale>() else { return last };
    let Ok(rules) = PluralRules::try_new_cardinal((&locale).into()) else { return last };
    let Ok(decimal) = Decimal::try_from_str(&count.shown) else { return last };
    let category = rules.category_for(&decimal);
    rules.categories().position(|own| own == category).unwrap_or(last).min(last)
}
