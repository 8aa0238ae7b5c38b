//! Words, and texts that follow from them.

use crate::answer::cautions::cautions;
use crate::answer::firm::Dial;
use crate::answer::loading::By;
use crate::answer::solve::Way;
use crate::domain::Kind;
use crate::resolve::Reason;
use crate::serial::inline_schema;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// Kinds of things in a kit, written as the cautions that they call for.
pub(crate) struct Cautions;
/// A number that was turned.
pub(crate) struct DialWord;
/// How a kit was settled, as a flag.
pub(crate) struct JointModel;
/// What limits a kit's mass.
pub(crate) struct AllowedBy;
/// Why an item was dropped.
pub(crate) struct ReasonWords;

inline_schema! {
    Cautions, |_| json_schema!({
        "type": "array",
        "items": { "type": "string" },
        "description": "What can hurt people with this kit, in words; to be shown with whatever is made of the answer.",
    });
    DialWord, |_| json_schema!({ "type": "string", "enum": Dial::ALL.map(Dial::word) });
    JointModel, |_| json_schema!({
        "type": "boolean",
        "description": "Did the model decide that takes items and bags together?",
    });
    AllowedBy, |_| json_schema!({ "type": "string", "enum": ["wish", "bags", "gross", "front", "rear"] });
    ReasonWords, |_| json_schema!({ "type": "string", "description": "Why the item was dropped before choosing." });
}

impl Cautions {
    pub(crate) fn serialize<S: Serializer>(kinds: &[Kind], serializer: S) -> Result<S::Ok, S::Error> {
        cautions(kinds).serialize(serializer)
    }
}

impl DialWord {
    #[allow(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde calls")]
    pub(crate) fn serialize<S: Serializer>(dial: &Dial, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(dial.word())
    }
}

impl JointModel {
    #[allow(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde calls")]
    pub(crate) fn serialize<S: Serializer>(way: &Way, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_bool(*way == Way::Joint)
    }
}

impl AllowedBy {
    #[allow(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde calls")]
    pub(crate) fn serialize<S: Serializer>(by: &By, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(match by {
            By::Wish => "wish",
            By::Bags => "bags",
            By::Bike(limit) => limit.scale.word(),
        })
    }
}

impl ReasonWords {
    #[allow(clippy::trivially_copy_pass_by_ref, reason = "the shape that serde calls")]
    pub(crate) fn serialize<S: Serializer>(reason: &Reason, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(reason.words())
    }
}
