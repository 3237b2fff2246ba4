//! Getting a body from a weather service, with patience but not too much of it.
//!
//! One request at a time for each host (a free address is allowed no more). What may pass by
//! itself is tried again: no connection, time-outs, a broken or unreadable answer, 429 and 5xx. What the
//! service means (400, 403, 404, a used-up hour or day) is not.

mod answer;
mod request;

use std::collections::HashMap;
use std::error::Error as _;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use reqwest::redirect;
use reqwest::{Client, StatusCode, Url};

use super::error::{ForecastError, Problem};
use crate::units::Fraction;
pub use answer::Answer;
use answer::{Refusal, body_of, header};
pub(super) use request::address;
pub use request::{ApiKey, Request};

/// How long to wait for what, and how often to try.
#[derive(Clone, Debug, PartialEq)]
pub struct Policy {
    /// Between one try and the next, before they are spread; so there is one try more than waits.
    pub waits: Vec<Duration>,
    /// A service that asks for a longer wait than this is left alone for this cycle.
    pub longest_retry_after: Duration,
    pub connect: Duration,
    /// Nothing came for this long.
    pub stall: Duration,
    /// From the first byte sent to the last one received.
    pub whole: Duration,
    /// Bytes of a body after unpacking.
    pub body_limit: usize,
    pub route: Route,
}

/// Whether the proxy named in the environment is used.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Route {
    System,
    Direct,
}

impl Default for Policy {
    fn default() -> Self {
        Self {
            waits: vec![Duration::from_secs(5), Duration::from_secs(20)],
            longest_retry_after: Duration::from_secs(60),
            connect: Duration::from_secs(10),
            stall: Duration::from_secs(20),
            whole: Duration::from_secs(60),
            body_limit: 8_000_000,
            route: Route::System,
        }
    }
}

impl Policy {
    /// The most calls one fetch can come to, for the day's allowance.
    pub fn most_tries(&self) -> usize {
        self.waits.len() + 1
    }
}

#[derive(Debug)]
pub struct Fetcher {
    client: Client,
    policy: Policy,
    hosts: Mutex<HashMap<String, Turn>>,
    named: bool,
}

/// Held by whoever is talking to a host.
type Turn = Arc<tokio::sync::Mutex<()>>;

impl Fetcher {
    /// `contact` is an address or page of whoever runs the program; some services insist on it.
    pub fn new(policy: Policy, contact: Option<&str>) -> Result<Self, ForecastError> {
        // Refused only when one is installed already, which serves as well.
        let _ = rustls::crypto::ring::default_provider().install_default();
        let program = concat!(env!("CARGO_PKG_NAME"), "/", env!("CARGO_PKG_VERSION"));
        let agent = contact.map_or_else(|| program.to_owned(), |contact| format!("{program} ({contact})"));
        let builder = Client::builder()
            .user_agent(agent)
            .connect_timeout(policy.connect)
            .read_timeout(policy.stall)
            .timeout(policy.whole)
            .redirect(redirect::Policy::custom(follow));
        let builder = match policy.route {
            Route::System => builder,
            Route::Direct => builder.no_proxy(),
        };
        let client = builder.build().map_err(|error| Problem::Connect(cause(&error)))?;
        Ok(Self { client, policy, hosts: Mutex::default(), named: contact.is_some() })
    }

    pub fn policy(&self) -> &Policy {
        &self.policy
    }

    /// For services that answer only who names a contact.
    pub(super) fn require_contact(&self) -> Result<(), ForecastError> {
        if self.named { Ok(()) } else { Err(Problem::NoContact.into()) }
    }

    /// Fetches and decodes, trying again as the policy says. `spread` moves the waits between three
    /// quarters and five quarters of their length, so that many installations do not return at once.
    pub async fn fetch<Decoded>(
        &self,
        request: &Request,
        spread: Fraction,
        decode: impl Fn(&[u8]) -> Result<Decoded, ForecastError>,
    ) -> Result<Decoded, ForecastError> {
        self.fetch_answer(request, spread, |answer| decode(&answer.body)).await
    }

    /// The same for who needs more of the answer than its body.
    pub async fn fetch_answer<Decoded>(
        &self,
        request: &Request,
        spread: Fraction,
        decode: impl Fn(Answer) -> Result<Decoded, ForecastError>,
    ) -> Result<Decoded, ForecastError> {
        let mut waits = self.policy.waits.iter();
        loop {
            let error = match self.once(request).await.and_then(&decode) {
                Ok(decoded) => return Ok(decoded),
                Err(error) => error.at(&request.address()),
            };
            let base = waits.next().filter(|_| error.retryable());
            let Some(wait) = base.and_then(|base| self.wait(*base, spread, &error)) else {
                return Err(error);
            };
            tracing::debug!(%error, wait_s = wait.as_secs_f32(), "weather fetch is tried again");
            tokio::time::sleep(wait).await;
        }
    }

    /// One try without decoding. `Answer::unchanged` is only possible for a request that asked
    /// for it.
    pub async fn once(&self, request: &Request) -> Result<Answer, ForecastError> {
        let turn = self.turn(request.url());
        let _held = turn.lock().await;
        self.answer(request).await.map_err(|error| error.at(&request.address()))
    }

    async fn answer(&self, request: &Request) -> Result<Answer, ForecastError> {
        let response = request.build(&self.client).send().await.map_err(|error| self.problem(error))?;
        let status = response.status();
        let (last_modified, expires) = (header(&response, "last-modified"), header(&response, "expires"));
        if status == StatusCode::NOT_MODIFIED && request.is_conditional() {
            return Ok(Answer { body: Vec::new(), unchanged: true, last_modified, expires });
        }
        if !status.is_success() {
            return Err(Refusal::read(response).await.into());
        }
        if status == StatusCode::NON_AUTHORITATIVE_INFORMATION {
            tracing::warn!(address = request.address(), "the weather service calls this address deprecated");
        }
        let body = body_of(response, self.policy.body_limit, |error| self.problem(error)).await?;
        Ok(Answer { body, unchanged: false, last_modified, expires })
    }

    fn turn(&self, url: &Url) -> Turn {
        let host = url.host_str().unwrap_or_default().to_owned();
        // The map of turns is whole at any time, so a panic elsewhere does not spoil it.
        self.hosts.lock().unwrap_or_else(PoisonError::into_inner).entry(host).or_default().clone()
    }

    /// How long until the next try; `None` if the service wants more patience than a cycle has.
    fn wait(&self, base: Duration, spread: Fraction, error: &ForecastError) -> Option<Duration> {
        let own = base.mul_f64(0.75 + 0.5 * spread.value());
        match error.retry_after() {
            Some(asked) if asked > self.policy.longest_retry_after => None,
            Some(asked) => Some(own.max(asked)),
            None => Some(own),
        }
    }

    fn problem(&self, error: reqwest::Error) -> Problem {
        // The address may hold a key.
        let error = error.without_url();
        if error.is_timeout() {
            Problem::TimedOut(if error.is_connect() { self.policy.connect } else { self.policy.whole })
        } else if error.is_redirect() {
            Problem::Redirected(cause(&error))
        } else if error.is_connect() {
            Problem::Connect(cause(&error))
        } else {
            Problem::Interrupted(cause(&error))
        }
    }
}

/// The innermost reason, which is the one that says something.
fn cause(error: &reqwest::Error) -> String {
    let mut innermost = error.source();
    while let Some(inner) = innermost.and_then(|error| error.source()) {
        innermost = Some(inner);
    }
    innermost.map_or_else(|| error.to_string(), ToString::to_string)
}

/// A few redirects (tidy coordinates, a moved host), but no circle and never from a safe address to an open one.
fn follow(attempt: redirect::Attempt<'_>) -> redirect::Action {
    const MOST: usize = 5;
    let from_safe = attempt.previous().last().is_some_and(|url| url.scheme() == "https");
    if from_safe && attempt.url().scheme() != "https" {
        attempt.error("from https to an address without it")
    } else if attempt.previous().len() > MOST {
        attempt.error("more than five redirects")
    } else {
        attempt.follow()
    }
}
