//! Answers as bytes, with the headers that every one of them has.

use axum::body::Body;
use axum::http::header::{self, HeaderName, HeaderValue};
use axum::http::{Response, StatusCode};
use serde_json::Value;

use crate::desk::refusal::Refusal;

/// What is answered.
pub(super) type Reply = Response<Body>;

/// What becomes of a request.
pub(super) type Done = Result<Reply, Refusal>;

/// What a page of the desk may load: its own scripts, styles, fonts and pictures, and nothing from anywhere else.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; \
                      font-src 'self'; connect-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; \
                      frame-ancestors 'none'";
/// A handout has a policy of its own inside; here it is only said who may show it.
const INSIDE: &str = "frame-ancestors 'self'";
/// A picture loads nothing.
const PICTURE: &str = "default-src 'none'; style-src 'unsafe-inline'; sandbox";

const SAME: [(HeaderName, &str); 5] = [
    (header::CACHE_CONTROL, "no-store"),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (
        HeaderName::from_static("cross-origin-resource-policy"),
        "same-origin",
    ),
    (
        HeaderName::from_static("cross-origin-opener-policy"),
        "same-origin",
    ),
];

/// Bytes of a kind.
pub(super) fn bytes(kind: &'static str, body: impl Into<Body>) -> Response<Body> {
    let policy = match kind {
        _ if kind.starts_with("image/") => PICTURE,
        "application/pdf" => INSIDE,
        _ => POLICY,
    };
    with(kind, policy, body)
}

/// A handout as a page.
pub(super) fn handout(body: Vec<u8>) -> Response<Body> {
    with("text/html; charset=utf-8", INSIDE, body)
}

/// Marks an answer with what all have in common.
pub(super) fn with(
    kind: &'static str,
    policy: &'static str,
    body: impl Into<Body>,
) -> Response<Body> {
    let mut response = Response::new(body.into());
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    headers.insert(
        header::CONTENT_SECURITY_POLICY,
        HeaderValue::from_static(policy),
    );
    for (name, value) in SAME {
        headers.insert(name, HeaderValue::from_static(value));
    }
    response
}

/// An answer in JSON.
pub(super) fn json(value: &Value) -> Response<Body> {
    bytes("application/json", value.to_string())
}

/// A refusal.
pub(super) fn refused(refusal: &Refusal) -> Response<Body> {
    let mut response = json(&refusal.body());
    *response.status_mut() =
        StatusCode::from_u16(refusal.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
    response
}
