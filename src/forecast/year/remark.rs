use std::fmt;

use chrono::{DateTime, TimeDelta, Utc};

use super::shortened;

/// Something a file does that its reader should hear about, though it can be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Remark {
    /// Values that are no number or cannot be: they are unknown.
    Impossible { column: &'static str, count: usize, first_line: u64, first: String },
    /// A column nothing is made of.
    Unused { line: u64, column: String },
    /// Hours between the first and the last that the file does not have: they are unknown.
    Missing { count: i64, first: DateTime<Utc> },
    /// Hours that are there more than once: the last is used.
    Repeated { count: usize, first_line: u64 },
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Remark::Impossible { column, count, first_line, first } => write!(
                f,
                "{count} value(s) of {column} cannot be and count as unknown, the first on line {first_line}: `{first}`"
            ),
            Remark::Unused { line, column } => {
                write!(f, "line {line}: nothing is made of the column `{column}`")
            }
            Remark::Missing { count, first } => write!(
                f,
                "{count} hour(s) are missing and count as unknown, the first at {}",
                first.format("%Y-%m-%dT%H:%MZ")
            ),
            Remark::Repeated { count, first_line } => {
                write!(f, "{count} hour(s) are there twice, the first on line {first_line}; the last is used")
            }
        }
    }
}

/// Remarks as they gather: one of a kind, counted, so that a bad year is a few lines and not thousands.
#[derive(Default)]
pub(super) struct Remarks(Vec<Remark>);

impl Remarks {
    pub(super) fn impossible(&mut self, name: &'static str, line: u64, text: &str) {
        let known = self.0.iter_mut().find_map(|remark| match remark {
            Remark::Impossible { column, count, .. } if *column == name => Some(count),
            _ => None,
        });
        match known {
            Some(count) => *count += 1,
            None => self.0.push(Remark::Impossible {
                column: name,
                count: 1,
                first_line: line,
                first: shortened(text),
            }),
        }
    }

    pub(super) fn unused(&mut self, line: u64, column: &str) {
        self.0.push(Remark::Unused { line, column: shortened(column) });
    }

    /// The step from one hour of the file to the next in time.
    pub(super) fn step(&mut self, line: u64, one: DateTime<Utc>, next: DateTime<Utc>) {
        let between = (next - one).num_hours() - 1;
        if between > 0 {
            self.missing(between, one + TimeDelta::hours(1));
        } else if between < 0 {
            self.repeated(line);
        }
    }

    fn missing(&mut self, hours: i64, at: DateTime<Utc>) {
        let known = self.0.iter_mut().find_map(|remark| match remark {
            Remark::Missing { count, .. } => Some(count),
            _ => None,
        });
        match known {
            Some(count) => *count += hours,
            None => self.0.push(Remark::Missing { count: hours, first: at }),
        }
    }

    fn repeated(&mut self, line: u64) {
        let known = self.0.iter_mut().find_map(|remark| match remark {
            Remark::Repeated { count, .. } => Some(count),
            _ => None,
        });
        match known {
            Some(count) => *count += 1,
            None => self.0.push(Remark::Repeated { count: 1, first_line: line }),
        }
    }

    pub(super) fn into_list(self) -> Vec<Remark> {
        self.0
    }
}
