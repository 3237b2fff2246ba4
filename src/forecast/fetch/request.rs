use std::fmt;

use reqwest::{Client, RequestBuilder, Url};

use crate::forecast::{ForecastError, Problem};

/// The key of a paying user. It goes out with a request and into nothing else.
#[derive(Clone, PartialEq, Eq)]
pub struct ApiKey(String);

impl ApiKey {
    /// From a file or the environment, where it often has a line end behind it. `None` if empty.
    pub fn new(text: &str) -> Option<Self> {
        let text = text.trim();
        (!text.is_empty()).then(|| Self(text.to_owned()))
    }
}

impl fmt::Debug for ApiKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("ApiKey(hidden)")
    }
}

/// What to ask for.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    url: Url,
    key: Option<ApiKey>,
    accept: Option<&'static str>,
    unless_same_since: Option<String>,
}

impl Request {
    pub fn new(url: Url, key: Option<ApiKey>) -> Self {
        Self { url, key, accept: None, unless_same_since: None }
    }

    pub fn accepting(self, kind: &'static str) -> Self {
        Self { accept: Some(kind), ..self }
    }

    /// Only if it changed since what was got with this `Last-Modified`, word for word.
    pub fn unless_same_since(self, last_modified: &str) -> Self {
        Self { unless_same_since: Some(last_modified.to_owned()), ..self }
    }

    /// The address without its key, for logs and people.
    pub fn address(&self) -> String {
        self.url.to_string()
    }

    pub(super) fn url(&self) -> &Url {
        &self.url
    }

    pub(super) fn is_conditional(&self) -> bool {
        self.unless_same_since.is_some()
    }

    pub(super) fn build(&self, client: &Client) -> RequestBuilder {
        let mut url = self.url.clone();
        if let Some(ApiKey(key)) = &self.key {
            url.query_pairs_mut().append_pair("apikey", key);
        }
        let mut builder = client.get(url);
        if let Some(kind) = self.accept {
            builder = builder.header("accept", kind);
        }
        if let Some(since) = &self.unless_same_since {
            builder = builder.header("if-modified-since", since);
        }
        builder
    }
}

/// Accepts a server's address with or without the service's path, on a path of its own or not.
pub(in crate::forecast) fn address(configured: &str, path: &str) -> Result<Url, ForecastError> {
    let refused = |reason: &str| {
        ForecastError::from(Problem::Address { address: configured.to_owned(), reason: reason.to_owned() })
    };
    let mut url = Url::parse(configured.trim()).map_err(|error| refused(&error.to_string()))?;
    if !matches!(url.scheme(), "http" | "https") {
        return Err(refused("it must begin with https:// or http://"));
    }
    if url.query().is_some() || url.fragment().is_some() {
        return Err(refused("it must end before any ? or #"));
    }
    let own = url.path().trim_end_matches('/').to_owned();
    if !own.ends_with(path) {
        url.set_path(&format!("{own}/{path}"));
    }
    Ok(url)
}
