//! What every request is given: the desk, and what opens its door.

use std::sync::Arc;

use axum::http::{HeaderMap, header};

use crate::desk::state::Desk;

/// What every request is given.
#[derive(Clone)]
pub(super) struct Shared {
    pub desk: Arc<Desk>,
    pub keys: Arc<Keys>,
}

/// What opens the door: the token of the link, and the cookie that it is exchanged for.
#[derive(Clone, Debug)]
pub(super) struct Keys {
    pub port: u16,
    pub token: String,
    pub cookie: String,
}

impl Keys {
    /// The cookie's name: browsers do not tell ports apart, and two desks may be open.
    fn name(&self) -> String {
        format!("desk-{}", self.port)
    }

    /// The header that sets the cookie.
    pub(super) fn set_cookie(&self) -> String {
        format!(
            "{}={}; Path=/; HttpOnly; SameSite=Strict",
            self.name(),
            self.cookie
        )
    }

    /// Whether the name asked for is one of this computer at this port.
    pub(super) fn is_own_host(&self, host: &str) -> bool {
        let port = self.port;
        [
            format!("127.0.0.1:{port}"),
            format!("localhost:{port}"),
            format!("[::1]:{port}"),
        ]
        .iter()
        .any(|own| own == host)
    }

    pub(super) fn has_cookie(&self, headers: &HeaderMap) -> bool {
        let name = self.name();
        headers
            .get_all(header::COOKIE)
            .iter()
            .filter_map(|value| value.to_str().ok())
            .flat_map(|value| value.split(';'))
            .filter_map(|pair| pair.trim().split_once('='))
            .any(|(key, value)| key == name && same(value, &self.cookie))
    }
}

/// Whether two secrets are the same; how long it takes does not tell where they differ.
pub(super) fn same(a: &str, b: &str) -> bool {
    let differ = a
        .bytes()
        .zip(b.bytes())
        .fold(0, |all, (a, b)| all | (a ^ b));
    a.len() == b.len() && differ == 0
}
