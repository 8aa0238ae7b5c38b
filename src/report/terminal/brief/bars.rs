//! Bars of what is used, in characters that need no colour.

use crate::Look;
use crate::view::Bar;
use textwrap::core::display_width;

/// Cells of a bar where there is room.
const LONGEST: usize = 30;
/// Fewer cells tell nothing.
const SHORTEST: usize = 8;

/// The bars below each other, aligned.
pub(super) fn bars(bars: &[Bar], look: &Look) -> String {
    let widest = |of: fn(&Bar) -> &str| bars.iter().map(|bar| display_width(of(bar))).max().unwrap_or(0);
    let (name, text, note) = (widest(|bar| &bar.name), widest(|bar| &bar.text), widest(|bar| bar.note));
    let room = look.width.saturating_sub(name + text + note + 5).min(LONGEST);
    let one = |bar: &Bar| {
        let cells = if room < SHORTEST { String::new() } else { cells(bar.share, room) };
        let pad = |text: &str, width: usize| format!("{text}{}", " ".repeat(width - display_width(text)));
        let line = format!("{}  {}  {cells} {}", pad(&bar.name, name), pad(&bar.text, text), bar.note);
        format!("{}\n", textwrap::fill(line.trim_end(), look.width))
    };
    bars.iter().map(one).collect()
}

/// `#####.....`: something shows where there is anything at all, and a bar is full only where nothing is left.
fn cells(share: f64, room: usize) -> String {
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "a few cells"
    )]
    let exact = (share * room as f64).round() as usize;
    let full = if share >= 1.0 { room } else { exact.min(room - 1).max(usize::from(share > 0.0)) };
    format!("{}{}", "#".repeat(full), ".".repeat(room - full))
}

#[cfg(test)]
mod tests {
    use super::cells;

    #[test]
    fn a_bar_is_full_only_at_the_limit() {
        assert_eq!(cells(1.0, 10), "##########");
        assert_eq!(cells(0.999, 10), "#########.");
        assert_eq!(cells(0.001, 10), "#.........");
        assert_eq!(cells(0.0, 10), "..........");
    }
}
