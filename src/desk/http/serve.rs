//! Listens on the loopback and answers: so many at once, so long at most.

use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;

use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

use crate::desk::http::layers::service;
use crate::desk::http::shared::{Keys, Shared};
use crate::desk::state::Desk;

/// Connections at once; more wait for their turn. A browser opens six for a page.
const MOST_CONNECTIONS: usize = 512;
/// A connection that has not said what it wants after so long is closed.
const HEAD_TIME: Duration = Duration::from_secs(5);
/// Requests that are worked on at once.
const WORKERS: usize = 8;
/// Bytes of the head of a request.
const HEAD_BYTES: usize = 16 << 10;

/// Where the desk is, once it is open.
#[derive(Clone, Debug)]
pub(in crate::desk) struct Door {
    /// The link that opens it.
    pub link: String,
}

/// So many random bytes, in hexadecimal.
fn secret() -> std::io::Result<String> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes).map_err(std::io::Error::other)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// Serves the desk until the process ends; `opened` is told where it is.
///
/// # Errors
/// When the port cannot be had.
pub(in crate::desk) fn serve(
    desk: &Arc<Desk>,
    port: u16,
    opened: impl FnOnce(&Door),
) -> std::io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .max_blocking_threads(WORKERS)
        .enable_io()
        .enable_time()
        .build()?;
    runtime.block_on(async {
        let address = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
        let listener = TcpListener::bind(address).await?;
        let port = listener.local_addr()?.port();
        let keys = Keys {
            port,
            token: secret()?,
            cookie: secret()?,
        };
        let link = format!("http://127.0.0.1:{port}/#token={}", keys.token);
        opened(&Door { link });
        accept(
            listener,
            Shared {
                desk: Arc::clone(desk),
                keys: Arc::new(keys),
            },
        )
        .await
    })
}

async fn accept(listener: TcpListener, shared: Shared) -> std::io::Result<()> {
    let app = service(shared);
    let places = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    loop {
        let Ok(place) = Arc::clone(&places).acquire_owned().await else {
            return Ok(());
        };
        let stream = match listener.accept().await {
            Ok((stream, _)) => stream,
            // Too many files are open: those that are will close.
            Err(_) => {
                tokio::time::sleep(Duration::from_millis(50)).await;
                continue;
            }
        };
        let service = TowerToHyperService::new(app.clone());
        tokio::spawn(async move {
            // A connection that breaks costs itself.
            let _ = http1::Builder::new()
                .timer(TokioTimer::new())
                .header_read_timeout(HEAD_TIME)
                .max_buf_size(HEAD_BYTES)
                .serve_connection(TokioIo::new(stream), service)
                .await;
            drop(place);
        });
    }
}
