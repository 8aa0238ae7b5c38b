//! Something that happens at a moment of the trip.

/// Something that breaks, or time lost to a fall.
#[derive(Debug, Clone, Copy)]
pub(super) struct Event {
    pub moment: Moment,
    pub what: What,
}

/// What it is.
#[derive(Debug, Clone, Copy)]
pub(super) enum What {
    /// Number of the situation.
    Breaks(u32),
    /// A fall that the weight brought: number of the member.
    Falls(u32),
}

/// When it is: the leg in the upper half, and the part of it that is ridden, in 2^-32, in the lower.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Moment(u64);

impl Moment {
    const fn new(leg: u32, part: u32) -> Self {
        Self((leg as u64) << u32::BITS | part as u64)
    }

    pub const fn leg(self) -> u32 {
        (self.0 >> u32::BITS) as u32
    }

    /// The day of the leg, if the leg takes so many.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "not negative; `as` saturates")]
    pub fn day(self, days: f64) -> u32 {
        (f64::from(self.0 as u32) * days / (f64::from(u32::MAX) + 1.0)) as u32
    }
}

impl Event {
    /// Something breaks at the beginning of a leg.
    pub const fn breaks(situation: u32, leg: u32) -> Self {
        Self { moment: Moment::new(leg, 0), what: What::Breaks(situation) }
    }

    /// A fall costs time at the beginning of a leg.
    pub const fn falls(member: u32, leg: u32) -> Self {
        Self { moment: Moment::new(leg, 0), what: What::Falls(member) }
    }

    /// The same at another part of the leg.
    pub const fn at(self, part: u32) -> Self {
        Self { moment: Moment::new(self.moment.leg(), part), what: self.what }
    }
}
