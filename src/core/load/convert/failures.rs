//! Failures and their repairs.

use super::form::{Form, shown};
use super::inherit::resolved;
use super::items::counts;
use super::rates::{rate, typed};
use super::{Draft, Merged, keep};
use crate::diagnostic::Code;
use crate::domain::{Applies, Failure, Grade, Map, Outcome, Repair, RepairSkill};
use crate::load::file::{FailureShape, OneOrMany, RepairShape, Text};
use crate::load::findings::Findings;
use crate::load::section::Section;
use crate::load::words::OutcomeWord;
use fardel_words::say;

/// Converts all failures.
pub(super) fn failures(merged: &Merged, draft: &mut Draft, findings: &mut Findings) {
    for (id, entry) in &merged.failures {
        let Some((shape, lenient)) = resolved(id, &merged.failures, findings) else { continue };
        let mut form = Form { findings, place: entry.place.clone(), lenient };
        let system = form.need_any("system", shape.system.clone());
        if shape.system.is_some() {
            draft.names.check(Section::Systems, &system, &entry.place.key("system"), form.findings);
        }
        let failure = Failure {
            id: id.clone(),
            name: form.name(shape.name.clone()),
            applies: applies(shape.applies.clone()),
            styles: shape.styles.clone().unwrap_or_default(),
            outcome: outcome(&shape, &mut form),
            rate: rate(&shape, merged, draft, &mut form),
            typed: typed(&shape, merged, draft, &mut form),
            repairs: repairs(shape.repairs.unwrap_or_default(), &mut form),
            system,
        };
        keep!(draft, Failures, failures, id.clone(), entry.place.clone(), failure);
    }
}

/// The bikes something is about.
pub(super) fn applies(shape: Option<Map<OneOrMany>>) -> Applies {
    shape.unwrap_or_default().into_iter().map(|(attribute, values)| (attribute, values.0)).collect()
}

fn outcome(shape: &FailureShape, form: &mut Form<'_>) -> Outcome {
    let word = form.need("outcome", shape.outcome, OutcomeWord::Stops);
    if shape.outcome.is_some() {
        let share = shape.limps_share.is_some() && word != OutcomeWord::Limps;
        let hours = shape.nags_hours.is_some() && word != OutcomeWord::Nags;
        for (odd, key, only) in [(share, "limps_share", "limps"), (hours, "nags_hours", "nags")] {
            if odd {
                let expected = say!("`{key}` only with `outcome: {only}`");
                let found = say!("`{key}` with another outcome");
                form.findings.add(Code::Contradiction, &form.place.key(key), found, expected, None);
            }
        }
    }
    match word {
        OutcomeWord::Stops => Outcome::Stops,
        OutcomeWord::Limps => Outcome::Limps(form.need_any("limps_share", shape.limps_share).0),
        OutcomeWord::Nags => Outcome::Nags(form.need_any("nags_hours", shape.nags_hours)),
    }
}

/// Lines of text; empty ones say nothing.
fn texts(shape: Option<Vec<Text>>) -> Vec<String> {
    shape.into_iter().flatten().map(|text| shown(&text.0)).filter(|text| !text.is_empty()).collect()
}

fn repairs(shapes: Map<RepairShape>, form: &mut Form<'_>) -> Vec<Repair> {
    let place = form.place.key("repairs");
    let one = |(id, shape): (String, RepairShape)| {
        let mut form = Form::new(form.findings, place.key(&id));
        Repair {
            name: form.name(shape.name),
            grade: form.need("grade", shape.grade, Grade::Field),
            needs: counts(shape.needs),
            uses: counts(shape.uses),
            time: form.need_any("time", shape.time),
            restores: form.need_any("restores", shape.restores).0,
            skill: form.need("skill", shape.skill, RepairSkill::Anyone),
            riders: shape.riders.map_or(1, |riders| riders.0),
            basis: form.basis(shape.basis),
            steps: texts(shape.steps),
            check_after: texts(shape.check_after),
            id,
        }
    };
    shapes.into_iter().map(one).collect()
}
