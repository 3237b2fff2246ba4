//! Whether it is alive: a page for the operator on a loopback address. No names, no texts.

use std::sync::Arc;

use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};

use crate::clock;
use crate::post::Mailroom;
use crate::store::{Store, cell_of};
use crate::transport::matrix::Health;

/// A sync longer ago than this is a connection lost: a long poll lasts half a minute.
const QUIET_FOR: chrono::TimeDelta = chrono::TimeDelta::minutes(3);

/// Answers `/healthz` and `/metrics` until the task is dropped.
pub(super) async fn serve(listener: TcpListener, store: Store, health: Arc<Health>) {
    loop {
        let Ok((stream, _)) = listener.accept().await else { continue };
        let (store, health) = (store.clone(), Arc::clone(&health));
        tokio::spawn(async move {
            let answered =
                tokio::time::timeout(std::time::Duration::from_secs(5), answer(stream, &store, &health));
            // A slow or broken asker is none of ours.
            let _ = answered.await;
        });
    }
}

async fn answer(mut stream: TcpStream, store: &Store, health: &Health) -> std::io::Result<()> {
    let mut request = [0u8; 1024];
    let read = stream.read(&mut request).await?;
    let line = String::from_utf8_lossy(&request[..read]);
    let path = line.split_whitespace().nth(1).unwrap_or("");
    let (status, body) = match path {
        "/healthz" if is_well(health) => ("200 OK", String::from("well\n")),
        "/healthz" => ("503 Service Unavailable", String::from("no sync lately\n")),
        "/metrics" => ("200 OK", metrics(store, health)),
        _ => ("404 Not Found", String::from("/healthz or /metrics\n")),
    };
    let head = format!(
        "HTTP/1.1 {status}\r\ncontent-type: text/plain; charset=utf-8\r\ncontent-length: {}\r\nconnection: close\r\n\r\n",
        body.len()
    );
    stream.write_all(head.as_bytes()).await?;
    stream.write_all(body.as_bytes()).await
}

fn is_well(health: &Health) -> bool {
    health.last_sync().is_some_and(|last| clock::now() - last < QUIET_FOR)
}

fn metrics(store: &Store, health: &Health) -> String {
    let last_sync = health.last_sync().map_or(0, |last| last.timestamp());
    let outbox = store.waiting().map_or(-1, |waiting| waiting.len() as i64);
    let inbox = store.inbox().map_or(-1, |inbox| inbox.len() as i64);
    let gardens = store.gardens();
    let ages = gardens.iter().filter_map(|garden| {
        let position = store.facts(garden, clock::now(), None).ok()??.garden.position?;
        let fetched = store.weather(&cell_of(position)).ok()?.1.fetched?;
        Some((clock::now() - fetched).num_seconds())
    });
    format!(
        "# TYPE leafhold_last_sync_timestamp_seconds gauge\nleafhold_last_sync_timestamp_seconds {last_sync}\n\
         # TYPE leafhold_outbox_messages gauge\nleafhold_outbox_messages {outbox}\n\
         # TYPE leafhold_inbox_messages gauge\nleafhold_inbox_messages {inbox}\n\
         # TYPE leafhold_gardens gauge\nleafhold_gardens {}\n\
         # TYPE leafhold_oldest_forecast_age_seconds gauge\nleafhold_oldest_forecast_age_seconds {}\n",
        gardens.len(),
        ages.max().unwrap_or(0)
    )
}
