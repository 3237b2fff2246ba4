//! The only reader of time. Everything else is told what time it is.

use chrono::{DateTime, Utc};

/// The present moment.
#[expect(clippy::disallowed_methods, reason = "this is the one place that reads the clock")]
pub fn now() -> DateTime<Utc> {
    Utc::now()
}
