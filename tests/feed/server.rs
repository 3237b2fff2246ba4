//! A weather service that misbehaves on command, on a socket of its own.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};

/// What the server does once a request has come.
#[derive(Clone)]
pub(crate) enum Step {
    Send(Vec<u8>),
    Pause(Duration),
    /// Say nothing more, but stay.
    Stall,
}

/// The steps of one answer; the connection is closed after the last.
pub(crate) type Play = Vec<Step>;

pub(crate) struct Server {
    pub(crate) address: String,
    requests: Arc<Mutex<Vec<String>>>,
    busiest: Arc<AtomicUsize>,
    takes_time: bool,
}

impl Server {
    /// Plays the scripts one after the other, one a request, and then the last again and again.
    pub(crate) async fn playing(script: Vec<Play>) -> Self {
        let listener = TcpListener::bind("127.0.0.1:0").await.expect("a socket");
        let address = format!("http://{}", listener.local_addr().expect("an address"));
        let takes_time = script.iter().flatten().any(|step| matches!(step, Step::Stall | Step::Pause(_)));
        let server = Self { address, requests: Arc::default(), busiest: Arc::default(), takes_time };
        let (requests, busiest) = (server.requests.clone(), server.busiest.clone());
        tokio::spawn(async move {
            let busy = Arc::new(AtomicUsize::new(0));
            let mut turn = 0;
            while let Ok((stream, _)) = listener.accept().await {
                let play = script[turn.min(script.len() - 1)].clone();
                turn += 1;
                busiest.fetch_max(busy.fetch_add(1, Ordering::SeqCst) + 1, Ordering::SeqCst);
                let (requests, busy) = (requests.clone(), busy.clone());
                tokio::spawn(async move {
                    // A client that hangs up early is part of what is played.
                    let _ = answer(stream, play, &requests).await;
                    busy.fetch_sub(1, Ordering::SeqCst);
                });
            }
        });
        server
    }

    /// The head of each request so far.
    pub(crate) fn requests(&self) -> Vec<String> {
        self.requests.lock().expect("requests").clone()
    }

    /// Whether time is part of what is played.
    pub(crate) fn takes_time(&self) -> bool {
        self.takes_time
    }

    /// The most connections open at one time.
    pub(crate) fn busiest(&self) -> usize {
        self.busiest.load(Ordering::SeqCst)
    }
}

async fn answer(mut stream: TcpStream, play: Play, requests: &Mutex<Vec<String>>) -> std::io::Result<()> {
    let mut head = Vec::new();
    while !head.ends_with(b"\r\n\r\n") {
        head.push(stream.read_u8().await?);
    }
    requests.lock().expect("requests").push(String::from_utf8_lossy(&head).to_lowercase());
    for step in play {
        match step {
            Step::Send(bytes) => stream.write_all(&bytes).await?,
            Step::Pause(time) => tokio::time::sleep(time).await,
            Step::Stall => std::future::pending().await,
        }
    }
    stream.shutdown().await
}

/// A whole answer with its length.
pub(crate) fn reply(status: u16, headers: &[(&str, &str)], body: &[u8]) -> Play {
    let length = body.len().to_string();
    let mut bytes = head(status, &[headers, &[("content-length", length.as_str())]].concat());
    bytes.extend_from_slice(body);
    vec![Step::Send(bytes)]
}

pub(crate) fn json(body: &[u8]) -> Play {
    reply(200, &[("content-type", "application/json; charset=utf-8")], body)
}

/// An answer in chunks, without saying how long it will be.
pub(crate) fn chunked(headers: &[(&str, &str)], body: &[u8]) -> Play {
    let mut steps = vec![Step::Send(head(200, &[headers, &[("transfer-encoding", "chunked")]].concat()))];
    for part in body.chunks(100_000.min(body.len() / 3 + 1)) {
        let chunk = [format!("{:x}\r\n", part.len()).as_bytes(), part, b"\r\n"].concat();
        steps.push(Step::Send(chunk));
    }
    steps.push(Step::Send(b"0\r\n\r\n".to_vec()));
    steps
}

/// An answer that promises its whole body and sends the first part of it; then come other steps.
pub(crate) fn begun(body: &[u8], sent: usize, then: Play) -> Play {
    let length = body.len().to_string();
    let mut bytes = head(200, &[("content-length", length.as_str())]);
    bytes.extend_from_slice(&body[..sent]);
    [vec![Step::Send(bytes)], then].concat()
}

fn head(status: u16, headers: &[(&str, &str)]) -> Vec<u8> {
    let mut head = format!("HTTP/1.1 {status} Played\r\nconnection: close\r\n");
    for (name, value) in headers {
        head.push_str(&format!("{name}: {value}\r\n"));
    }
    (head + "\r\n").into_bytes()
}
