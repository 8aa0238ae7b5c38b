//! The holes of a format string.

/// A hole: what fills it, and how that is formatted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Hole {
    /// Name or number; empty where the next argument fills it.
    pub(crate) name: String,
    /// From the colon on, such as `:.1`.
    pub(crate) spec: String,
}

impl Hole {
    /// Names that the format itself takes, as `width` in `{:width$}`.
    pub(crate) fn taken(&self) -> Vec<String> {
        let end = |text: &str| text.rsplit(|c: char| !c.is_alphanumeric() && c != '_').next().map(str::to_owned);
        let mut parts: Vec<&str> = self.spec.split('$').collect();
        parts.pop();
        parts.into_iter().filter_map(end).filter(|name| !name.is_empty()).collect()
    }
}

/// The holes of a text from left to right, or what is wrong with its braces.
pub(crate) fn holes(text: &str) -> Result<Vec<Hole>, &'static str> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(at) = rest.find(['{', '}']) {
        let (brace, after) = rest[at..].split_at(1);
        if after.starts_with(brace) {
            rest = &after[1..];
            continue;
        }
        let end = after.find('}').filter(|_| brace == "{").ok_or("a brace that stands alone")?;
        let (name, spec) = after[..end].split_at(after[..end].find(':').unwrap_or(end));
        found.push(Hole { name: name.trim().to_owned(), spec: spec.to_owned() });
        rest = &after[end + 1..];
    }
    Ok(found)
}
