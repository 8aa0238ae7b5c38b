//! The files of the page, and what every response says to the browser.

use super::body::{Answer, whole};
use fardel_planner::{media_type, page};
use hyper::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HeaderName, HeaderValue, REFERRER_POLICY,
    X_CONTENT_TYPE_OPTIONS,
};
use hyper::{Response, StatusCode};
use std::path::{Path, PathBuf};

/// What the page may load and whom it may ask: its own files, and this server.
pub(super) const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; \
connect-src 'self'; manifest-src 'self'; worker-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";

/// Headers of every response.
const ALWAYS: [(HeaderName, &str); 6] = [
    (CONTENT_SECURITY_POLICY, POLICY),
    (X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (REFERRER_POLICY, "no-referrer"),
    (CACHE_CONTROL, "no-store"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// The response with them.
pub(super) fn guarded(mut response: Response<Answer>) -> Response<Answer> {
    for (name, value) in ALWAYS {
        response.headers_mut().insert(name, HeaderValue::from_static(value));
    }
    response
}

/// A text of a type.
pub(super) fn typed(
    status: StatusCode,
    media_type: &'static str,
    content: impl Into<hyper::body::Bytes>,
) -> Response<Answer> {
    let mut response = Response::new(whole(content));
    *response.status_mut() = status;
    response.headers_mut().insert(CONTENT_TYPE, HeaderValue::from_static(media_type));
    response
}

/// The file of a path, from the program or, for those who work on the page, from a folder.
pub(super) fn file(path: &str, folder: Option<&PathBuf>) -> Option<Response<Answer>> {
    let name = path.strip_prefix('/')?;
    let name = if name.is_empty() { "index.html" } else { name };
    // What the build makes is not in the folder.
    if let Some(found) = folder.and_then(|folder| from_folder(folder, name)) {
        return Some(found);
    }
    let file = page(name)?;
    Some(typed(StatusCode::OK, file.media_type, file.content))
}

/// Names of plain parts only, so that nothing outside of the folder is meant.
fn from_folder(folder: &Path, name: &str) -> Option<Response<Answer>> {
    let plain = |part: &str| !part.is_empty() && !part.starts_with('.') && !part.contains(['\\', ':', '%']);
    if !name.split('/').all(plain) {
        return None;
    }
    let content = std::fs::read(folder.join(name)).ok()?;
    Some(typed(StatusCode::OK, media_type(name)?, content))
}
