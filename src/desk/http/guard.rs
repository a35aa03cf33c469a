//! Who may ask: a page of this desk, opened by the link that the terminal showed.
//!
//! Being on the loopback keeps nobody out: any page of the web can make a browser ask it, and by turning its own name to
//! 127.0.0.1 even read what comes. So the name asked for must be one of this computer, whoever asks must be a page of
//! this desk, and all data needs a cookie that only the link's token gives.

use axum::extract::Request;
use axum::http::{HeaderMap, Method, header};

use crate::desk::http::shared::Keys;
use crate::desk::refusal::Refusal;

/// The one value of a header; nothing where it stands twice.
fn only<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    let mut all = headers.get_all(name).iter();
    let first = all.next()?;
    all.next().is_none().then(|| first.to_str().ok())?
}

/// Whether somebody may ask.
///
/// # Errors
/// When it is not a page of this desk, or has no key.
pub(super) fn judge(keys: &Keys, request: &Request) -> Result<(), Refusal> {
    let headers = request.headers();
    let strange = || Refusal::new(403, "this is not a page of this desk");
    if !only(headers, "host").is_some_and(|host| keys.is_own_host(host)) {
        return Err(strange());
    }
    if headers.contains_key(header::ORIGIN) {
        let origin = only(headers, "origin").and_then(|origin| origin.strip_prefix("http://"));
        if !origin.is_some_and(|host| keys.is_own_host(host)) {
            return Err(strange());
        }
    }
    let path = request.uri().path();
    let site = headers
        .get("sec-fetch-site")
        .and_then(|site| site.to_str().ok());
    // The page itself may be opened from anywhere; it holds nothing.
    if path != "/" && site.is_some_and(|site| !matches!(site, "same-origin" | "none")) {
        return Err(strange());
    }
    if request.method() == Method::POST {
        let kind = headers
            .get(header::CONTENT_TYPE)
            .and_then(|kind| kind.to_str().ok());
        // Kinds that a page may not send to another site without asking.
        if !matches!(kind, Some("application/json" | "application/octet-stream")) {
            return Err(Refusal::new(415, "send JSON, or the bytes of a picture"));
        }
    }
    if path.starts_with("/api/") && path != "/api/enter" && !keys.has_cookie(headers) {
        return Err(Refusal::new(403, "this page has no key to this desk")
            .help("open the link that the terminal shows"));
    }
    Ok(())
}
