"""A real homeserver on loopback, for one test run: Synapse from its package, a database of its own, no federation."""

import asyncio
import hashlib
import hmac
import json
import os
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

SECRET = "test-only"

CONFIG = """
server_name: "localhost"
pid_file: {folder}/hs.pid
listeners:
  - {{port: {port}, type: http, tls: false, bind_addresses: ['127.0.0.1'], resources: [{{names: [client], compress: false}}]}}
database: {{name: sqlite3, args: {{database: {folder}/hs.db}}}}
log_config: {folder}/log.yaml
media_store_path: {folder}/media
signing_key_path: {folder}/signing.key
registration_shared_secret: "{secret}"
macaroon_secret_key: "{secret}"
form_secret: "{secret}"
report_stats: false
trusted_key_servers: []
suppress_key_server_warning: true
federation_domain_whitelist: []
presence: {{enabled: false}}
bcrypt_rounds: 4
rc_registration: {unlimited}
rc_login: {{address: {unlimited}, account: {unlimited}, failed_attempts: {unlimited}}}
rc_joins: {{local: {unlimited}, remote: {unlimited}}}
rc_joins_per_room: {unlimited}
rc_invites: {{per_room: {unlimited}, per_user: {unlimited}, per_issuer: {unlimited}}}
rc_room_creation: {unlimited}
"""
UNLIMITED = "{per_second: 10000, burst_count: 10000}"
LOG = """
version: 1
formatters: {plain: {format: '%(asctime)s %(levelname)s %(name)s %(message)s'}}
handlers: {file: {class: logging.FileHandler, formatter: plain, filename: FOLDER/hs.log}}
root: {level: WARNING, handlers: [file]}
"""


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Homeserver:
    def __init__(self, folder: Path, limited: bool = False):
        self.folder = folder
        self.port = free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.process = None
        folder.mkdir(parents=True, exist_ok=True)
        text = CONFIG.format(folder=folder, port=self.port, secret=SECRET, unlimited=UNLIMITED)
        if not limited:
            text += f"rc_message: {UNLIMITED}\n"
        (folder / "hs.yaml").write_text(text)
        (folder / "log.yaml").write_text(LOG.replace("FOLDER", str(folder)))

    def _command(self, *extra: str) -> list[str]:
        return [sys.executable, "-m", "synapse.app.homeserver", "-c", str(self.folder / "hs.yaml"), *extra]

    async def start(self) -> None:
        if not (self.folder / "signing.key").exists():
            subprocess.run(self._command("--generate-keys"), check=True, capture_output=True)
        self.process = subprocess.Popen(self._command(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for _ in range(200):
            try:
                urllib.request.urlopen(self.url + "/_matrix/client/versions", timeout=1).read()
                return
            except (urllib.error.URLError, ConnectionError, TimeoutError):
                await asyncio.sleep(0.1)
        raise RuntimeError(f"the homeserver did not start; see {self.folder}/hs.log")

    def stop(self) -> None:
        if self.process:
            self.process.send_signal(signal.SIGTERM)
            self.process.wait(timeout=20)
            self.process = None

    def register(self, user: str, password: str, admin: bool = False) -> str:
        nonce = self._call("GET", "/_synapse/admin/v1/register")["nonce"]
        mac = hmac.new(SECRET.encode(), digestmod=hashlib.sha1)
        mac.update("\0".join([nonce, user, password, "admin" if admin else "notadmin"]).encode())
        body = {"nonce": nonce, "username": user, "password": password, "admin": admin, "mac": mac.hexdigest()}
        return self._call("POST", "/_synapse/admin/v1/register", body)["user_id"]

    def _call(self, method: str, path: str, body=None, token: str | None = None):
        data = json.dumps(body).encode() if body is not None else None
        request = urllib.request.Request(self.url + path, data=data, method=method)
        request.add_header("content-type", "application/json")
        if token:
            request.add_header("authorization", f"Bearer {token}")
        return json.loads(urllib.request.urlopen(request, timeout=10).read())


class Bot:
    """The program under test, run as an operator would."""

    # Nothing listens there: a feed that cannot be reached is an ordinary morning.
    NO_WEATHER = "http://127.0.0.1:9"

    def __init__(
        self, binary: str, folder: Path, homeserver: Homeserver, user: str = "leafhold", weather: str = NO_WEATHER
    ):
        self.binary = binary
        self.folder = folder
        self.process = None
        self.user = user
        folder.mkdir(parents=True, exist_ok=True)
        self.config = folder / "leafhold.toml"
        self.health_port = free_port()
        self.config.write_text(
            f'data = "{folder}/data"\n'
            "[weather]\n"
            f'forecast_url = "{weather}/v1/forecast"\narchive_url = "{weather}/v1/archive"\n'
            f'geocoding_url = "{weather}/v1/search"\n'
            "[operation]\n"
            f'listen = "127.0.0.1:{self.health_port}"\nlog = "leafhold=debug,info"\n'
            "[matrix]\n"
            f'homeserver = "{homeserver.url}"\nuser = "@{user}:localhost"\ninvited_by = ["*:localhost"]\n'
            f'store_key_file = "{folder}/store-key"\n'
        )

    def enroll(self, password: str, recovery_key: str | None = None) -> str:
        command = [self.binary, "enroll", "--config", str(self.config)]
        if recovery_key:
            (self.folder / "recovery-key").write_text(recovery_key)
            command += ["--recovery-key-file", str(self.folder / "recovery-key")]
        done = subprocess.run(
            command, env={**os.environ, "LEAFHOLD_PASSWORD": password}, capture_output=True, text=True, timeout=120
        )
        if done.returncode != 0:
            raise RuntimeError(f"enroll: {done.stderr}")
        return done.stdout

    def start(self) -> None:
        log = open(self.folder / "bot.log", "a")
        # The heap as `deploy/leafhold.service` sets it.
        heap = {"MALLOC_ARENA_MAX": "1", "MALLOC_TRIM_THRESHOLD_": "65536"}
        command = [self.binary, "serve", "--config", str(self.config)]
        self.process = subprocess.Popen(command, env={**os.environ, **heap}, stdout=log, stderr=log)

    def kill(self) -> None:
        self.process.kill()
        self.process.wait()

    def stop(self) -> int:
        self.process.send_signal(signal.SIGTERM)
        return self.process.wait(timeout=30)

    def memory_kib(self, field: str = "VmRSS") -> int:
        """What the kernel counts for the process: VmRSS now, VmHWM at most so far."""
        for line in Path(f"/proc/{self.process.pid}/status").read_text().splitlines():
            if line.startswith(f"{field}:"):
                return int(line.split()[1])
        return 0

    def metric(self, name: str) -> int:
        url = f"http://127.0.0.1:{self.health_port}/metrics"
        lines = urllib.request.urlopen(url, timeout=5).read().decode().splitlines()
        return next(int(line.split()[1]) for line in lines if line.startswith(f"{name} "))

    async def healthy(self, within: float = 30.0, pause: float = 0.05) -> None:
        url = f"http://127.0.0.1:{self.health_port}/healthz"
        for _ in range(int(within / pause)):
            try:
                if urllib.request.urlopen(url, timeout=1).status == 200:
                    return
            except (urllib.error.URLError, ConnectionError, TimeoutError):
                pass
            await asyncio.sleep(pause)
        raise RuntimeError(f"the bot is not healthy; see {self.folder}/bot.log")
