//! From a request to its answer: who asks, what is sent, what is done.
//!
//! Everything is done in a thread of its own, so that a request that takes long, or panics, costs itself.

use std::time::Duration;

use axum::body::{Bytes, to_bytes};
use axum::extract::{Request, State};
use axum::http::Method;
use axum::http::header::CONTENT_LENGTH;
use tokio::time::timeout;

use crate::desk::http::asked::Asked;
use crate::desk::http::door::page_file;
use crate::desk::http::guard::judge;
use crate::desk::http::reply::{Reply, refused};
use crate::desk::http::routes::{Act, find};
use crate::desk::http::shared::Shared;
use crate::desk::refusal::Refusal;

/// The most bytes that are sent in words, and in a picture.
const MOST_WORDS: usize = 5 << 20;
const MOST_PICTURE: usize = 64 << 20;
/// The longest that somebody takes to send what he sends.
const SENDING: Duration = Duration::from_secs(10);

/// Answers a request.
pub(super) async fn answer(State(shared): State<Shared>, request: Request) -> Reply {
    match carried_out(shared, request).await {
        Ok(reply) => reply,
        Err(refusal) => refused(&refusal),
    }
}

async fn carried_out(shared: Shared, request: Request) -> Result<Reply, Refusal> {
    judge(&shared.keys, &request)?;
    let path = request.uri().path();
    if let Some(page) = path
        .strip_prefix("/desk/")
        .filter(|_| request.method() == Method::GET)
    {
        return page_file(page);
    }
    let (act, names) = find(request.method(), path)?;
    let uri = request.uri().clone();
    let body = gathered(request).await?;
    let asked = Asked {
        desk: shared.desk,
        keys: shared.keys,
        uri,
        body,
        names,
    };
    done(act, asked).await
}

/// Does what is asked.
async fn done(act: Act, asked: Asked) -> Result<Reply, Refusal> {
    let done = tokio::task::spawn_blocking(move || act(&asked)).await;
    // It panicked: whatever was being written is whole or not at all.
    done.unwrap_or_else(|_| {
        Err(Refusal::new(
            500,
            "the desk made a mistake; nothing was changed",
        ))
    })
}

/// Takes in what is sent, so much at most and in so long at most, before anything is done with it.
async fn gathered(request: Request) -> Result<Bytes, Refusal> {
    let most = match request.uri().path() {
        "/api/trace" => MOST_PICTURE,
        _ => MOST_WORDS,
    };
    let told = request.headers().get(CONTENT_LENGTH);
    let told = told.and_then(|told| told.to_str().ok()?.parse::<usize>().ok());
    if told.is_some_and(|told| told > most) {
        return Err(Refusal::new(413, "this is too large"));
    }
    match timeout(SENDING, to_bytes(request.into_body(), most)).await {
        Ok(Ok(bytes)) => Ok(bytes),
        Ok(Err(_)) => Err(Refusal::new(413, "this is too large, or broke off")),
        Err(_) => Err(Refusal::new(408, "this was sent too slowly")),
    }
}

/// The desk as a service of the web crates.
pub(super) fn service(shared: Shared) -> axum::Router {
    axum::Router::new().fallback(answer).with_state(shared)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::desk::http::shared::Keys;
    use crate::desk::state::Desk;

    /// A request that panics is answered, and so is the next.
    #[test]
    fn a_panic_costs_its_request() {
        let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("lessons");
        let asked = || Asked {
            desk: Arc::new(Desk::open(&root, &root, true).expect("the demo course is there")),
            keys: Arc::new(Keys {
                port: 1,
                token: String::new(),
                cookie: String::new(),
            }),
            uri: axum::http::Uri::default(),
            body: Bytes::new(),
            names: Vec::new(),
        };
        let runtime = tokio::runtime::Builder::new_multi_thread().build();
        runtime.expect("threads are to be had").block_on(async {
            let panicked = done(|_| panic!("planted"), asked()).await;
            assert_eq!(panicked.map_err(|refusal| refusal.status).err(), Some(500));
            let (act, _) = find(&Method::GET, "/api/course").expect("an address");
            assert!(done(act, asked()).await.is_ok());
        });
    }
}
