//! How firm a kit is, in a line.

use crate::words::{counted_words, list};
use fardel_core::answer::{ALMOST_THE_SAME, Firm, FirmLine};

/// `46 of these 58 things stay in when ...`; nothing where nothing was turned.
pub(crate) fn firm(firm: &Firm) -> Option<String> {
    if firm.lines.is_empty() {
        return None;
    }
    let dials: Vec<String> = firm.lines.iter().map(|line| format!("the {}", line.dial.word())).collect();
    let certain = if firm.certain == firm.things {
        "All of it stays in".to_owned()
    } else {
        format!("{} of {} stay in", firm.certain, counted_words(firm.things as usize, "thing", "things"))
    };
    let mut text = format!("{certain} when {} are a third of what is assumed, or three times that.", list_or(&dials));
    let shaky: Vec<String> = firm.lines.iter().filter_map(shaky).collect();
    if !shaky.is_empty() {
        text += &format!(" More than {ALMOST_THE_SAME} of them go {}.", list(&shaky));
    }
    if !firm.least_certain.is_empty() {
        text += &format!(" Least certain: {}.", firm.least_certain.join("; "));
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
        "all of it stays".to_owned()
    } else {
        format!("{certain} of {} stay", counted_words(things as usize, "thing", "things"))
    };
    Some(format!("{stays} if any one assumption is off threefold"))
}

fn list_or(parts: &[String]) -> String {
    match parts {
        [most @ .., last] if !most.is_empty() => format!("{} or {last}", most.join(", ")),
        parts => parts.concat(),
    }
}

/// Where the kit changes by more than a few things within the range tried.
fn shaky(line: &FirmLine) -> Option<String> {
    let (low, high) = line.range;
    let word = line.dial.word();
    let down = (low > 0.34).then(|| format!("below {} the {word}", factor(low)));
    let up = (high < 2.9).then(|| format!("above {} the {word}", factor(high)));
    match (down, up) {
        (Some(down), Some(up)) => Some(format!("{down} and {up}")),
        (one, other) => one.or(other),
    }
}

fn factor(factor: f64) -> String {
    match factor {
        f if (f - 1.0).abs() < 1e-9 => "about once".to_owned(),
        f if f < 1.0 => format!("{f:.2} times"),
        f => format!("{f:.1} times"),
    }
}
