//! An answer on one screen: the view laid out, with as much of the lists as fits.

mod bars;
mod flow;

use super::table::{Set, table};
use super::{heading, strong, titled, wrapped};
use crate::Look;
use crate::told::Line;
use crate::view::{Bag, Cell, Next, Section, Thing, View};
use fardel_words::{mark, say, word};
use textwrap::core::display_width;

/// Lines of a screen.
const SCREEN: usize = 50;
/// A terminal as wide as this has room for the answer on one screen.
const WIDE_ENOUGH: usize = 80;
/// Between things that are run on.
const BETWEEN: &str = " · ";
/// Words at the head of a line stand in a column of their own from this width on.
const COLUMN_FROM: usize = 60;

/// How much is shown, from all that belongs on a screen to what must be on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Detail {
    All,
    FewRows,
    FewestRows,
    FewestRemarks,
    ShortBags,
}

/// Remarks that can wait for the full answer before anything of the kit does.
const CAN_WAIT: [&str; 3] = [mark!("Wheels"), mark!("Sets"), mark!("Note")];

impl Detail {
    const EACH: [Self; 5] = [Self::All, Self::FewRows, Self::FewestRows, Self::FewestRemarks, Self::ShortBags];

    /// Of what a list may show, this part is shown.
    const fn part(self) -> usize {
        match self {
            Self::All => 1,
            Self::FewRows => 2,
            Self::FewestRows | Self::FewestRemarks | Self::ShortBags => 4,
        }
    }

    /// So many notes are shown.
    const fn notes(self) -> usize {
        match self {
            Self::All => 2,
            Self::FewRows | Self::FewestRows | Self::FewestRemarks | Self::ShortBags => 1,
        }
    }

    /// Is a remark left to the full answer?
    fn leaves_out(self, remark: &Line) -> bool {
        self >= Self::FewestRemarks && CAN_WAIT.contains(&remark.word)
    }

    /// So many lines of a screen are better left empty than filled; none before something of the kit is left out.
    const fn air(self) -> usize {
        match self {
            Self::All | Self::FewRows => 3,
            Self::FewestRows | Self::FewestRemarks | Self::ShortBags => 0,
        }
    }
}

/// The answer on as few lines as will do.
#[must_use]
pub fn brief(view: &View, look: &Look) -> String {
    // A narrow terminal is scrolled; nothing of the kit is left out for it.
    let details = if look.width < WIDE_ENOUGH { &[Detail::All][..] } else { &Detail::EACH };
    let count = |parts: &[String]| parts.iter().map(|part| part.lines().count()).sum::<usize>();
    let all: Vec<(usize, Vec<String>)> =
        details.iter().map(|detail| (detail.air(), parts(view, *detail, look))).collect();
    let fitting = all.iter().find(|(air, parts)| count(parts) + air <= SCREEN);
    let Some((_, parts)) = fitting.or(all.last()) else { return String::new() };
    let spare = if look.width < WIDE_ENOUGH { usize::MAX } else { SCREEN.saturating_sub(count(parts)) };
    let mut text = String::new();
    for (at, part) in parts.iter().enumerate() {
        text += if at > 0 && at <= spare { "\n" } else { "" };
        text += part;
    }
    text
}

/// The parts that have something to say.
fn parts(view: &View, detail: Detail, look: &Look) -> Vec<String> {
    let top = titled(&view.title, look) + &wrapped(&view.who, look, "  ");
    let verdict = lines(&view.alarms, look) + &lines(&view.verdict, look);
    let sections = view.sections.iter().map(|section| self::section(section, detail.part(), look));
    let first = [top, verdict, bars::bars(&view.bars, look), bags(view, detail, look)];
    let rest = [remarks(&view.remarks, detail, look), next(&view.next, look)];
    first.into_iter().chain(sections).chain(rest).filter(|part| !part.is_empty()).collect()
}

/// Lines with their opening words in a column.
pub(super) fn lines(lines: &[Line], look: &Look) -> String {
    let widest = lines.iter().map(|line| display_width(line.opening())).max().unwrap_or(0);
    let column = if look.width < COLUMN_FROM { 0 } else { widest };
    let indent = " ".repeat(column + 2);
    let one = |line: &Line| {
        let pad = " ".repeat(column.saturating_sub(display_width(line.opening())) + 2);
        wrapped(&format!("{}{pad}{}", strong(line.opening()), line.text), look, &indent)
    };
    lines.iter().map(one).collect()
}

fn bags(view: &View, detail: Detail, look: &Look) -> String {
    if view.bags.is_empty() {
        return String::new();
    }
    let most = if detail == Detail::ShortBags { 2 } else { usize::MAX };
    view.bags.iter().fold(heading(&view.things), |text, own| text + &bag(own, most, look))
}

/// A bag, its room and load at the right edge, and what is in it.
fn bag(bag: &Bag, most: usize, look: &Look) -> String {
    if bag.things.is_empty() {
        let advice = bag.spare.as_ref().map_or_else(String::new, |spare| say!("; left at home it saves {spare}"));
        return wrapped(&say!("{}: empty{advice}", strong(&bag.name)), look, "  ");
    }
    let used = format!("{:>15}  {:>16}", bag.room, bag.load);
    let space = look.width.saturating_sub(display_width(&bag.name) + display_width(&used));
    let head = if space >= 2 {
        format!("{}{}{used}\n", strong(&bag.name), " ".repeat(space))
    } else {
        wrapped(&format!("{}: {}, {}", strong(&bag.name), bag.room, bag.load), look, "  ")
    };
    let things: Vec<String> = bag.things.iter().map(thing).collect();
    head + &flow::flow(&things, most, |left| say!("and {left} more (--full)"), look)
}

fn thing(thing: &Thing) -> String {
    let mark = if thing.to_buy { "*" } else { "" };
    let count = if thing.count.text == "1" { String::new() } else { say!("{} x ", thing.count) };
    format!("{count}{}{mark}", thing.short)
}

/// A list under its heading, shortened to a part of what it may show.
fn section(section: &Section, part: usize, look: &Look) -> String {
    let few = section.few.div_ceil(part).min(section.rows.len());
    let rest = section.rest.get(section.rows.len() - few).filter(|rest| !rest.is_empty());
    let words = |row: &Vec<Cell>| row.iter().map(|cell| cell.text().to_owned()).collect::<Vec<_>>();
    let rows: Vec<Vec<String>> = section.rows.iter().take(few).map(words).collect();
    let title = if section.title.is_empty() { String::new() } else { titled(&section.title, look) };
    if section.run_on {
        let things: Vec<String> = rows.into_iter().map(|row| row.join(" ")).chain(rest.cloned()).collect();
        return title + &flow::flow(&things, usize::MAX, |_| String::new(), look);
    }
    let set = |number: &bool| if *number { Set::Right(None) } else { Set::Left(None) };
    let set: Vec<Set> = section.numbers.iter().map(set).collect();
    let head: Vec<&str> = section.head.iter().map(String::as_str).collect();
    let head = if head.iter().all(|text| text.is_empty()) { &[][..] } else { &head[..] };
    let rest = rest.map_or_else(String::new, |rest| wrapped(&say!("  and {rest} (--full)"), look, "  "));
    title + &table(head, &set, rows, look) + &rest
}

/// The lines at the end; of the notes as many as there is room for.
fn remarks(remarks: &[Line], detail: Detail, look: &Look) -> String {
    let most = detail.notes();
    let mut notes = 0;
    let mut shown: Vec<Line> = Vec::new();
    for line in remarks.iter().filter(|line| !detail.leaves_out(line)) {
        notes += usize::from(line.word == "Note");
        if line.word != "Note" || notes <= most {
            shown.push(line.clone());
        }
    }
    if notes > most {
        shown.push(Line::new("Notes", say!("{} more (--full)", notes - most)));
    }
    lines(&shown, look)
}

/// What may be typed next, each with what it tells where there is room.
fn next(next: &[Next], look: &Look) -> String {
    let widest = next.iter().map(|own| display_width(&own.command)).max().unwrap_or(0);
    let one = |(at, own): (usize, &Next)| {
        let opening = word!("Next");
        let word = if at == 0 { strong(opening) } else { " ".repeat(display_width(opening)) };
        let room = 4 + display_width(opening) + widest + display_width(own.tells) <= look.width;
        let pad = " ".repeat(widest - display_width(&own.command));
        let tells = if room { format!("  {pad}{}", own.tells) } else { String::new() };
        format!("{word}  {}{tells}\n", own.command)
    };
    next.iter().enumerate().map(one).collect()
}
