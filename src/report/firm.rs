//! How firm a kit is, in a line.

use crate::words::list;
use fardel_core::answer::{ALMOST_THE_SAME, Dial, Firm, FirmLine};
use fardel_words::{say, several, word};

/// `46 of these 58 things stay in when ...`; nothing where nothing was turned.
pub(crate) fn firm(firm: &Firm) -> Option<String> {
    if firm.lines.is_empty() {
        return None;
    }
    let dials: Vec<String> = firm.lines.iter().map(|line| dial(line.dial).to_owned()).collect();
    let certain = if firm.certain == firm.things {
        say!("All of it stays in")
    } else {
        say!("{} of {} stay in", firm.certain, several!(firm.things as usize, "{n} thing", "{n} things"))
    };
    let mut text = say!("{certain} when {} are a third of what is assumed, or three times that.", list_or(&dials));
    let shaky: Vec<String> = firm.lines.iter().filter_map(shaky).collect();
    if !shaky.is_empty() {
        text += &say!(" More than {ALMOST_THE_SAME} of them go {}.", list(&shaky));
    }
    if !firm.least_certain.is_empty() {
        text += &say!(" Least certain: {}.", firm.least_certain.join("; "));
    }
    Some(text)
}

/// The same on one line; nothing where nothing was turned.
pub(crate) fn in_short(firm: &Firm) -> Option<String> {
    if firm.lines.is_empty() {
        return None;
    }
    let (certain, things) = (firm.certain, firm.things);
    let stays = if certain == things {
        say!("all of it stays")
    } else {
        say!("{certain} of {} stay", several!(things as usize, "{n} thing", "{n} things"))
    };
    Some(say!("{stays} if any one assumption is off threefold"))
}

/// What was turned.
fn dial(dial: Dial) -> &'static str {
    match dial {
        Dial::Weight => word!("the price of weight"),
        Dial::Money => word!("the price of buying"),
        Dial::Packing => word!("the price of packing"),
        Dial::Help => word!("the hours to help"),
        Dial::Falls => word!("the falls"),
    }
}

fn list_or(parts: &[String]) -> String {
    match parts {
        [most @ .., last] if !most.is_empty() => say!("{} or {last}", most.join(", ")),
        parts => parts.concat(),
    }
}

/// Where the kit changes by more than a few things within the range tried.
fn shaky(line: &FirmLine) -> Option<String> {
    let (low, high) = line.range;
    let dial = dial(line.dial);
    let down = (low > 0.34).then(|| say!("below {} {dial}", factor(low)));
    let up = (high < 2.9).then(|| say!("above {} {dial}", factor(high)));
    match (down, up) {
        (Some(down), Some(up)) => Some(say!("{down} and {up}")),
        (one, other) => one.or(other),
    }
}

fn factor(factor: f64) -> String {
    match factor {
        f if (f - 1.0).abs() < 1e-9 => say!("about once"),
        f if f < 1.0 => say!("{f:.2} times"),
        f => say!("{f:.1} times"),
    }
}
