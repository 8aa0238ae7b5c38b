//! A rider's own gear and packed kits as written.

use super::Text;
use crate::domain::Kind;
use crate::load::list::{Free, Names};
use crate::load::numbers::Count;
use crate::load::quantity::Price;
use crate::units::{Length, Mass, Volume};
use fardel_words::word;
use schemars::JsonSchema;
use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, SeqAccess, Visitor, value::MapAccessDeserializer};
use std::fmt;
use std::marker::PhantomData;

/// A gear file: what a rider owns, with the masses on the rider's own scale.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct GearFile {
    /// Things that the rider owns.
    pub items: Listed<GearShape>,
    /// What names of a list stand for, from the file beside it.
    #[serde(skip)]
    pub names: Names,
}

/// A thing that somebody owns.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct GearShape {
    /// Id in the catalogue.
    pub id: Option<Text>,
    /// A free name, or one of the catalogue's.
    pub name: Option<Text>,
    /// What sort of thing.
    pub kind: Option<Kind>,
    /// Mass of one, on your scale.
    pub mass: Option<Mass>,
    /// Volume of one, packed.
    pub volume: Option<Volume>,
    /// Longest side, packed.
    pub longest: Option<Length>,
    /// What another one would cost.
    pub price: Option<Price>,
    /// How many; 1 if left out.
    pub count: Option<Count>,
    /// Not read.
    pub remarks: Option<Text>,
    /// For a line of a list with free names: where it stands.
    #[serde(skip)]
    pub free: Option<Free>,
    /// Whether the volume is estimated from the kind.
    #[serde(skip)]
    pub estimated: bool,
}

/// A packed kit.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct KitFile {
    /// Things in the kit.
    pub items: Listed<KitShape>,
}

/// A line of a packed kit.
#[derive(Debug, Clone, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub(crate) struct KitShape {
    /// Id in the catalogue.
    pub id: Option<Text>,
    /// How many; 1 if left out.
    pub count: Option<Count>,
    /// Id of the bag that it is in, for the field card; left out: not known.
    pub bag: Option<Text>,
    /// Not read.
    pub remarks: Option<Text>,
}

/// As much as is needed of an earlier answer in JSON; its other fields do not matter here.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(default)]
pub(crate) struct PackedFile {
    pub bags: Vec<PackedBag>,
}

/// A bag of an earlier answer.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(default)]
pub(crate) struct PackedBag {
    pub id: Option<String>,
    pub items: Vec<PackedLine>,
}

/// A line in a bag of an earlier answer.
#[derive(Debug, Clone, Default, Deserialize)]
#[serde(default)]
pub(crate) struct PackedLine {
    pub id: Option<String>,
    pub count: Option<Count>,
}

/// An entry of a list that may be shortened to a name, or to a name and a count.
pub(crate) trait Short: Default {
    /// An entry that only says what it is.
    fn named(name: &str) -> Self;
    /// The same, so many times.
    fn counted(self, count: Count) -> Self;
    /// Takes the key it stood under in a map as its name, unless it has one.
    fn under(self, key: &str) -> Self;
}

impl Short for GearShape {
    fn named(name: &str) -> Self {
        Self { name: Some(Text(name.to_owned())), ..Self::default() }
    }
    fn counted(self, count: Count) -> Self {
        Self { count: Some(count), ..self }
    }
    fn under(mut self, key: &str) -> Self {
        if self.id.is_none() && self.name.is_none() {
            self.name = Some(Text(key.to_owned()));
        }
        self
    }
}

impl Short for KitShape {
    fn named(name: &str) -> Self {
        Self { id: Some(Text(name.to_owned())), ..Self::default() }
    }
    fn counted(self, count: Count) -> Self {
        Self { count: Some(count), ..self }
    }
    fn under(self, key: &str) -> Self {
        Self { id: self.id.or_else(|| Some(Text(key.to_owned()))), ..self }
    }
}

/// Entries in a list, or in a map under their names; each with the key it stood under, if it did.
#[derive(Debug, Clone)]
pub(crate) struct Listed<T>(pub Vec<(Option<String>, T)>);

impl<T> Default for Listed<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

struct ListedVisitor<T>(PhantomData<T>);

impl<'de, T: Short + Deserialize<'de>> Visitor<'de> for ListedVisitor<T> {
    type Value = Listed<T>;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word!("a list of entries, or a map of names to counts"))
    }
    fn visit_unit<E: Error>(self) -> Result<Listed<T>, E> {
        Ok(Listed::default())
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Listed<T>, A::Error> {
        let mut entries = Vec::new();
        while let Some(line) = list.next_element::<Line<T>>()? {
            entries.push((None, line.0));
        }
        Ok(Listed(entries))
    }
    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Listed<T>, A::Error> {
        let mut entries = Vec::new();
        while let Some((key, line)) = map.next_entry::<String, Valued<T>>()? {
            let entry = line.0.under(&key);
            entries.push((Some(key), entry));
        }
        Ok(Listed(entries))
    }
}

impl<'de, T: Short + Deserialize<'de>> Deserialize<'de> for Listed<T> {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(ListedVisitor(PhantomData))
    }
}

/// A member of a list: an entry, or only its name.
struct Line<T>(T);

/// A value of a map: an entry, or only its count.
struct Valued<T>(T);

struct LineVisitor<T>(PhantomData<T>);

impl<'de, T: Short + Deserialize<'de>> Visitor<'de> for LineVisitor<T> {
    type Value = Line<T>;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word!("a name, or an entry such as `{ id: tyre-lever, count: 2 }`"))
    }
    fn visit_str<E: Error>(self, name: &str) -> Result<Line<T>, E> {
        Ok(Line(T::named(name)))
    }
    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Line<T>, A::Error> {
        T::deserialize(MapAccessDeserializer::new(map)).map(Line)
    }
}

impl<'de, T: Short + Deserialize<'de>> Deserialize<'de> for Line<T> {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(LineVisitor(PhantomData))
    }
}

struct ValuedVisitor<T>(PhantomData<T>);

impl<'de, T: Short + Deserialize<'de>> Visitor<'de> for ValuedVisitor<T> {
    type Value = Valued<T>;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(word!("a count, or an entry such as `{ count: 2, mass: 190 g }`"))
    }
    fn visit_unit<E: Error>(self) -> Result<Valued<T>, E> {
        Ok(Valued(T::default()))
    }
    fn visit_i64<E: Error>(self, count: i64) -> Result<Valued<T>, E> {
        let count = Count::deserialize(serde::de::value::I64Deserializer::<E>::new(count))?;
        Ok(Valued(T::default().counted(count)))
    }
    fn visit_f64<E: Error>(self, count: f64) -> Result<Valued<T>, E> {
        let count = Count::deserialize(serde::de::value::F64Deserializer::<E>::new(count))?;
        Ok(Valued(T::default().counted(count)))
    }
    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Valued<T>, A::Error> {
        T::deserialize(MapAccessDeserializer::new(map)).map(Valued)
    }
}

impl<'de, T: Short + Deserialize<'de>> Deserialize<'de> for Valued<T> {
    fn deserialize<D: Deserializer<'de>>(value: D) -> Result<Self, D::Error> {
        value.deserialize_any(ValuedVisitor(PhantomData))
    }
}
