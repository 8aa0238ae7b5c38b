//! Functions and stocks. `hex {size}` with its sizes becomes `hex 8 mm`, `hex 10 mm` ...

use super::form::Form;
use super::plain::twice;
use super::{Draft, Entry, Merged, keep};
use crate::diagnostic::{Code, quoted};
use crate::domain::{Function, Map, Stock, template};
use crate::load::file::Text;
use crate::load::findings::{Findings, Place};
use fardel_words::{say, word};

/// Most sizes of one family.
const MOST_SIZES: usize = 200;
/// Most bytes of text that all families together may grow to.
const MOST_TEXT: usize = 16 << 20;

/// Functions, families expanded.
pub(super) fn functions(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    let mut origin: Map<(bool, Place)> = Map::new();
    let mut room = MOST_TEXT;
    for (id, entry) in &merged.functions {
        let shape = &entry.shape;
        let name = Form::new(findings, entry.place.clone()).name(shape.name.clone());
        let ways = shape.also_from.as_deref().unwrap_or_default();
        let length = name.len() + ways.iter().flatten().map(|part| part.len() + 24).sum::<usize>();
        for size in sizes(id, shape.sizes.as_deref(), length, &mut room, &entry.place, findings) {
            let mut fill = Filler { size: size.as_deref(), findings };
            let member = fill.fill(id, &entry.place);
            let name = fill.fill(&name, &entry.place.key("name"));
            let place = entry.place.key("also_from");
            let also_from = ways
                .iter()
                .enumerate()
                .map(|(at, way)| way.iter().map(|part| fill.fill(part, &place.index(at))).collect());
            let function = Function { name, also_from: also_from.collect() };
            if is_free(&mut origin, &member, entry, &mut draft.notes, findings) {
                keep!(draft, Functions, functions, member, entry.place.clone(), function);
            }
        }
    }
}

/// Stocks, families expanded.
pub(super) fn stocks(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    let mut origin: Map<(bool, Place)> = Map::new();
    let mut room = MOST_TEXT;
    for (id, entry) in &merged.stocks {
        let shape = entry.shape.clone();
        let mut form = Form::new(findings, entry.place.clone());
        let name = form.name(shape.name);
        let unit = form.need_any("unit", shape.unit);
        let length = name.len() + unit.len();
        for size in sizes(id, shape.sizes.as_deref(), length, &mut room, &entry.place, findings) {
            let mut fill = Filler { size: size.as_deref(), findings };
            let member = fill.fill(id, &entry.place);
            let name = fill.fill(&name, &entry.place.key("name"));
            let unit = fill.fill(&unit, &entry.place.key("unit"));
            let stock = Stock { name, unit, one_bike: shape.one_bike.unwrap_or(false) };
            if is_free(&mut origin, &member, entry, &mut draft.notes, findings) {
                keep!(draft, Stocks, stocks, member, entry.place.clone(), stock);
            }
        }
    }
}

/// A name may be taken when nothing has it yet, or when an extra file takes it from the shipped set.
fn is_free<T>(
    origin: &mut Map<(bool, Place)>,
    member: &str,
    entry: &Entry<T>,
    notes: &mut Vec<String>,
    findings: &mut Findings,
) -> bool {
    let mut note = |ours: &Place, theirs: &Place| {
        let (ours, theirs) = (findings.name(ours.file), findings.name(theirs.file));
        notes.push(say!("{member} from {ours} takes the place of the one from {theirs}"));
    };
    match origin.get(member) {
        Some((extra, other)) if *extra == entry.extra => {
            findings.add_again(&entry.place, member, word!("one entry of that name, families counted"), other);
            false
        }
        Some((true, other)) => {
            note(other, &entry.place);
            false
        }
        old => {
            if let Some((_, theirs)) = old {
                note(&entry.place, theirs);
            }
            origin.insert(member.to_owned(), (entry.extra, entry.place.clone()));
            true
        }
    }
}

/// The sizes to make members of; a single `None` for an entry that is no family.
fn sizes(
    id: &str,
    sizes: Option<&[Text]>,
    length: usize,
    room: &mut usize,
    place: &Place,
    findings: &mut Findings,
) -> Vec<Option<String>> {
    let holes = match template::holes(id) {
        Ok(holes) => holes,
        Err(error) => {
            let expected = word!("a name, or a family such as `hex {size}`").to_owned();
            findings.add(Code::BrokenTemplate, place, error.to_string(), expected, None);
            return Vec::new();
        }
    };
    let Some(sizes) = sizes else {
        if !holes.is_empty() && !findings.is_spoilt(&place.key("sizes")) {
            let expected = say!("`sizes: [8 mm, 10 mm]` in the entry");
            findings.add(Code::BrokenTemplate, place, say!("the family {} without sizes", quoted(id)), expected, None);
        }
        // A single member keeps a misspelt family from raising a storm of unknown names.
        return if holes.is_empty() { vec![None] } else { Vec::new() };
    };
    if holes.is_empty() || holes.iter().any(|hole| *hole != "size") {
        let expected = word!("`{size}` in the name of a family, and no other braces").to_owned();
        findings.add(Code::BrokenTemplate, place, say!("sizes for {}", quoted(id)), expected, None);
        return Vec::new();
    }
    let texts: Vec<String> = sizes.iter().map(|text| text.0.clone()).collect();
    twice(&texts, &place.key("sizes"), findings);
    let grown = texts.len().saturating_mul(length + id.len());
    if texts.len() > MOST_SIZES || grown > *room {
        let expected = say!("at most {MOST_SIZES} sizes, and 16 MB of names in all");
        findings.add(Code::TooLarge, &place.key("sizes"), say!("{} sizes", texts.len()), expected, None);
        return Vec::new();
    }
    *room -= grown;
    let mut unique: Vec<String> = Vec::new();
    for (at, text) in texts.into_iter().enumerate() {
        if text.contains(['{', '}']) {
            let expected = say!("a plain size such as `8 mm`");
            findings.add(Code::BrokenTemplate, &place.key("sizes").index(at), quoted(&text), expected, None);
        } else if !unique.contains(&text) {
            unique.push(text);
        }
    }
    unique.into_iter().map(Some).collect()
}

/// Puts the size into the braces.
struct Filler<'a> {
    size: Option<&'a str>,
    findings: &'a mut Findings,
}

impl Filler<'_> {
    fn fill(&mut self, text: &str, place: &Place) -> String {
        let mut values = Map::new();
        if let Some(size) = self.size {
            values.insert("size".to_owned(), size.to_owned());
        }
        template::fill(text, &values).unwrap_or_else(|_| {
            let expected = word!("`{size}` in a family, and no other braces").to_owned();
            self.findings.add(Code::BrokenTemplate, place, quoted(text), expected, None);
            text.to_owned()
        })
    }
}
