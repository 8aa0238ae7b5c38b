//! The questions, and what riders answered together, as they are read.

use super::table::{Set, table};
use super::{Look, heading, titled, wrapped};
use crate::ask::HOW;
use fardel_core::elicit::calibration::CALIBRATION;
use fardel_core::elicit::pool::Opinion;
use fardel_core::elicit::{Change, Pooled, Question, Score};
use fardel_words::{mark, plain, say, word};

/// The questions, as a look at what will be asked.
#[must_use]
pub fn questions(title: &str, questions: &[Question], look: &Look) -> String {
    let mut text = titled(&say!("{title}: questions to riders"), look);
    HOW.iter().copied().map(plain).for_each(|line| text += &wrapped(&format!("- {line}"), look, "  "));
    text.push('\n');
    for (at, own) in questions.iter().enumerate() {
        text += &wrapped(&format!("{:>3}. {} ({})", at + 1, own.text, own.unit), look, "     ");
    }
    text
}

/// What riders say together.
#[must_use]
pub fn pooled(scores: &[Score], pooled: &[Pooled], changes: &[Change], look: &Look) -> String {
    let mut text = heading(word!("What the riders say"));
    let head = [word!("question"), word!("riders"), word!("catalogue"), word!("all alike"), word!("by performance")];
    let set =
        [Set::Left(Some(40)), Set::Right(Some(6)), Set::Right(Some(9)), Set::Right(Some(22)), Set::Right(Some(22))];
    let row = |own: &Pooled| {
        let before = changes.iter().find(|change| change.id == own.id).map(|change| shown(change.before));
        vec![
            own.id.clone(),
            own.riders.to_string(),
            before.unwrap_or_else(|| "-".to_owned()),
            opinion(&own.equal),
            own.performance.as_ref().map_or_else(|| "-".to_owned(), opinion),
        ]
    };
    text += &table(&head, &set, pooled.iter().map(row).collect(), look);
    text += &format!("\n{}", heading(word!("How well they knew what is known")));
    let head =
        [word!("rider"), word!("answered"), word!("held"), word!("calibration"), word!("information"), word!("weight")];
    let set = [
        Set::Left(Some(24)),
        Set::Right(Some(8)),
        Set::Right(Some(6)),
        Set::Right(Some(11)),
        Set::Right(Some(11)),
        Set::Right(Some(8)),
    ];
    text += &table(&head, &set, scores.iter().map(score).collect(), look);
    text.push('\n');
    for note in NOTES.iter().copied().map(plain) {
        text += &wrapped(&format!("- {note}"), look, "  ");
    }
    text += &format!("\n{}", heading(word!("The known answers")));
    for known in CALIBRATION {
        text += &wrapped(&format!("- {} {} ({}).", known.text, known.truth, known.source), look, "  ");
    }
    text
}

const NOTES: [&str; 3] = [
    mark!("In brackets nine cases in ten; before them the mean, which is what the catalogue gets."),
    mark!(
        "Calibration is the chance that somebody whose intervals are sound would do as badly or worse; information says how narrow \
     the intervals are. Weights go by the product of both (Cooke 1991). Who left one of the known questions open has none."
    ),
    mark!(
        "With few riders or few known answers the weights are rough: look at both columns, and talk about what differs."
    ),
];

fn opinion(own: &Opinion) -> String {
    say!("{} ({} to {})", shown(own.mean), shown(own.quantiles.low), shown(own.quantiles.high))
}

fn score(own: &Score) -> Vec<String> {
    vec![
        own.rider.clone(),
        say!("{} of {}", own.answered, CALIBRATION.len()),
        own.held.to_string(),
        if own.calibration < 0.001 { "< 0.001".to_owned() } else { say!("{:.3}", own.calibration) },
        say!("{:.2}", own.information),
        own.weight.map_or_else(|| "-".to_owned(), |weight| say!("{:.0} %", weight * 100.0)),
    ]
}

/// Three digits.
fn shown(value: f64) -> String {
    match value.abs() {
        v if v >= 100.0 => say!("{value:.0}"),
        v if v >= 10.0 => say!("{value:.1}"),
        v if v >= 1.0 => say!("{value:.2}"),
        0.0 => "0".to_owned(),
        v if v >= 0.001 => say!("{value:.3}"),
        _ => say!("{value:.1e}"),
    }
}
