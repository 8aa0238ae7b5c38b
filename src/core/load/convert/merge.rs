//! Several catalogue files become one. Within the shipped set a name belongs to one entry; extra files override.

use crate::diagnostic::{Code, quoted};
use crate::domain::Map;
use crate::load::file::{
    AttributeShape, BagShape, BikeShape, CatalogueFile, CheckShape, EventGroupShape, EvidenceShape, FailureShape,
    FallRateShape, FunctionShape, Inherit, ItemShape, LadderShape, ModelShape, NeedShape, PreparationShape,
    PricesShape, RateShape, ReadingShape, SetShape, StockShape, SystemShape,
};
use crate::load::findings::{Findings, Place};
use crate::load::node::Path;
use crate::load::section::Section;
use fardel_words::{say, word};

/// An entry and where it was written.
#[derive(Debug, Clone)]
pub(crate) struct Entry<T> {
    pub place: Place,
    pub shape: T,
    /// From an extra file, which may override.
    pub extra: bool,
}

/// All files in one.
#[derive(Debug, Clone, Default)]
pub(crate) struct Merged {
    pub attributes: Map<Entry<AttributeShape>>,
    pub functions: Map<Entry<FunctionShape>>,
    pub stocks: Map<Entry<StockShape>>,
    pub needs: Map<Entry<NeedShape>>,
    pub systems: Map<Entry<SystemShape>>,
    pub ladders: Map<Entry<LadderShape>>,
    pub items: Map<Entry<ItemShape>>,
    pub bikes: Map<Entry<BikeShape>>,
    pub bags: Map<Entry<BagShape>>,
    pub failures: Map<Entry<FailureShape>>,
    pub preparations: Map<Entry<PreparationShape>>,
    pub checks: Map<Entry<CheckShape>>,
    pub sets: Map<Entry<SetShape>>,
    pub model: Option<Entry<ModelShape>>,
    pub prices: Option<Entry<PricesShape>>,
    pub evidence: Map<Entry<EvidenceShape>>,
    pub event_groups: Map<Entry<EventGroupShape>>,
    pub evidence_reading: Option<Entry<ReadingShape>>,
    pub rates: Map<Entry<RateShape>>,
    pub fall_rate: Option<Entry<FallRateShape>>,
    pub synonyms: Vec<Vec<String>>,
    /// Which entries of extra files took the place of others: what, from which file, of which file.
    replaced: Vec<(String, usize, usize)>,
}

/// Entries of one file that are told one by one; more are told together, as after the rates of many rides.
const FEW: usize = 3;

/// The file being merged in, and where to tell what.
struct Merging<'a> {
    file: usize,
    /// The key below which the sections stand; none for a file of their own.
    below: Path,
    extra: bool,
    findings: &'a mut Findings,
    replaced: &'a mut Vec<(String, usize, usize)>,
}

impl Merged {
    /// Takes in a file.
    pub fn add(&mut self, shapes: CatalogueFile, file: usize, extra: bool, findings: &mut Findings) {
        self.add_below(Path::default(), shapes, file, extra, findings);
    }

    /// Takes in the entries that a scenario holds under its key `catalogue`; they override.
    pub fn add_own(&mut self, shapes: CatalogueFile, file: usize, findings: &mut Findings) {
        self.add_below(Path::default().key("catalogue"), shapes, file, true, findings);
        self.settle_rates(findings);
    }

    fn add_below(&mut self, below: Path, shapes: CatalogueFile, file: usize, extra: bool, findings: &mut Findings) {
        let mut replaced = std::mem::take(&mut self.replaced);
        let mut merging = Merging { file, below, extra, findings, replaced: &mut replaced };
        self.synonyms.extend(shapes.synonyms);
        merging.take(Section::Attributes, &mut self.attributes, shapes.attributes, |_, _, _| {});
        merging.take(Section::Functions, &mut self.functions, shapes.functions, |_, _, _| {});
        merging.take(Section::Stocks, &mut self.stocks, shapes.stocks, |_, _, _| {});
        merging.take(Section::Needs, &mut self.needs, shapes.needs, |_, _, _| {});
        merging.take(Section::Systems, &mut self.systems, shapes.systems, |_, _, _| {});
        merging.take(Section::Ladders, &mut self.ladders, shapes.ladders, |_, _, _| {});
        merging.take(Section::Items, &mut self.items, shapes.items, like_itself);
        merging.take(Section::Bikes, &mut self.bikes, shapes.bikes, like_itself);
        merging.take(Section::Bags, &mut self.bags, shapes.bags, like_itself);
        merging.take(Section::Failures, &mut self.failures, shapes.failures, like_itself);
        merging.take(Section::Preparations, &mut self.preparations, shapes.preparations, |_, _, _| {});
        merging.take(Section::Checks, &mut self.checks, shapes.checks, |_, _, _| {});
        merging.take(Section::Sets, &mut self.sets, shapes.sets, |_, _, _| {});
        merging.take(Section::Evidence, &mut self.evidence, shapes.evidence, |_, _, _| {});
        merging.take(Section::EventGroups, &mut self.event_groups, shapes.event_groups, |_, _, _| {});
        merging.take(Section::Rates, &mut self.rates, shapes.rates, |_, _, _| {});
        merging.take_once("evidence_reading", &mut self.evidence_reading, shapes.evidence_reading);
        if extra && shapes.model.is_some() {
            // The falls that the new model states are meant, not those worked out for another.
            self.fall_rate = None;
        }
        merging.take_once("fall_rate", &mut self.fall_rate, shapes.fall_rate);
        merging.take_once("model", &mut self.model, shapes.model);
        merging.take_once("prices", &mut self.prices, shapes.prices);
        self.replaced = replaced;
    }

    /// Puts the rates worked out from evidence in the place of those typed in, which are kept beside them. Done before extra
    /// files are merged in, so that these override either.
    pub fn settle_rates(&mut self, findings: &mut Findings) {
        let known = self.failures.keys().cloned().collect::<Vec<_>>();
        for (id, entry) in std::mem::take(&mut self.rates) {
            if let Some(failure) = self.failures.get_mut(&id) {
                let typed = failure.shape.rate.replace(entry.shape);
                failure.shape.typed = failure.shape.typed.take().or(typed);
            } else if !findings.blind() {
                let near = findings.nearest(&entry.place, &id, known.iter().map(String::as_str));
                let expected = say!("the name of a failure in the section `failures`");
                findings.add(Code::UnknownName, &entry.place, quoted(&id), expected, near);
            }
        }
    }

    /// Which entries of extra files took the place of others, in words.
    pub fn notes(&self, findings: &Findings) -> Vec<String> {
        let same_file = |a: &(String, usize, usize), b: &(String, usize, usize)| a.1 == b.1;
        self.replaced.chunk_by(same_file).flat_map(|group| told(group, findings)).collect()
    }

    /// Is there not a single entry?
    pub fn is_empty(&self) -> bool {
        let parts = [self.attributes.len(), self.functions.len(), self.stocks.len(), self.needs.len()];
        let things = [self.systems.len(), self.items.len(), self.bikes.len(), self.bags.len()];
        let events = [self.failures.len(), self.preparations.len(), self.checks.len(), self.ladders.len()];
        parts.iter().chain(&things).chain(&events).chain(&[self.sets.len()]).all(|count| *count == 0)
    }
}

fn told(group: &[(String, usize, usize)], findings: &Findings) -> Vec<String> {
    if let [(first, ours, _), (second, ..), rest @ ..] = group
        && group.len() > FEW
    {
        let (count, ours) = (group.len(), findings.name(*ours));
        return vec![say!(
            "{count} entries from {ours} take the place of others: {first}, {second} and {} more",
            rest.len()
        )];
    }
    let one = |(what, ours, theirs): &(String, usize, usize)| {
        let (ours, theirs) = (findings.name(*ours), findings.name(*theirs));
        say!("{what} from {ours} takes the place of the one from {theirs}")
    };
    group.iter().map(one).collect()
}

/// An extra entry that is `like` the one it overrides takes over from that one.
fn like_itself<T: Inherit>(id: &str, shape: &mut T, old: &T) {
    if shape.like() == Some(id) {
        shape.inherit(old);
        shape.set_like(old.like().map(str::to_owned));
    }
}

impl Merging<'_> {
    fn take<T>(&mut self, section: Section, into: &mut Map<Entry<T>>, from: Map<T>, succeed: fn(&str, &mut T, &T)) {
        for (id, mut shape) in from {
            let place = Place { file: self.file, path: self.below.key(section.key()).key(&id) };
            if let Some(old) = into.get(&id) {
                if !self.may_replace(&place, &old.place) {
                    continue;
                }
                succeed(&id, &mut shape, &old.shape);
            }
            into.insert(id, Entry { place, shape, extra: self.extra });
        }
    }

    /// A section that stands once in all files.
    fn take_once<T>(&mut self, key: &str, into: &mut Option<Entry<T>>, from: Option<T>) {
        let Some(shape) = from else { return };
        let place = Place { file: self.file, path: self.below.key(key) };
        if into.as_ref().is_none_or(|old| self.may_replace(&place, &old.place)) {
            *into = Some(Entry { place, shape, extra: self.extra });
        }
    }

    /// An extra file overrides, which is noted; two shipped files must not say the same.
    fn may_replace(&mut self, new: &Place, old: &Place) -> bool {
        if self.extra {
            self.replaced.push((new.path.to_string(), new.file, old.file));
            return true;
        }
        self.findings.add_again(new, &new.path.to_string(), word!("one entry of that name"), old);
        false
    }
}
