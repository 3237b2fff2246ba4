"""A homeserver, the bot and two growers, until interrupted."""

import argparse
import asyncio
import shutil
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from homeserver import Bot, Homeserver  # noqa: E402


async def main() -> None:
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--bot", required=True)
    arguments.add_argument("--once", action="store_true", help="stop as soon as everything is up")
    chosen = arguments.parse_args()
    folder = Path(tempfile.mkdtemp(prefix="leafhold-try-"))
    homeserver = Homeserver(folder / "hs")
    await homeserver.start()
    bot = None
    try:
        for user in ["leafhold", "ana", "bo"]:
            homeserver.register(user, f"{user}-garden")
        bot = Bot(chosen.bot, folder / "bot", homeserver)
        bot.enroll("leafhold-garden")
        bot.start()
        await bot.healthy()
        print(f"""
The homeserver is {homeserver.url}. Log in there with any Matrix client that lets you choose the homeserver:

    user ana, password ana-garden
    user bo,  password bo-garden

Start a chat with @leafhold:localhost and say hello. Health: http://127.0.0.1:{bot.health_port}/healthz
Ctrl-C stops everything.
""", flush=True)
        while not chosen.once:
            await asyncio.sleep(1)
    finally:
        if bot and bot.process:
            bot.stop()
        homeserver.stop()
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    try:
        asyncio.run(main())
    except KeyboardInterrupt:
        pass
