//! A trip put into a scenario in place of the one that is there; every other line stays as it was.

/// The scenario with this trip.
///
/// # Errors
/// In words, where no line begins with `trip:`.
pub fn into_scenario(scenario: &str, trip: &str) -> Result<String, String> {
    let lines: Vec<&str> = scenario.split_inclusive('\n').collect();
    let starts = |line: &&str| line.strip_prefix("trip").is_some_and(|rest| rest.trim_start().starts_with(':'));
    let first =
        lines.iter().position(starts).ok_or("found no line that begins with `trip:`; expected one to replace")?;
    let is_key =
        |line: &&str| line.starts_with(|c: char| !c.is_whitespace() && c != '#' && c != '-' && c != '}' && c != ']');
    let after = lines[first + 1..].iter().position(is_key).map_or(lines.len(), |at| first + 1 + at);
    // Remarks right above the next key are about it.
    let is_remark = |line: &&&str| line.starts_with('#') || line.trim().is_empty();
    let remarks = lines[first + 1..after].iter().rev().take_while(is_remark).count();
    let rest = lines[after - remarks..].concat();
    let gap = if rest.is_empty() || rest.starts_with('\n') || rest.starts_with("\r\n") { "" } else { "\n" };
    Ok(format!("{}{trip}{gap}{rest}", lines[..first].concat()))
}

#[cfg(test)]
mod tests {
    use super::into_scenario;

    #[test]
    fn only_the_trip_changes() {
        let before = "# A\nname: x\n\ntrip:\n  style: none # y\n# stray\n  legs:\n    - name: a\n\n# who\nriders:\n  - name: b\n";
        let after = "# A\nname: x\n\ntrip:\n  new\n\n# who\nriders:\n  - name: b\n";
        assert_eq!(into_scenario(before, "trip:\n  new\n").unwrap(), after);
    }

    #[test]
    fn a_trip_at_the_end_or_in_one_line() {
        assert_eq!(
            into_scenario("a: 1\ntrip: { style: none }\nb: 2\n", "trip: 5\n").unwrap(),
            "a: 1\ntrip: 5\n\nb: 2\n"
        );
        assert_eq!(into_scenario("a: 1\ntrip:\n  - x", "trip: 5\n").unwrap(), "a: 1\ntrip: 5\n");
        assert!(into_scenario("tripod: 1\n", "trip: 5\n").is_err());
    }
}
