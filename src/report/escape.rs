//! Texts from files made harmless for Markdown.

/// What can open or close something within a line: emphasis, code, links, tags, cells, entities, formulas.
const SPECIAL: &[char] = &['\\', '`', '*', '_', '[', ']', '<', '>', '|', '#', '~', '&', '$'];

/// A text as it stands, whatever it holds. Line breaks and other control characters become spaces: a value stays on its
/// line, so what only means something at the start of a line need not be escaped elsewhere.
pub(super) fn markdown(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let rest = &text[digits..];
    // `1. ` would open a list, `- ` too, `===` underline a heading.
    let numbered = digits > 0 && [". ", ") "].iter().any(|end| rest.starts_with(end));
    for (at, c) in text.char_indices() {
        let opens = at == 0 && ['-', '+', '='].contains(&c) || numbered && at == digits;
        if SPECIAL.contains(&c) || opens {
            safe.push('\\');
        }
        safe.push(if c.is_control() || ['\u{2028}', '\u{2029}'].contains(&c) { ' ' } else { c });
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::markdown;

    #[test]
    fn nothing_opens_anything() {
        assert_eq!(markdown("a | b"), "a \\| b");
        assert_eq!(markdown("<script>x</script>"), "\\<script\\>x\\</script\\>");
        assert_eq!(markdown("[x](y) `z` *b* _i_"), "\\[x\\](y) \\`z\\` \\*b\\* \\_i\\_");
        assert_eq!(markdown("one\n# two\r\n"), "one \\# two  ");
        assert_eq!(markdown("1. one"), "1\\. one");
        assert_eq!(markdown("- one"), "\\- one");
        assert_eq!(markdown("1.06 kg"), "1.06 kg");
        assert_eq!(markdown("12 V lamp, 2-pin"), "12 V lamp, 2-pin");
    }
}
