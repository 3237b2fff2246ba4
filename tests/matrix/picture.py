"""The room as people see it, rendered by an independent client at a phone's width, to look at.

    npm install --prefix tests/matrix/page      # and a Chromium, at /usr/bin/chromium or named by CHROMIUM
    picture.py --bot PATH --out FOLDER

A garden of the southern summer or the northern, whichever has leaves now; the main questions and what comes back.
"""

import argparse
import asyncio
import subprocess
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from weather import Weather  # noqa: E402
from world import BOT, World, in_leaf  # noqa: E402

GARDEN = [
    "add tree Celeste, 15 gallon pot", "add tree Big One, 25 gallon pot", "add tree Wall, in the ground",
    "copper: 2 tbsp per gallon, every 10 days, 1 day before harvest, lists figs",
    "leaves are out on everything", "sprayed copper on the pots 12 days ago", "watered the pots 3 days ago",
]
TALK = [
    "picked 9 off Celeste", "rust on the lower leaves of Wall, 5%", "should I spray this week?", "why?",
    "which pots need water?", "will there be frost?", "what is ahead?", "how was the season?", "what was done?",
    "sprayed copper on Bertha", "the quince wants a hat", "help",
]


async def main() -> int:
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--bot", required=True)
    arguments.add_argument("--out", required=True, type=Path)
    chosen = arguments.parse_args()
    chosen.out.mkdir(parents=True, exist_ok=True)
    weather = Weather()
    async with World(chosen.bot, weather=weather.url) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, False)
        for text in ["hello", in_leaf(), *GARDEN]:
            await ana.answer(room, BOT, await ana.say(room, text))
        await world.forecast()
        for text in TALK:
            await ana.answer(room, BOT, await ana.say(room, text))
            await asyncio.sleep(0.3)
        shoot = Path(__file__).parent / "page" / "shoot.mjs"
        done = await asyncio.to_thread(
            subprocess.run, ["node", str(shoot), world.homeserver.url, "ana", "pw", room, str(chosen.out)], timeout=180
        )
    weather.stop()
    return done.returncode


if __name__ == "__main__":
    sys.exit(asyncio.run(main()))
