//! Ways in and out. A transport knows rooms, events and devices, and nothing of gardens, words or disks.

#[cfg(feature = "matrix")]
pub mod matrix;
