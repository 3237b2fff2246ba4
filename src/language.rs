//! A gardener's language: reading what was typed and writing what is said. It never decides.

pub mod read;
pub mod write;
