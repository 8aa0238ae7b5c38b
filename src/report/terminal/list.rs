//! What each line of a rider's list is taken for.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use fardel_core::load::{How, List, Taken};
use fardel_core::units::{Mass, Quantity as _};
use fardel_words::{say, several, word};

/// The list: guesses first, since they are to be looked at, then what is the rider's own, then the rest.
#[must_use]
pub fn list(list: &List, look: &Look) -> String {
    let of = |how: &[How]| list.lines.iter().filter(|line| how.contains(&line.how)).collect::<Vec<&Taken>>();
    let (guesses, own, known) = (of(&[How::Guess]), of(&[How::Own]), of(&[How::Name, How::Confirmed]));
    let mut text = wrapped(
        &say!(
            "{} of the list: {} known by name, {} guessed, {} of your own.",
            several!(list.lines.len(), "{n} line", "{n} lines"),
            known.len(),
            guesses.len(),
            own.len()
        ),
        look,
        "",
    );
    text += &part(word!("Guesses: look at each"), &guesses, look);
    text += &part(word!("Of your own: not in the catalogue"), &own, look);
    if own.iter().any(|line| line.estimated_volume_ml.is_some()) {
        text += &wrapped(word!("* volume estimated from what is usual for things of its kind"), look, "  ");
    }
    text += &part(word!("Known by name"), &known, look);
    text + &advice(list, look)
}

fn part(title: &str, lines: &[&Taken], look: &Look) -> String {
    if lines.is_empty() {
        return String::new();
    }
    let set = [Set::Right(None), Set::Left(None), Set::Right(None), Set::Right(None), Set::Left(None)];
    let rows = lines.iter().map(|line| row(line, look)).collect();
    format!(
        "\n{}{}",
        heading(title),
        table(
            &[word!("line"), word!("as written"), word!("count"), word!("of one"), word!("taken for")],
            &set,
            rows,
            look
        )
    )
}

fn row(line: &Taken, look: &Look) -> Vec<String> {
    let mass = line.mass_g.and_then(|grams| Mass::read(&format!("{grams:.3} g")).ok());
    let others = if line.others.is_empty() { String::new() } else { say!("; or {}", line.others.join(", ")) };
    let taken = match (&line.id, &line.item) {
        (Some(id), Some(item)) => format!("{item} [{id}]{others}"),
        _ => line
            .estimated_volume_ml
            .map_or_else(|| say!("a thing of your own"), |ml| say!("a thing of your own, {ml:.0} mL *")),
    };
    let mass = mass.map_or_else(|| say!("not known"), |mass| look.show(mass));
    vec![line.line.to_string(), line.name.clone(), line.count.to_string(), mass, taken]
}

fn advice(list: &List, look: &Look) -> String {
    let mut text = String::new();
    if let Some(wrong) = list.guesses().next() {
        let line = say!(
            "Where a guess is wrong: --is '{0}=ID' for another item, --is '{0}=' for a thing of your own. `fardel find WORD` finds ids.",
            wrong.name
        );
        text += &format!("\n{}", wrapped(&line, look, ""));
    }
    let unweighed: Vec<String> = list.unweighed().map(|line| format!("--is '{}=120 g'", line.name)).collect();
    if !unweighed.is_empty() {
        let line = say!("Say what these weigh, with your own figures: {}", unweighed.join(" "));
        text += &format!("\n{}", wrapped(&line, look, ""));
    }
    text
}
