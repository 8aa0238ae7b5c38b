//! Words that several papers use.

use fardel_words::say;

/// The first few of some texts, and how many more.
pub(super) fn few(texts: &[String], most: usize) -> String {
    let shown = texts.iter().take(most).cloned().collect::<Vec<_>>().join("; ");
    match texts.len().saturating_sub(most) {
        0 => shown,
        more => say!("{shown}; {more} more"),
    }
}

/// `Bea (2)` for two, `Bea` for one.
pub(super) fn share(name: &str, count: u32) -> String {
    if count == 1 { name.to_owned() } else { format!("{name} ({count})") }
}
