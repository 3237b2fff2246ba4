"""A homeserver of its own with the bot on it, for one check."""

import asyncio
import json
import re
import shutil
import sys
import tempfile
import time
from datetime import date, datetime, timezone
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from grower import Grower, text_of  # noqa: E402
from homeserver import Bot, Homeserver  # noqa: E402

BOT = "@leafhold:localhost"


def in_leaf(local_hour: int | None = None) -> str:
    """A place whose figs have leaves now, for the weather is that of today; where it is about this hour, if asked."""
    latitude, longitude = (40.69, -74.17) if 4 <= date.today().month <= 9 else (-27.50, 153.00)
    if local_hour is not None:
        away = (local_hour - datetime.now(timezone.utc).hour + 12) % 24 - 12
        longitude = away * 15
    return f"{latitude:.2f}, {longitude:.2f}"


class World:
    """A homeserver, the bot enrolled, and growers to talk to it."""

    def __init__(self, binary: str, limited: bool = False, weather: str = Bot.NO_WEATHER):
        self.folder = Path(tempfile.mkdtemp(prefix="leafhold-matrix-"))
        self.weather = weather
        self.homeserver = Homeserver(self.folder / "hs", limited)
        self.binary = binary
        self.growers: list[Grower] = []
        self.bot = None
        self.enrolled = ""

    async def __aenter__(self):
        await self.homeserver.start()
        self.homeserver.register("leafhold", "pw")
        self.bot = Bot(self.binary, self.folder / "bot", self.homeserver, weather=self.weather)
        self.enrolled = self.bot.enroll("pw")
        self.bot.start()
        await self.bot.healthy()
        return self

    async def __aexit__(self, failed, *_):
        if self.bot.process and self.bot.process.poll() is None:
            self.bot.kill()
        for grower in self.growers:
            await grower.close()
        self.homeserver.stop()
        try:
            if not failed:
                self.log_keeps_quiet()
        finally:
            shutil.rmtree(self.folder, ignore_errors=True)

    def log_keeps_quiet(self) -> None:
        """No word anyone said, and no secret, stands in the log."""
        log = (self.bot.folder / "bot.log").read_text(errors="replace")
        session = json.loads((self.bot.folder / "data" / "matrix" / "session.json").read_text())
        # Shorter ones could stand there for another reason.
        words = {text for grower in self.growers for text in grower.said if len(text) >= 12}
        words |= {text for grower in self.growers for _, event in grower.seen
                  for text in text_of(event).splitlines() if len(text) >= 12}
        secrets = {session["access_token"], (self.bot.folder / "store-key").read_text().strip()}
        assert "started" in log, "the log is there to be searched"
        for name, kept in (("a message", words), ("a secret", secrets | set(self.enrolled.split("\n\n")[1:2]))):
            assert not [text for text in kept if text.strip() in log], f"{name} stands in the log"

    async def grower(self, name: str) -> Grower:
        user = self.homeserver.register(name, "pw")
        grower = Grower(self.homeserver.url, user, self.folder / name)
        await grower.login("pw")
        self.growers.append(grower)
        return grower

    async def talk(self, grower: Grower, encrypted: bool, bot: str = BOT) -> str:
        room = await grower.room([bot], encrypted, True)
        await grower.until_joined(room, bot)
        return room

    async def garden(self, grower: Grower, room: str, place: str | None = None) -> str:
        """A place, two trees and a spray, told by chat. Returns the garden's time zone."""
        answer = await grower.answer(room, BOT, await grower.say(room, place or in_leaf()))
        for text in ["add tree Celeste, 15 gallon pot", "add tree Wall, in the ground",
                     "copper: 2 tbsp per gallon, every 10 days, 1 day before harvest, lists figs"]:
            event = await grower.say(room, text)
            await grower.answer(room, BOT, event)
        return re.search(r"time zone ([\w/+-]+)", text_of(answer))[1]

    async def forecast(self, within: float = 90) -> None:
        """Until the first forecast is there: new places are fetched one after the other, within a minute."""
        end = time.monotonic() + within
        while self.bot.metric("leafhold_oldest_forecast_age_seconds") == 0:
            assert time.monotonic() < end, "no forecast came"
            await asyncio.sleep(0.5)
