//! What is looked at before leaving.

use fardel_core::answer::BikeChecks;
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Check<'a> {
    id: &'a str,
    name: &'a str,
    look: &'a str,
    stop: &'a str,
    defer: &'a str,
    basis: String,
}

#[derive(Serialize)]
pub(super) struct Group<'a> {
    bikes: &'a [String],
    riders: &'a [String],
    checks: Vec<Check<'a>>,
}

pub(super) fn checks(checks: &[fardel_core::domain::Check]) -> Vec<Check<'_>> {
    checks.iter().map(check).collect()
}

fn check(own: &fardel_core::domain::Check) -> Check<'_> {
    Check {
        id: &own.id,
        name: &own.name,
        look: &own.look,
        stop: &own.stop,
        defer: &own.defer,
        basis: own.basis.to_string(),
    }
}

pub(super) fn groups(groups: &[BikeChecks]) -> Vec<Group<'_>> {
    groups.iter().map(group).collect()
}

fn group(own: &BikeChecks) -> Group<'_> {
    Group { bikes: &own.bikes, riders: &own.riders, checks: checks(&own.checks) }
}
