//! Fields that a type does not have as such, written beside those that it has: parts of a pair, sums, words.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::marker::PhantomData;

/// Something that is written in place of something else.
pub(crate) trait Part: Serialize + JsonSchema {
    /// What it is made from.
    type From;
    /// Makes it.
    fn of(from: &Self::From) -> Self;
}

/// A list of which each member is written as such a part.
pub(crate) struct Listed<P>(PhantomData<P>);

impl<P: Part> Listed<P> {
    pub(crate) fn serialize<S: Serializer>(members: &[P::From], serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(members.iter().map(P::of))
    }
}

impl<P: Part> JsonSchema for Listed<P> {
    fn schema_name() -> Cow<'static, str> {
        <Vec<P>>::schema_name()
    }
    fn inline_schema() -> bool {
        true
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        <Vec<P>>::json_schema(generator)
    }
}

/// Declares parts: `Name(value: Type) { /// description field: Type = figure of value, }`.
macro_rules! parts {
    ($($(#[$meta:meta])* $name:ident($value:pat => $from:ty) {
        $($(#[$field_meta:meta])* $field:ident: $type:ty = $figure:expr,)+
    })+) => {
        $($(#[$meta])*
        #[derive(serde::Serialize, schemars::JsonSchema)]
        pub(crate) struct $name { $($(#[$field_meta])* $field: $type,)+ }

        impl $crate::serial::Part for $name {
            type From = $from;
            fn of($value: &$from) -> Self {
                Self { $($field: $figure,)+ }
            }
        }

        #[allow(dead_code, reason = "members of lists are written by the list")]
        impl $name {
            pub(crate) fn serialize<S: serde::Serializer>(from: &$from, serializer: S) -> Result<S::Ok, S::Error> {
                serde::Serialize::serialize(&<Self as $crate::serial::Part>::of(from), serializer)
            }
        })+
    };
}
pub(crate) use parts;
