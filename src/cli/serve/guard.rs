//! Who is answered: requests to this server's own address, from its own page, with the token.

use super::token::Token;
use hyper::StatusCode;
use hyper::header::{AUTHORIZATION, HOST, HeaderMap, HeaderName, ORIGIN};
use std::net::SocketAddr;

/// Says where a request comes from; all browsers of today send it.
const SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

/// Is this request for the address that it came in at? A page elsewhere whose name was made to point here is found out by
/// its `Host`, one that asks across origins by its `Origin`.
pub(super) fn is_own(headers: &HeaderMap, at: SocketAddr) -> bool {
    let Some(host) = only(headers, &HOST) else { return false };
    let local = at.ip().is_loopback() && host == format!("localhost:{}", at.port());
    if host != at.to_string() && !local {
        return false;
    }
    let origin = headers.get_all(ORIGIN).iter().all(|origin| origin.as_bytes() == format!("http://{host}").as_bytes());
    let site = headers.get_all(&SITE).iter().all(|site| matches!(site.as_bytes(), b"same-origin" | b"none"));
    origin && site
}

/// Does it bring the token?
pub(super) fn has_token(headers: &HeaderMap, token: &Token) -> bool {
    let told = only(headers, &AUTHORIZATION).and_then(|text| text.strip_prefix("Bearer "));
    told.is_some_and(|told| token.is(told))
}

/// A header that is there once.
fn only<'a>(headers: &'a HeaderMap, name: &HeaderName) -> Option<&'a str> {
    let mut all = headers.get_all(name).iter();
    let first = all.next()?;
    if all.next().is_some() { None } else { first.to_str().ok() }
}

/// Why a request is not answered, for whoever looks at it in the browser's tools.
pub(super) const fn reason(status: StatusCode) -> &'static str {
    match status {
        StatusCode::UNAUTHORIZED => "the token is missing: open the address that the program printed",
        StatusCode::MISDIRECTED_REQUEST => "this server answers its own page only",
        StatusCode::NOT_FOUND => "there is nothing here",
        StatusCode::METHOD_NOT_ALLOWED => "not in this way",
        StatusCode::PAYLOAD_TOO_LARGE => "more than is taken",
        StatusCode::REQUEST_TIMEOUT => "it took too long to come",
        _ => "this cannot be answered",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(all: &[(&'static str, &'static str)]) -> HeaderMap {
        let mut map = HeaderMap::new();
        for (name, value) in all {
            map.append(HeaderName::from_static(name), value.parse().unwrap());
        }
        map
    }

    #[test]
    fn only_the_own_address_and_page_are_answered() {
        let at = "127.0.0.1:8123".parse().unwrap();
        let own = |all: &[(&'static str, &'static str)]| is_own(&headers(all), at);
        assert!(own(&[("host", "127.0.0.1:8123")]));
        assert!(own(&[("host", "localhost:8123"), ("origin", "http://localhost:8123")]));
        assert!(own(&[
            ("host", "127.0.0.1:8123"),
            ("origin", "http://127.0.0.1:8123"),
            ("sec-fetch-site", "same-origin")
        ]));
        assert!(!own(&[]));
        assert!(!own(&[("host", "127.0.0.1:8123"), ("host", "127.0.0.1:8123")]));
        assert!(!own(&[("host", "127.0.0.1")]));
        assert!(!own(&[("host", "rebound.example:8123")]));
        assert!(!own(&[("host", "127.0.0.1:8123"), ("origin", "http://localhost:8123")]));
        assert!(!own(&[("host", "127.0.0.1:8123"), ("origin", "null")]));
        assert!(!own(&[("host", "127.0.0.1:8123"), ("sec-fetch-site", "cross-site")]));
    }
}
