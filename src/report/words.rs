//! Small turns of phrase: counts, lists, chances.

use fardel_core::answer::Home;
pub(crate) use fardel_core::diagnostic::sentence;
use fardel_core::units::Hours;
use fardel_words::say;

/// `a, b and c`.
pub(crate) fn list(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => say!("{} and {last}", most.join(", ")),
    }
}

/// `3 x tube patch` or just the name for one.
pub(crate) fn counted(count: u32, name: &str) -> String {
    if count == 1 { name.to_owned() } else { say!("{count} x {name}") }
}

/// A share as a whole percentage that never claims certainty: `> 99 %`, `< 1 %`.
pub(crate) fn percent(share: f64) -> String {
    match share {
        s if s <= 0.0 => "0 %".to_owned(),
        s if s >= 1.0 => "100 %".to_owned(),
        s if s < 0.005 => "< 1 %".to_owned(),
        s if s > 0.995 => "> 99 %".to_owned(),
        s => say!("{:.0} %", s * 100.0),
    }
}

/// A share beside a finer one: `98.4 %` where whole percents would hide which of the two is larger.
pub(crate) fn finely(share: f64) -> String {
    if (0.9..0.995).contains(&share) { say!("{:.1} %", share * 100.0) } else { percent(share) }
}

/// A lower bound on a chance: `at least 91 %`, `more than 99 %`.
pub(crate) fn at_least(chance: f64) -> String {
    if chance > 0.995 && chance < 1.0 { say!("more than 99 %") } else { say!("at least {}", percent(chance)) }
}

/// A chance of getting home: `99.77 % (1 trip in 435 ends stranded)` where it was ridden, else its bound.
pub(crate) fn home(home: &Home) -> String {
    let Some(ridden) = home.ridden else { return at_least(home.bound) };
    let stranded = 1.0 - ridden.mean;
    match stranded {
        s if s <= 0.0 => say!("more than 99.99 %"),
        s if s < 0.1 => say!("{:.2} % (1 trip in {:.0} ends stranded)", ridden.mean * 100.0, 1.0 / s),
        _ => say!("{:.0} %", ridden.mean * 100.0),
    }
}

/// Small spans of time: `6.8 min`, `1.4 h`.
pub(crate) fn minutes(hours: Hours) -> String {
    match hours.get() * 60.0 {
        0.0 => "0 min".to_owned(),
        m if m.abs() < 0.05 => say!("under 0.1 min"),
        m if m.abs() < 9.95 => say!("{m:.1} min"),
        m if m.abs() < 90.0 => say!("{m:.0} min"),
        m => say!("{:.1} h", m / 60.0),
    }
}

/// How often a Poisson mean strikes: the chance of at least one, as `1 trip in 12` or `63 % of trips`.
pub(crate) fn chance(mean: f64) -> String {
    let chance = 1.0 - (-mean).exp();
    match chance {
        c if c <= 1e-6 => say!("never"),
        c if c < 0.095 => say!("1 trip in {:.0}", 1.0 / c),
        c => say!("{} of trips", percent(c)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases() {
        assert_eq!(list(&["a".into(), "b".into(), "c".into()]), "a, b and c");
        assert_eq!(percent(0.999), "> 99 %");
        assert_eq!(chance(0.02), "1 trip in 51");
        assert_eq!(chance(1.0), "63 % of trips");
        assert_eq!(at_least(0.999), "more than 99 %");
    }
}
