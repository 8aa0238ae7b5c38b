//! The sheet to fill in at the bike, and the fasteners that a kit cannot turn.

use super::table::{Set, table};
use super::{Look, heading, wrapped};
use fardel_core::sheet::{Line, Sheet};
use fardel_words::{mark, plain, say, several, word};

/// Jobs named beside a fastener.
const JOBS_SHOWN: usize = 2;

/// What to do with the sheet, and what not to trust it with.
pub(crate) const HOW: &str = mark!(
    "The values are those of the catalogue, for the class and not for your bike. Read yours at \
the bike, on its plate and in its manual, and write it into the last column; leave the rest empty."
);

/// The sheet as text, with room to write.
#[must_use]
pub fn bike(sheet: &Sheet, look: &Look) -> String {
    let mut text = wrapped(&format!("{} ({})", sheet.name, sheet.bike), look, "");
    text += &wrapped(plain(HOW), look, "");
    for part in &sheet.parts {
        text += "\n";
        text += &heading(part.title);
        let rows = part.lines.iter().map(|line| vec![asked(line), line.value.clone(), "_".repeat(14)]).collect();
        text += &table(&[], &[Set::Left(None), Set::Left(None), Set::Left(Some(16))], rows, look);
    }
    let back = say!(
        "To fill it in on a computer: fardel bike {0} --format csv --out my-bike.csv. To read it back: fardel bike {0} --read \
         my-bike.csv --id my-bike --out my-bike.yaml; then name my-bike.yaml under `catalogues` in your scenario.",
        sheet.bike
    );
    text + "\n" + &wrapped(&back, look, "")
}

fn asked(line: &Line) -> String {
    if line.jobs.is_empty() { line.what.clone() } else { say!("{} (for: {})", line.what, jobs(line)) }
}

/// The first jobs, and how many more.
pub(crate) fn jobs(line: &Line) -> String {
    let shown = line.jobs.iter().take(JOBS_SHOWN).cloned().collect::<Vec<_>>().join("; ");
    match line.jobs.len().saturating_sub(JOBS_SHOWN) {
        0 => shown,
        more => say!("{shown}; {more} more"),
    }
}

/// The fasteners that the tools of a kit cannot turn.
#[must_use]
pub fn unturned(sheet: &Sheet, look: &Look) -> String {
    let lines: Vec<&Line> = sheet.unturned().collect();
    let all = several!(sheet.fasteners(), "{n} fastener", "{n} fasteners");
    if sheet.fasteners() == 0 {
        let text = say!(
            "Nothing is known of the fasteners of the {}, so nothing can be said of this kit's tools. Print the sheet (the same \
             command without --kit), measure them at the bike and read the sheet back.",
            sheet.name
        );
        return wrapped(&text, look, "");
    }
    if lines.is_empty() {
        return wrapped(&say!("The tools of this kit turn all {all} known of the {}.", sheet.name), look, "");
    }
    let mut text = wrapped(
        &say!("{} of {all} known of the {} cannot be turned with this kit.", lines.len(), sheet.name),
        look,
        "",
    );
    text += "\n";
    let rows = lines
        .into_iter()
        .map(|line| {
            let would = if line.would_turn.is_empty() {
                say!("nothing in the catalogue")
            } else {
                line.would_turn.join(word!("; or "))
            };
            vec![line.value.clone(), asked(line), would]
        })
        .collect();
    text += &table(
        &[word!("size"), word!("where"), word!("what would turn it")],
        &[Set::Left(None), Set::Left(None), Set::Left(None)],
        rows,
        look,
    );
    text + "\n"
        + &wrapped(
            word!(
                "Only what is in the kit counts, not the bike's own toolkit unless it is packed. Check every size at the bike."
            ),
            look,
            "",
        )
}
