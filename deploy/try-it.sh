#!/usr/bin/env bash
# A homeserver on this machine, the bot, and two invented growers, for trying it out. Stops with Ctrl-C and leaves
# nothing behind but the tools in target/tools.
set -euo pipefail
cd "$(dirname "$0")/.."
tools="$PWD/target/tools"
if ! "$tools/matrix/bin/python" -c 'import nio, synapse' 2>/dev/null; then
    python3 -m venv "$tools/matrix"
    "$tools/matrix/bin/pip" install --quiet --disable-pip-version-check -r tests/matrix/requirements.txt
fi
cargo build --release
exec "$tools/matrix/bin/python" tests/matrix/try_it.py --bot target/release/leafhold
