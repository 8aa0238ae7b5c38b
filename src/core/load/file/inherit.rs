//! `like`: taking over from another entry whatever is not stated.

use super::{BagShape, BikeShape, FailureShape, ItemShape};

/// An entry that may be like another one.
pub(crate) trait Inherit: Clone {
    /// The entry it is like.
    fn like(&self) -> Option<&str>;
    /// Says what it is like.
    fn set_like(&mut self, like: Option<String>);
    /// Takes over what it does not state itself.
    fn inherit(&mut self, base: &Self);
}

macro_rules! inherit {
    ($shape:ty, $($key:ident),+; $first:expr) => {
        impl Inherit for $shape {
            fn like(&self) -> Option<&str> {
                self.like.as_deref()
            }
            fn set_like(&mut self, like: Option<String>) {
                self.like = like;
            }
            fn inherit(&mut self, base: &Self) {
                let first: fn(&mut Self, &Self) = $first;
                first(self, base);
                $(if self.$key.is_none() {
                    self.$key.clone_from(&base.$key);
                })+
            }
        }
    };
}

inherit!(
    ItemShape, name, kind, mass, volume, longest, price, at_most, provides, holds, meets, requires, access, dry,
    apart_from, personal, on_request, basis; short_of_the_same_name
);
inherit!(
    FailureShape, name, system, applies, styles, outcome, limps_share, nags_hours, rate, typed, repairs; |_, _| {}
);
inherit!(
    BagShape, name, volume, packing, mass, max_load, longest, access, weatherproof, side, ahead, out, height, refuses,
    price, basis; |_, _| {}
);
inherit!(
    BikeShape, name, mass, max_mass, front_share, wheelbase, front_axle_limit, rear_axle_limit, front_load_index,
    rear_load_index, front_pressure, rear_pressure, front_travel, rear_travel, rider_x, passenger_x, toolkit, bags, fitted, basis; energy_and_attributes
);

/// A short name says the same as the name, so it is taken over with it or not at all.
fn short_of_the_same_name(item: &mut ItemShape, base: &ItemShape) {
    if item.name.is_none() && item.short.is_none() {
        item.short.clone_from(&base.short);
    }
}

/// A bike that says what drives it takes over nothing that contradicts it: a battery no tank, a tank no range.
fn energy_and_attributes(bike: &mut BikeShape, base: &BikeShape) {
    let (battery, fuel) = (bike.range.is_some(), bike.tank.is_some() || bike.consumption.is_some());
    if !battery {
        bike.tank = bike.tank.or(base.tank);
        bike.consumption = bike.consumption.or(base.consumption);
    }
    if !fuel {
        bike.range = bike.range.or(base.range);
    }
    merge_attributes(bike, base);
}

/// Attributes are taken over one by one; those of the base come first, so that lists of bikes read alike.
fn merge_attributes(bike: &mut BikeShape, base: &BikeShape) {
    let Some(theirs) = &base.attributes else { return };
    let mut merged = theirs.clone();
    merged.extend(bike.attributes.take().unwrap_or_default());
    bike.attributes = Some(merged);
}
