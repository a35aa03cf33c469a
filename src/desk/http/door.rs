//! The door: pages, who may enter, and what is heard inside.

use std::convert::Infallible;
use std::time::Duration;

use axum::body::Body;
use axum::http::{HeaderValue, header};
use futures_util::{StreamExt, stream};
use serde::Deserialize;
use serde_json::json;
use tokio::sync::broadcast::Receiver;
use tokio::sync::broadcast::error::RecvError;
use tokio::time::timeout;

use crate::desk::assets::{INDEX, asset};
use crate::desk::http::asked::Asked;
use crate::desk::http::reply::{self, Reply};
use crate::desk::http::shared::same;
use crate::desk::refusal::Refusal;
use crate::desk::state::Event;

/// A quiet stream says that it is still there after so long.
const BEAT: Duration = Duration::from_secs(15);

pub(super) fn index(_: &Asked) -> Result<Reply, Refusal> {
    Ok(reply::bytes("text/html; charset=utf-8", INDEX))
}

/// A file of the desk's pages, by its address below `/desk/`.
pub(super) fn page_file(path: &str) -> Result<Reply, Refusal> {
    let found = asset(path);
    let (kind, bytes) = found.ok_or_else(|| Refusal::new(404, "there is no such page"))?;
    Ok(reply::bytes(kind, bytes))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Token {
    token: String,
}

pub(super) fn enter(asked: &Asked) -> Result<Reply, Refusal> {
    let sent: Token = asked.sent()?;
    if !same(&sent.token, &asked.keys.token) {
        let strange = Refusal::new(403, "this link is of another desk");
        return Err(strange.help("open the one that the terminal shows now"));
    }
    let mut reply = reply::bytes("application/json", "{}");
    if let Ok(cookie) = HeaderValue::from_str(&asked.keys.set_cookie()) {
        reply.headers_mut().insert(header::SET_COOKIE, cookie);
    }
    Ok(reply)
}

/// What those who listen hear, as it happens.
pub(super) fn events(asked: &Asked) -> Result<Reply, Refusal> {
    let heard = stream::unfold(asked.desk.listen(), |mut listener| async move {
        let text = heard(&mut listener).await?;
        Some((Ok::<_, Infallible>(text), listener))
    });
    let hello = stream::iter([Ok(": hello\n\n".to_owned())]);
    let body = Body::from_stream(hello.chain(heard));
    Ok(reply::bytes("text/event-stream", body))
}

async fn heard(listener: &mut Receiver<Event>) -> Option<String> {
    let change = |version: u64, ids: &[String]| {
        let change = json!({"version": version, "ids": ids});
        format!("event: change\ndata: {change}\n\n")
    };
    Some(match timeout(BEAT, listener.recv()).await {
        Ok(Ok(Event::Change(version, ids))) => change(version, &ids),
        Ok(Ok(Event::Pack(pack))) => format!("event: pack\ndata: {pack}\n\n"),
        // Who lagged behind reads anew whatever it shows.
        Ok(Err(RecvError::Lagged(_))) => change(0, &[]),
        Ok(Err(RecvError::Closed)) => return None,
        Err(_) => ": still here\n\n".to_owned(),
    })
}
