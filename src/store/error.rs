/// What went wrong with the store, for the operator.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    #[error(
        "the store {path} is in use by another process; stop that one (a running `leafhold serve`?) or give another folder"
    )]
    InUse { path: String },
    #[error("there is no store in {path}; check the path: --data, or data in the configuration")]
    NoStore { path: String },
    #[error("cannot open the store {path}: {problem}; check that the folder exists and may be written to")]
    CannotOpen { path: String, problem: String },
    #[error(
        "the files of the store {path} are damaged: {problem}; keep the folder aside and restore the last export \
         into an empty one"
    )]
    FilesDamaged { path: String, problem: String },
    #[error(
        "the disk under the store failed: {0}; check it, its space and permissions; nothing half-written is kept"
    )]
    Disk(#[from] sled::Error),
    #[error(transparent)]
    Record(#[from] Flaw),
    #[error("cannot make a record of {what}: {problem}; nothing was changed")]
    CannotWrite { what: String, problem: String },
    #[error("line {line} of the export: {problem}; nothing was restored")]
    BadLine { line: usize, problem: String },
    #[error(
        "the store {path} is not empty; give an empty folder, or say --replace to put the export in its place"
    )]
    NotEmpty { path: String },
    #[error("the export could not be read or written: {0}; check the file and the space on its disk")]
    Export(#[from] std::io::Error),
}

/// A record that is there and cannot be read. Everything else still can.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Flaw {
    #[error(
        "record {key} was written by a newer leafhold (version {version}); use that one, or restore an export made \
         by this one"
    )]
    TooNew { key: String, version: u64 },
    #[error(
        "record {key} cannot be read: {problem}; `leafhold export` writes everything out, this record as it is: \
         mend or remove its line and restore with --replace"
    )]
    Damaged { key: String, problem: String },
}
