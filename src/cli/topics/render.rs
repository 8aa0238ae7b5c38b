//! A guide laid out for a terminal.

use clap::builder::styling::Style;
use textwrap::{Options, WordSeparator, WordSplitter};

/// What stands in front of a line of a fenced block.
const INDENT: &str = "    ";
/// Lines of prose longer than this many columns are hard to follow.
const WIDEST: usize = 100;

/// Lays out a guide within so many columns. Headings are bold where colours are shown.
pub(in crate::cli) fn render(text: &str, width: usize) -> String {
    let mut lines: Vec<String> = Vec::new();
    let mut fenced = false;
    for line in text.lines() {
        if line.starts_with("```") {
            fenced = !fenced;
        } else if fenced {
            lines.extend(as_it_is(line, width));
        } else if let Some(heading) = line.strip_prefix("# ").or_else(|| line.strip_prefix("## ")) {
            let bold = Style::new().bold();
            lines.extend(wrapped(heading, width, "").map(|line| format!("{bold}{line}{bold:#}")));
        } else if !line.starts_with("<!--") {
            lines.extend(wrapped(line, width, &" ".repeat(marker(line))));
        }
    }
    // A comment that was left out leaves two empty lines behind.
    lines.dedup_by(|line, before| line.is_empty() && before.is_empty());
    lines.join("\n") + "\n"
}

/// How far further lines stand in: as far as the text of a list entry (`- `, `12. `), or as the line itself.
fn marker(line: &str) -> usize {
    if line.starts_with(' ') {
        return line.len() - line.trim_start().len();
    }
    if line.starts_with("- ") {
        return 2;
    }
    let digits = line.bytes().take_while(u8::is_ascii_digit).count();
    if digits > 0 && line[digits..].starts_with(". ") { digits + 2 } else { 0 }
}

fn wrapped<'a>(line: &'a str, width: usize, hanging: &'a str) -> impl Iterator<Item = String> + 'a {
    textwrap::wrap(line, whole_words(width.min(WIDEST)).subsequent_indent(hanging))
        .into_iter()
        .map(|line| line.trim_end().to_owned())
}

/// Lines are broken at spaces alone: paths, options and file names stay in one piece.
fn whole_words<'a>(width: usize) -> Options<'a> {
    let options = Options::new(width).word_separator(WordSeparator::AsciiSpace);
    options.word_splitter(WordSplitter::NoHyphenation).break_words(false)
}

/// A line of a sample: unchanged where there is room for it.
fn as_it_is(line: &str, width: usize) -> Vec<String> {
    let whole = format!("{INDENT}{line}");
    if line.is_empty() {
        return vec![String::new()];
    }
    if textwrap::core::display_width(&whole) <= width {
        return vec![whole];
    }
    let depth = line.len() - line.trim_start().len();
    let (first, further) = (format!("{INDENT}{}", " ".repeat(depth)), format!("{INDENT}{}", " ".repeat(depth + 4)));
    let options = whole_words(width).initial_indent(&first).subsequent_indent(&further);
    textwrap::wrap(line.trim_start(), options).into_iter().map(|line| line.trim_end().to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prose_is_wrapped_lists_hang_and_samples_stay() {
        let text =
            "# Title\n\nOne two three four.\n\n- five six seven eight\n\n<!-- part of: x -->\n```text\na  b\n```\n";
        let plain = anstream::adapter::strip_str(&render(text, 12)).to_string();
        let expected = "Title\n\nOne two\nthree four.\n\n- five six\n  seven\n  eight\n\n    a  b\n";
        assert_eq!(plain, expected);
    }

    #[test]
    fn a_wide_sample_breaks_between_words() {
        let plain = render("```text\n  alpha beta gamma\n```\n", 18);
        assert_eq!(plain, "      alpha beta\n          gamma\n");
    }
}
