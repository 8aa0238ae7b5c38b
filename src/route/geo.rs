//! Where things are on the earth, and how far apart.
//!
//! Lengths are geodesics on the WGS 84 ellipsoid (C. F. F. Karney, Algorithms for geodesics, J. Geodesy 87, 2013). What is
//! near what is asked in space, with the earth's centre as origin: there a date line and poles are places like any other.

use geographiclib_rs::{DirectGeodesic as _, Geodesic, InverseGeodesic as _};
use std::sync::LazyLock;

static EARTH: LazyLock<Geodesic> = LazyLock::new(Geodesic::wgs84);

/// Equatorial radius in metres and flattening of WGS 84.
const RADIUS: f64 = 6_378_137.0;
const FLATTENING: f64 = 1.0 / 298.257_223_563;

/// A place on the earth: degrees north of the equator and east of Greenwich.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// From -90 to 90.
    pub lat: f64,
    /// From -180 up to, but not including, 180.
    pub lon: f64,
}

impl Point {
    /// None where a latitude is not from -90 to 90, a longitude not from -180 to 360, or either not a number.
    #[must_use]
    pub fn new(lat: f64, lon: f64) -> Option<Self> {
        let sound = (-90.0..=90.0).contains(&lat) && (-180.0..=360.0).contains(&lon);
        sound.then_some(Self { lat, lon: if lon >= 180.0 { lon - 360.0 } else { lon } })
    }

    /// Metres along the geodesic.
    #[must_use]
    pub fn metres_to(self, other: Self) -> f64 {
        EARTH.inverse(self.lat, self.lon, other.lat, other.lon)
    }

    /// Both ends, and the points between that cut the geodesic into so many equal parts.
    #[must_use]
    pub fn corners(self, other: Self, parts: f64) -> Vec<Self> {
        let (metres, azimuth, _, _): (f64, f64, f64, f64) = EARTH.inverse(self.lat, self.lon, other.lat, other.lon);
        let mut corners = vec![self];
        let mut part = 1.0;
        while part < parts {
            let (lat, lon): (f64, f64) = EARTH.direct(self.lat, self.lon, azimuth, metres * part / parts);
            // Beyond the range by a rounding at most
            corners.extend(Self::new(lat.clamp(-90.0, 90.0), lon));
            part += 1.0;
        }
        corners.push(other);
        corners
    }

    /// In space: metres from the earth's centre toward the equator at Greenwich, at 90 degrees east, and the north pole.
    #[must_use]
    pub fn space(self) -> Space {
        let (sin_lat, cos_lat) = self.lat.to_radians().sin_cos();
        let (sin_lon, cos_lon) = self.lon.to_radians().sin_cos();
        let eccentricity = FLATTENING * (2.0 - FLATTENING);
        let normal = RADIUS / (1.0 - eccentricity * sin_lat * sin_lat).sqrt();
        Space([normal * cos_lat * cos_lon, normal * cos_lat * sin_lon, normal * (1.0 - eccentricity) * sin_lat])
    }
}

/// A point in space, or the way from one to another; metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Space(pub [f64; 3]);

impl Space {
    /// The straight way from another point to this one.
    #[must_use]
    pub fn from(self, other: Self) -> Self {
        Self([self.0[0] - other.0[0], self.0[1] - other.0[1], self.0[2] - other.0[2]])
    }

    /// Product of lengths and of the cosine between.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.0[0] * other.0[0] + self.0[1] * other.0[1] + self.0[2] * other.0[2]
    }

    /// Metres.
    #[must_use]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// Straight through the earth: over 30 km 3 cm less than along its surface.
    #[must_use]
    pub fn metres_to(self, other: Self) -> f64 {
        self.from(other).length()
    }

    /// How far from the stretch between two points, and at which share of it, from 0 to 1, the nearest point lies.
    #[must_use]
    pub fn to_stretch(self, start: Self, end: Self) -> (f64, f64) {
        let (along, here) = (end.from(start), self.from(start));
        let square = along.dot(along);
        let share = if square > 0.0 { (here.dot(along) / square).clamp(0.0, 1.0) } else { 0.0 };
        let foot = Self([0, 1, 2].map(|axis| start.0[axis] + share * along.0[axis]));
        (self.metres_to(foot), share)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The problems worked through in Karney 2013: tables 2 (direct), 3 (short line) and 5 (nearly antipodal).
    #[test]
    fn lengths_are_those_published() {
        // Table 2: 40 N, azimuth 30, 10,000 km, ends at 41.79331020506 N 137.84490004377 E
        let (start, end) = (point(40.0, 0.0), point(41.793_310_205_06, 137.844_900_043_77));
        assert!((start.metres_to(end) - 10_000_000.0).abs() < 1e-3, "{}", start.metres_to(end));
        // Table 5: nearly antipodal, -30 N 0 to 29.9 N 179.8 E, 19,989,832.827610 m
        let (start, end) = (point(-30.0, 0.0), point(29.9, 179.8));
        assert!((start.metres_to(end) - 19_989_832.827_610).abs() < 1e-3, "{}", start.metres_to(end));
        // Table 3, a short line: -30.12345 N 0 to -30.12344 N 0.00005 E, 4.944208 m
        let (start, end) = (point(-30.12345, 0.0), point(-30.12344, 0.00005));
        assert!((start.metres_to(end) - 4.944_208).abs() < 1e-6, "{}", start.metres_to(end));
    }

    fn point(lat: f64, lon: f64) -> Point {
        Point::new(lat, lon).unwrap()
    }

    #[test]
    fn what_is_not_on_the_earth_is_no_point() {
        for (lat, lon) in
            [(91.0, 0.0), (f64::NAN, 0.0), (0.0, f64::INFINITY), (0.0, -180.1), (-90.1, 0.0), (0.0, 360.1)]
        {
            assert_eq!(Point::new(lat, lon), None, "{lat} {lon}");
        }
        assert_eq!(point(0.0, 180.0), point(0.0, -180.0));
    }

    #[test]
    fn date_line_and_pole_are_places_like_any_other() {
        assert!((point(0.0, 179.999).metres_to(point(0.0, -179.999)) - 222.639).abs() < 0.01);
        let over = point(89.999, 0.0).metres_to(point(89.999, 180.0));
        assert!((over - 223.388).abs() < 0.01, "{over}");
        assert!((point(89.999, 0.0).space().metres_to(point(89.999, 180.0).space()) - over).abs() < 1e-3);
        let middle = point(10.0, 179.0).corners(point(10.0, -179.0), 2.0)[1];
        assert!((middle.lon + 180.0).abs() < 1e-9 || (middle.lon - 180.0).abs() < 1e-9, "{middle:?}");
    }

    #[test]
    fn the_nearest_point_of_a_stretch_is_at_an_end_or_between() {
        let (start, end) = (Space([0.0, 0.0, 0.0]), Space([10.0, 0.0, 0.0]));
        assert_eq!(Space([5.0, 3.0, 0.0]).to_stretch(start, end), (3.0, 0.5));
        assert_eq!(Space([-4.0, 3.0, 0.0]).to_stretch(start, end), (5.0, 0.0));
        assert_eq!(Space([14.0, 0.0, 3.0]).to_stretch(start, end), (5.0, 1.0));
        assert_eq!(Space([3.0, 4.0, 0.0]).to_stretch(start, start), (5.0, 0.0));
    }
}
