//! Numbers of `fardel route` as they are typed.

use crate::diagnostic::{did_you_mean, nearest};
use fardel_route::map::Ground;
use fardel_route::survey::Stretch;
use fardel_words::{say, word};

fn number(text: &str, from: f64, to: f64, what: &str) -> Result<f64, String> {
    let number = text.trim().parse::<f64>().ok().filter(|number| (from..=to).contains(number));
    number.ok_or_else(|| say!("{what} from {from} to {to} is expected"))
}

pub(super) fn hours(text: &str) -> Result<f64, String> {
    number(text.trim_end_matches('h'), 0.0, 1000.0, word!("a number of hours"))
}

pub(super) fn kilometres(text: &str) -> Result<f64, String> {
    number(text, 1.0, 200.0, word!("a number of kilometres"))
}

pub(super) fn degrees(text: &str) -> Result<f64, String> {
    number(text, -60.0, 60.0, word!("degrees Celsius"))
}

pub(super) fn metres(text: &str) -> Result<f64, String> {
    number(text, -500.0, 9000.0, word!("a number of metres"))
}

/// `[FROM-TO:]sealed=20,gravel=80`: shares of a stretch, which need not add up to a hundred.
pub(super) fn shares(text: &str) -> Result<Stretch, String> {
    let (stretch, shares) = text.split_once(':').map_or((None, text), |(stretch, shares)| (Some(stretch), shares));
    let (from, to) = stretch.map_or(Ok((0.0, f64::INFINITY)), kilometre_range)?;
    let mut parts = [0.0; 4];
    for part in shares.split(',') {
        let (word, share) = part.split_once('=').ok_or(word!("shares such as sealed=20,gravel=80 are expected"))?;
        let words = Ground::KNOWN.map(Ground::word);
        let at = words.iter().position(|known| *known == word.trim()).ok_or_else(|| {
            let near = did_you_mean(nearest(word.trim(), words));
            say!("one of {} is expected{near}", words.join(", "))
        })?;
        parts[at] += number(share.trim_end_matches('%'), 0.0, 1e6, "a share")?;
    }
    let sum: f64 = parts.iter().sum();
    if sum <= 0.0 {
        return Err(say!("shares that are not all 0 are expected"));
    }
    Ok(Stretch { from: from * 1000.0, to: to * 1000.0, shares: parts.map(|part| part / sum) })
}

fn kilometre_range(text: &str) -> Result<(f64, f64), String> {
    let (from, to) = text.split_once('-').ok_or(word!("kilometres such as 40-90 are expected before the colon"))?;
    let (from, to) = (number(from, 0.0, 1e5, "kilometres")?, number(to, 0.0, 1e5, "kilometres")?);
    if from < to { Ok((from, to)) } else { Err(say!("the smaller kilometre first is expected, such as 40-90")) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_of_the_whole_or_of_a_stretch() {
        let whole = shares("sealed=1,gravel=3").unwrap();
        assert_eq!((whole.from, whole.to, whole.shares), (0.0, f64::INFINITY, [0.25, 0.75, 0.0, 0.0]));
        let part = shares("40-90:track=100%").unwrap();
        assert_eq!((part.from, part.to, part.shares), (40_000.0, 90_000.0, [0.0, 0.0, 1.0, 0.0]));
    }

    #[test]
    fn what_is_wrong_is_told() {
        assert!(shares("gravle=1").unwrap_err().contains("did you mean `gravel`?"));
        for text in ["", "sealed", "sealed=0", "sealed=-1", "sealed=NaN", "90-40:sealed=1", "x-y:sealed=1"] {
            assert!(shares(text).is_err(), "{text}");
        }
        assert_eq!(hours("2.5 h").ok(), Some(2.5));
        assert!(hours("inf").is_err() && kilometres("0").is_err());
    }
}
