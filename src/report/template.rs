//! Answers through templates: pages for browsers (`.html`) and Markdown (`.md`), every value escaped.
//!
//! The templates lie in `templates/`; their contexts are plain structs, mostly the documents of `json`. Quantities
//! come as numbers in the units of their field names (g, mL, h, km) and are shown by the same code as on the terminal.

use crate::Look;
use crate::escape::markdown;
use crate::{script, words};
use fardel_core::units::{Currency, Distance, Hours, Mass, Money, Quantity, Volume, parse::to_whole};
use minijinja::syntax::SyntaxConfig;
use minijinja::value::{Kwargs, Serde, Value};
use minijinja::{AutoEscape, Environment, Error, ErrorKind, Output, State, UndefinedBehavior, escape_formatter};
use serde::Serialize;

/// Every template by the name that others call it by.
const TEMPLATES: &[(&str, &str)] = &[
    ("base.html", include_str!("templates/base.html")),
    ("palette.css", include_str!("templates/palette.css")),
    ("page.css", include_str!("templates/page.css")),
    ("parts.html", include_str!("templates/parts.html")),
    ("paper.html", include_str!("templates/paper.html")),
    ("pack.html", include_str!("templates/pack.html")),
    ("rehearse.html", include_str!("templates/rehearse.html")),
    ("rider.html", include_str!("templates/rider.html")),
    ("sheet.css", include_str!("templates/sheet.css")),
    ("sheet.html", include_str!("templates/sheet.html")),
    ("sheet.md", include_str!("templates/sheet.md")),
    ("split.html", include_str!("templates/split.html")),
    ("tradeoff.html", include_str!("templates/tradeoff.html")),
    ("trim.html", include_str!("templates/trim.html")),
    ("card.html", include_str!("templates/card.html")),
    ("card.md", include_str!("templates/card.md")),
    ("care.md", include_str!("templates/care.md")),
    ("document.md", include_str!("templates/document.md")),
    ("fuel.md", include_str!("templates/fuel.md")),
    ("ask.html", include_str!("templates/ask.html")),
    ("ask.css", include_str!("templates/ask.css")),
];

/// How templates of Markdown escape.
const MARKDOWN: AutoEscape = AutoEscape::Custom(std::borrow::Cow::Borrowed("markdown"));

/// Fills a template; quantities are shown in the units of the look.
///
/// # Errors
/// [`Error`] where a template asks for what its context does not hold: a defect of the program.
pub(crate) fn render(name: &str, context: &impl Serialize, look: &Look) -> Result<String, Error> {
    environment(*look)?.get_template(name)?.render(Serde(context))
}

/// The templates and what they may call. Nothing here reads a clock, a file or the surroundings.
fn environment(look: Look) -> Result<Environment<'static>, Error> {
    let mut environment = Environment::new();
    environment.set_undefined_behavior(UndefinedBehavior::Strict);
    environment
        .set_syntax(SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).keep_trailing_newline(true).build()?);
    environment.set_auto_escape_callback(|name| match name.rsplit_once('.') {
        Some((_, "html" | "svg")) => AutoEscape::Html,
        Some((_, "md")) => MARKDOWN,
        _ => AutoEscape::None,
    });
    environment.set_formatter(written);
    for (name, source) in TEMPLATES {
        environment.add_template(name, source)?;
    }
    environment.add_template_owned("card.css", script::card_style())?;
    environment.add_template_owned("page.js", script::page())?;
    environment.add_template_owned("ask.js", script::ask())?;
    quantities(&mut environment, look);
    phrases(&mut environment);
    texts(&mut environment);
    Ok(environment)
}

/// Escapes a value for Markdown in templates of Markdown, and as ever in others.
fn written(out: &mut Output<'_>, state: &mut State<'_, '_>, value: &Value) -> Result<(), Error> {
    if *state.auto_escape() == MARKDOWN && !value.is_safe() {
        return Ok(out.write_str(&markdown(&value.to_string()))?);
    }
    if *state.auto_escape() == MARKDOWN {
        return Ok(out.write_str(&value.to_string())?);
    }
    // A number, its per cent sign and "more than" before it stay on one line.
    match value.as_str().filter(|text| !value.is_safe() && text.contains(" %")) {
        Some(text) => {
            escape_formatter(out, state, &Value::from(text.replace(" %", "\u{a0}%").replace("> ", ">\u{a0}")))
        }
        None => escape_formatter(out, state, value),
    }
}

/// Numbers as a rider reads them.
fn quantities(environment: &mut Environment<'static>, look: Look) {
    environment.add_filter("mass", move |grams: f64| look.show(Mass::from_base(grams * 1000.0)));
    environment.add_filter("volume", move |millilitres: f64| look.show(Volume::from_base(millilitres * 1000.0)));
    environment.add_filter("distance", move |km: f64| look.show(Distance::new(km)));
    environment.add_filter("hours", move |hours: f64| look.show(Hours::new(hours)));
    environment.add_filter("amount", move |value: f64, unit: &str| match (unit, Currency::read(unit)) {
        ("g", _) => Ok(look.show(Mass::from_base(value * 1000.0))),
        ("mL", _) => Ok(look.show(Volume::from_base(value * 1000.0))),
        (_, Some(currency)) => Ok(crate::amount::money(Money::from_cents(to_whole(value * 100.0)), currency)),
        (_, None) => Err(Error::new(ErrorKind::InvalidOperation, "no such unit")),
    });
    environment.add_filter("money", |units: f64, currency: &str| {
        let currency = Currency::read(currency);
        let currency = currency.ok_or_else(|| Error::new(ErrorKind::InvalidOperation, "no such currency"))?;
        Ok::<_, Error>(crate::amount::money(Money::from_cents(to_whole(units * 100.0)), currency))
    });
}

/// Texts in the language that is spoken: `_("Room {volume}", volume=...)`, and `_n(count, "{n} thing", "{n} things")`. A
/// text may hold the marks of its form, such as `<b>`; what fills its holes is escaped.
fn texts(environment: &mut Environment<'static>) {
    environment.add_global("language", fardel_words::current().code());
    environment.add_function("_", |state: &mut State<'_, '_>, text: &str, own: Kwargs| {
        let filled = fillings(state, &own)?;
        let holes: Vec<(&str, &str)> = filled.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
        Ok::<_, Error>(Value::from_safe_string(fardel_words::said_with(text, &holes)))
    });
    environment.add_function("_n", |count: usize, one: &str, many: &str| {
        Value::from_safe_string(fardel_words::several(count.into(), one, many, &[]))
    });
}

/// What fills the holes of a text, escaped.
fn fillings(state: &mut State<'_, '_>, own: &Kwargs) -> Result<Vec<(String, String)>, Error> {
    let names = own.args().map(str::to_owned).collect::<Vec<_>>();
    names.into_iter().map(|name| Ok((name.clone(), state.format(own.get(&name)?)?))).collect()
}

/// Small turns of phrase.
fn phrases(environment: &mut Environment<'static>) {
    environment.add_filter("percent", words::percent);
    environment.add_filter("at_least", words::at_least);
    environment.add_filter("chance", words::chance);
    environment.add_filter("sentence", |text: &str| words::sentence(text));
    environment.add_filter("list", |parts: Vec<String>| words::list(&parts));
    environment.add_filter("counted", |name: &str, count: u32| words::counted(count, name));
    environment.add_filter("fixed", |number: f64, places: usize| fardel_words::number(format!("{number:.places$}")));
}
