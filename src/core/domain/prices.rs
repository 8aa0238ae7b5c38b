//! What carrying, buying, packing and being fetched cost, all in one currency: hours of the trip.
//!
//! A thing that is bought is charged `price x days / days of service` by its kind (nights for shelter, sleep and
//! cooking), all of it where it is eaten or burnt, and all of it where the riders own what does the same; divided by
//! the worth of an hour. Each thing also costs its packing. Every price has a default in the catalogue, with its basis;
//! a scenario may set its own, and 0 switches it off.

use super::{Basis, BasisKind, BySurface, Kind};
use crate::units::{Hours, Money};

/// The prices by which a kit is chosen. A price of 0 switches its term off.
///
/// Symbols, for one trip:
///
/// ```text
/// weight   = weight x sum over legs and surfaces of km / speed x strain  /  kg moved        hours per kg of kit
/// money    = (price x days on the trip / days of service, or all of it)  /  hour            hours per thing bought
/// packing  = thing                                                                          hours per thing carried
/// fetched  = hours to help + rest of day + (recovery + night if far) / hour                 hours per breakdown left
/// dread    = dread x hours to help                                                          hours per stranding
/// ```
///
/// `kg moved` is the bike ready to ride with its rider, passenger and empty bags.
#[derive(Debug, Clone, PartialEq)]
pub struct Prices {
    /// How far the time of hard riding stretches with the mass moved: 1 in proportion, 0 not at all. What weight does to
    /// falls is reckoned apart, by `load_sensitivity` of the model.
    pub weight: f64,
    /// Usual speed, km/h.
    pub speed: BySurface<f64>,
    /// Share of the riding time that is hard work, which is what stretches.
    pub strain: BySurface<f64>,
    /// What an hour of trouble on the trip is worth to the rider. Zero: money costs nothing.
    pub hour: Money,
    /// Factor on what buying is charged with; 0: what is bought counts for nothing, while an hour keeps its worth.
    pub buying: f64,
    /// Days (nights for shelter, sleep and cooking) that a thing of each kind serves before it is worn out, in the order
    /// of [`Kind::ALL`]. Zero: it is used up on the trip that it is bought for.
    pub service: [f64; Kind::ALL.len()],
    /// To find, stow, keep track of and put back one thing.
    pub thing: Hours,
    /// Riding lost on the day on which the bike has to be fetched, after help has come.
    pub rest_of_day: Hours,
    /// What being fetched costs.
    pub recovery: Money,
    /// A night's lodging, where help is far.
    pub night: Money,
    /// From so many hours to help on, a night is spent on it.
    pub night_from: Hours,
    /// Hours charged to a stranding for each hour to help, beside those lost.
    pub dread: f64,
    /// Where the numbers come from.
    pub basis: Basis,
}

/// What a rider says about the prices of one trip; what is not said stays as the catalogue has it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct OwnPrices {
    /// See [`Prices::weight`].
    pub weight: Option<f64>,
    /// See [`Prices::hour`].
    pub hour: Option<Money>,
    /// See [`Prices::buying`].
    pub buying: Option<f64>,
    /// See [`Prices::thing`].
    pub thing: Option<Hours>,
    /// See [`Prices::rest_of_day`].
    pub rest_of_day: Option<Hours>,
    /// See [`Prices::recovery`].
    pub recovery: Option<Money>,
    /// See [`Prices::night`].
    pub night: Option<Money>,
    /// See [`Prices::dread`].
    pub dread: Option<f64>,
}

impl Prices {
    /// These prices with what the rider says in their place.
    #[must_use]
    pub fn with(&self, own: &OwnPrices) -> Self {
        Self {
            weight: own.weight.unwrap_or(self.weight),
            hour: own.hour.unwrap_or(self.hour),
            buying: own.buying.unwrap_or(self.buying),
            thing: own.thing.unwrap_or(self.thing),
            rest_of_day: own.rest_of_day.unwrap_or(self.rest_of_day),
            recovery: own.recovery.unwrap_or(self.recovery),
            night: own.night.unwrap_or(self.night),
            dread: own.dread.unwrap_or(self.dread),
            ..self.clone()
        }
    }

    /// Hours that an amount of money is worth.
    #[must_use]
    pub fn hours_of(&self, money: Money) -> Hours {
        let hour = self.hour.units();
        Hours::new(if hour > 0.0 { money.units() / hour } else { 0.0 })
    }

    /// What a breakdown costs where nothing is done and help is so many hours away: the wait, what is left of the day, and
    /// the money.
    #[must_use]
    pub fn fetched(&self, hours_to_help: Hours) -> Hours {
        let lodging = if hours_to_help >= self.night_from { self.night } else { Money::ZERO };
        hours_to_help + self.rest_of_day + self.hours_of(self.recovery + lodging)
    }

    /// What is charged to a stranding beside the hours lost.
    #[must_use]
    pub fn dread(&self, hours_to_help: Hours) -> Hours {
        hours_to_help * self.dread
    }

    /// Share of the price of a bought thing of a kind that a trip of so many days and nights has to bear.
    #[must_use]
    pub fn share_borne(&self, kind: Kind, days: f64, nights: u32) -> f64 {
        let served = self.service[kind as usize];
        let used = if kind.serves_by_night() { f64::from(nights) } else { days };
        if served > 0.0 { (used / served).min(1.0) } else { 1.0 }
    }

    /// Hours that a purchase is charged with where the trip bears this share of its price.
    #[must_use]
    pub fn charged(&self, price: Money, share: f64) -> Hours {
        self.hours_of(price) * (share * self.buying)
    }

    /// Hours of hard riding that come to a kilometre on each surface.
    #[must_use]
    pub fn hard_hours_per_km(&self) -> BySurface<f64> {
        BySurface::new([0, 1, 2, 3].map(|at| {
            let surface = super::Surface::ALL[at];
            let speed = self.speed.on(surface);
            if speed > 0.0 { self.strain.on(surface) / speed } else { 0.0 }
        }))
    }
}

impl Default for Prices {
    /// Nothing costs anything but the falls that weight brings: what is used when no catalogue file has a `prices` section.
    fn default() -> Self {
        Self {
            weight: 0.0,
            speed: BySurface::new([0.0; 4]),
            strain: BySurface::new([0.0; 4]),
            hour: Money::ZERO,
            buying: 1.0,
            service: [0.0; Kind::ALL.len()],
            thing: Hours::ZERO,
            rest_of_day: Hours::ZERO,
            recovery: Money::ZERO,
            night: Money::ZERO,
            night_from: Hours::ZERO,
            dread: 0.0,
            basis: Basis { kind: BasisKind::Derived, note: "nothing is priced".to_owned() },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn prices() -> Prices {
        Prices {
            hour: Money::from_cents(4000),
            rest_of_day: Hours::new(4.0),
            recovery: Money::from_cents(10_000),
            night: Money::from_cents(6000),
            night_from: Hours::new(10.0),
            ..Prices::default()
        }
    }

    /// By hand: an hour's wait, four hours of riding and 100 at 40 an hour; far out 160 at 40 an hour.
    #[test]
    fn being_fetched_costs_the_wait_the_day_and_the_money() {
        assert!((prices().fetched(Hours::new(1.0)).get() - 7.5).abs() < 1e-12);
        assert!((prices().fetched(Hours::new(28.0)).get() - 36.0).abs() < 1e-12);
    }

    #[test]
    fn without_a_worth_of_an_hour_money_costs_nothing() {
        let free = Prices { hour: Money::ZERO, ..prices() };
        assert!((free.fetched(Hours::new(1.0)).get() - 5.0).abs() < 1e-12);
    }

    #[test]
    fn a_trip_bears_its_days_of_what_lasts_and_all_of_what_is_used_up() {
        let mut own = prices();
        own.service[Kind::Tool as usize] = 200.0;
        own.service[Kind::Sleep as usize] = 150.0;
        assert!((own.share_borne(Kind::Tool, 5.0, 4) - 0.025).abs() < 1e-12);
        assert!((own.share_borne(Kind::Sleep, 5.0, 3) - 0.02).abs() < 1e-12);
        assert!((own.share_borne(Kind::Food, 5.0, 4) - 1.0).abs() < 1e-12);
        assert!((own.share_borne(Kind::Tool, 900.0, 0) - 1.0).abs() < 1e-12);
    }
}
