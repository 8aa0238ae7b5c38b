//! Times as GPX has them: ISO 8601, with or without a zone.

/// Seconds since the beginning of 1970 by UTC; without a zone it is taken as UTC. None where it is no such time.
pub(super) fn seconds(text: &str) -> Option<f64> {
    let text = text.trim();
    let (date, clock) = text.split_once(['T', ' '])?;
    let mut parts = date.splitn(3, '-').map(|part| part.parse::<u32>().ok());
    let (year, month, day) = (parts.next()??, parts.next()??, parts.next()??);
    let (clock, zone) = split_zone(clock)?;
    let mut parts = clock.splitn(3, ':');
    let hour: u32 = parts.next()?.parse().ok()?;
    let minute: u32 = parts.next()?.parse().ok()?;
    let second: f64 = parts.next().map_or(Some(0.0), |part| part.parse().ok())?;
    let sound = (1..=9999).contains(&year) && (1..=12).contains(&month) && (1..=31).contains(&day);
    if !sound || hour > 24 || minute > 59 || !(0.0..61.0).contains(&second) {
        return None;
    }
    Some(days(year, month, day) * 86_400.0 + f64::from(hour * 3600 + minute * 60) + second - zone)
}

/// The time of day, and by how many seconds its zone is ahead of UTC.
fn split_zone(clock: &str) -> Option<(&str, f64)> {
    if let Some(clock) = clock.strip_suffix(['Z', 'z']) {
        return Some((clock, 0.0));
    }
    let Some(at) = clock.find(['+', '-']) else { return Some((clock, 0.0)) };
    let (clock, zone) = clock.split_at(at);
    let digits: String = zone[1..].chars().filter(char::is_ascii_digit).collect();
    let minutes = match digits.len() {
        2 => digits.parse::<u32>().ok()? * 60,
        4 => digits[..2].parse::<u32>().ok()? * 60 + digits[2..].parse::<u32>().ok()?,
        _ => return None,
    };
    let ahead = f64::from(minutes) * 60.0;
    Some((clock, if zone.starts_with('-') { -ahead } else { ahead }))
}

/// Days from the first of January 1970: years are counted from March, so that the day of a leap year comes last.
fn days(year: u32, month: u32, day: u32) -> f64 {
    let (year, month) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
    let before = 365 * year + year / 4 - year / 100 + year / 400 + (153 * month + 2) / 5 + day - 1;
    // From the first of March of the year 0 to 1970 there are 719,468 days.
    f64::from(before) - 719_468.0
}

#[cfg(test)]
mod tests {
    use super::seconds;

    /// Unix times as the command `date --utc +%s` gives them.
    #[test]
    fn times_with_and_without_zone() {
        for (text, expected) in [
            ("1970-01-01T00:00:00Z", 0.0),
            ("2000-02-29T12:00:00Z", 951_825_600.0),
            ("2026-05-01T08:00:00", 1_777_622_400.0),
            ("2026-05-01T10:00:00+02:00", 1_777_622_400.0),
            ("2026-05-01T04:30:00.250-0330", 1_777_622_400.25),
            ("2100-03-01T00:00:00Z", 4_107_542_400.0),
        ] {
            assert_eq!(seconds(text), Some(expected), "{text}");
        }
    }

    #[test]
    fn what_is_no_time_is_none() {
        for text in [
            "",
            "yesterday",
            "2026-13-01T00:00:00Z",
            "2026-01-01",
            "2026-01-01T25:00:00Z",
            "2026-01-01T1:NaN:0",
            "T",
            "-1--1-1T",
        ] {
            assert_eq!(seconds(text), None, "{text}");
        }
    }
}
