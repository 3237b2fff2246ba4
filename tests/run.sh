#!/usr/bin/env bash
# Everything that must hold, in one command: format, lints, tests, documentation tests, the dependency tree,
# and the bot on a real homeserver. Installs what it needs. KILLS=1000 for the long kill test.
set -euo pipefail
cd "$(dirname "$0")/.."
export CARGO_TERM_COLOR=never INSTA_UPDATE=no
kills="${KILLS:-200}"
tools="$PWD/target/tools"

step() { printf '\n== %s (%s s)\n' "$1" "$SECONDS"; }

step "format"
cargo fmt --check

step "lints, without and with Matrix"
cargo clippy --quiet --no-default-features --all-targets -- -D warnings
cargo clippy --quiet --all-targets -- -D warnings

step "tests"
cargo test --quiet --no-default-features --all-targets
cargo test --quiet --no-default-features --doc
cargo test --quiet --lib transport

step "benchmarks compile and run once"
cargo bench --quiet --no-default-features --bench morning -- --test

step "the tree of dependencies"
if ! command -v cargo-deny >/dev/null 2>&1; then
    CARGO_TARGET_DIR="$tools/deny" cargo install --quiet --locked cargo-deny@0.20.2
fi
cargo deny --log-level error check bans licenses sources

step "the bot on a real homeserver"
cargo build --quiet
if ! "$tools/matrix/bin/python" -c 'import nio, synapse' 2>/dev/null; then
    python3 -m venv "$tools/matrix"
    "$tools/matrix/bin/pip" install --quiet --disable-pip-version-check -r tests/matrix/requirements.txt
fi
"$tools/matrix/bin/python" tests/matrix/run.py --bot target/debug/leafhold --kills "$kills" 2>target/matrix-client.log

step "done"
