//! Things run on, broken between things rather than within them.

use super::BETWEEN;
use crate::Look;
use textwrap::core::display_width;

const INDENT: usize = 4;

/// The things on lines of the width, on at most so many; `more` says how many are left out.
pub(super) fn flow(things: &[String], most: usize, more: impl Fn(usize) -> String, look: &Look) -> String {
    let room = look.width.saturating_sub(INDENT).max(1);
    let mut lines: Vec<Vec<&str>> = Vec::new();
    let mut used = 0;
    for thing in things {
        let width = display_width(thing) + display_width(BETWEEN);
        // What stands between two things at the end of a line does not count.
        if let Some(line) = lines.last_mut().filter(|_| used + display_width(thing) <= room) {
            line.push(thing);
        } else {
            used = 0;
            lines.push(vec![thing]);
        }
        used += width;
    }
    let left: usize = lines.iter().skip(most).map(Vec::len).sum();
    let mut lines: Vec<String> = lines.iter().take(most).map(|line| line.join(BETWEEN)).collect();
    if left > 0 {
        lines.push(more(left));
    }
    let indent = " ".repeat(INDENT);
    let options = textwrap::Options::new(look.width).initial_indent(&indent).subsequent_indent(&indent);
    let lines: Vec<String> = lines.iter().map(|line| textwrap::fill(line, &options)).collect();
    if lines.is_empty() { String::new() } else { lines.join("\n") + "\n" }
}

#[cfg(test)]
mod tests {
    use super::flow;
    use crate::Look;
    use fardel_core::units::UnitSystem;

    #[test]
    fn a_thing_stays_on_its_line() {
        let look = Look { units: UnitSystem::Metric, width: 24 };
        let things = ["hand pump", "rear tube", "patch kit", "zip ties"].map(str::to_owned);
        let all = flow(&things, usize::MAX, |_| String::new(), &look);
        assert_eq!(all, "    hand pump\n    rear tube\n    patch kit · zip ties\n");
        let short = flow(&things, 1, |left| format!("and {left} more"), &look);
        assert_eq!(short, "    hand pump\n    and 3 more\n");
    }
}
