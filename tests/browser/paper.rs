//! Pages on paper: how many sheets there are in a printed file, and how much is on each.

/// Bytes of packed drawing on each sheet of a PDF as the browser writes it (ISO 32000-1: page objects and their content
/// streams).
pub fn sheets(pdf: &[u8]) -> Vec<usize> {
    let text = String::from_utf8_lossy(pdf);
    let objects: Vec<(&str, &str)> = text
        .split("\nendobj")
        .filter_map(|object| {
            let (head, body) = object.split_once(" 0 obj")?;
            Some((head.rsplit(['\n', '\r']).next()?.trim(), body))
        })
        .collect();
    let pages = objects.iter().filter(|(_, body)| {
        let head = body.split("stream").next().unwrap_or_default();
        head.contains("/Type /Page") && !head.contains("/Type /Pages")
    });
    let content = |body: &str| -> Option<usize> {
        let (_, rest) = body.split_once("/Contents ")?;
        let number = rest.split_whitespace().next()?;
        let (_, stream) = objects.iter().find(|(head, _)| *head == number)?;
        let (_, length) = stream.split_once("/Length ")?;
        length.split(|c: char| !c.is_ascii_digit()).next()?.parse().ok()
    };
    pages.map(|(_, body)| content(body).unwrap_or(0)).collect()
}

/// Bytes from standard base 64 (RFC 4648).
pub fn bytes(base64: &str) -> Vec<u8> {
    data_encoding::BASE64.decode(base64.as_bytes()).expect("base 64")
}

#[test]
fn sheets_are_counted_with_what_is_on_them() {
    let pdf = b"%PDF-1.4\n1 0 obj\n<</Filter /FlateDecode\n/Length 812>> stream\nxx\nendstream\nendobj\n2 0 obj\n\
                <</Type /Page\n/Contents 1 0 R>>\nendobj\n3 0 obj\n<</Type /Page\n/Contents 4 0 R>>\nendobj\n4 0 obj\n\
                <</Length 20>> stream\n\nendstream\nendobj\n5 0 obj\n<</Type /Pages\n/Count 2>>\nendobj\n";
    assert_eq!(sheets(pdf), [812, 20]);
}
