//! The grower's world and the decisions: facts in, an outcome out.
//!
//! Everything here is plain data and plain functions. Nothing reads a clock, a disk or a network,
//! and nothing makes a sentence: answers are values, and `language` finds the words.

pub mod answer;
pub mod calendar;
pub mod charts;
pub mod facts;
pub mod garden;
pub mod gauge;
pub mod history;
pub mod journal;
pub mod notices;
pub mod outlook;
pub mod questions;
pub mod request;
pub mod respond;
pub mod rules;
pub mod schedule;
pub mod selection;
pub mod thresholds;
