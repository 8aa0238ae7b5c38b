//! The files of the page, in the program itself.

use include_dir::{Dir, include_dir};
use std::path::Path;

static PAGE: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/page");
/// The module that holds the page's texts in other languages; `build.rs` makes it.
const TABLES: (&str, &[u8]) = ("tables.js", include_bytes!(concat!(env!("OUT_DIR"), "/tables.js")));

/// A file of the page.
#[derive(Debug, Clone, Copy)]
pub struct PageFile {
    /// What is in it.
    pub content: &'static [u8],
    /// Its type, as HTTP says it.
    pub media_type: &'static str,
}

/// The file of this path, `index.html` or `icons/bag.svg`.
#[must_use]
pub fn page(path: &str) -> Option<PageFile> {
    if path == TABLES.0 {
        return Some(PageFile { content: TABLES.1, media_type: media_type(path)? });
    }
    // A path with a stroke at its end would be found too.
    let file = PAGE.get_file(path).filter(|file| file.path().to_str() == Some(path))?;
    Some(PageFile { content: file.contents(), media_type: media_type(path)? })
}

/// By the ending of the name; what has no business on the page has none.
#[must_use]
pub fn media_type(path: &str) -> Option<&'static str> {
    let ending = Path::new(path).extension()?.to_str()?;
    Some(match ending {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/vnd.microsoft.icon",
        "wasm" => "application/wasm",
        _ => return None,
    })
}
