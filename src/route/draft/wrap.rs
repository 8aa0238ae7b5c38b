//! Lines of YAML with their remarks in a column, wrapped.

/// Where remarks begin, and where lines end.
const COLUMN: usize = 40;
const WIDTH: usize = 130;

/// Somebody's words in one line of a comment.
fn plain(text: &str) -> String {
    text.chars().map(|c| if c.is_control() || matches!(c, '\u{2028}' | '\u{2029}') { ' ' } else { c }).collect()
}

fn lines(text: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in plain(text).split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A line and its remark.
pub(super) fn commented(indent: usize, value: &str, remark: &str) -> String {
    let line = format!("{}{value}", " ".repeat(indent));
    let used = line.chars().count();
    let column = COLUMN.max(used + 1);
    let mut text = line;
    for (number, part) in lines(remark, WIDTH.saturating_sub(column + 2).max(40)).iter().enumerate() {
        let gap = if number == 0 { column - used } else { column };
        let before = if number == 0 { "" } else { "\n" };
        text += &format!("{before}{}# {part}", " ".repeat(gap));
    }
    text + "\n"
}

/// A remark on lines of its own.
pub(super) fn comment(indent: usize, text: &str) -> String {
    let lines = lines(text, WIDTH - indent - 2);
    lines.iter().fold(String::new(), |text, line| text + &format!("{}# {line}\n", " ".repeat(indent)))
}

/// So many days, as a rider writes it.
pub(super) fn days(days: f64) -> String {
    let number = days.to_string();
    let unit = if number == "1" { "day" } else { "days" };
    format!("{number} {unit}")
}
