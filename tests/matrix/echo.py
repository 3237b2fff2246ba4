"""How long an answer takes, against a bot that only echoes: one homeserver, both bots, turn by turn.

    echo.py --bot PATH --echo PATH [--count N] [--most RATIO]

Prints median and 99th percentile of the time from the grower's send to the answer in her client, and the ratio,
for a plain and an encrypted room. With --most it fails when a median is slower than the echo's by more.
"""

import argparse
import asyncio
import os
import subprocess
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from grower import Grower  # noqa: E402
from weather import Weather  # noqa: E402
from world import BOT, World  # noqa: E402

ECHO = "@echo:localhost"
QUESTIONS = ["should I spray this week?", "will there be frost?"]
# Not counted: the first messages of a room fetch members and exchange keys.
WARM_UP = 10
# Between two questions, so that neither bot is measured while another settles.
PAUSE = 0.15


class Echo:
    def __init__(self, binary: str, world: World):
        world.homeserver.register("echo", "pw")
        folder = world.folder / "echo"
        folder.mkdir()
        self.log = open(folder / "log", "w")
        self.process = subprocess.Popen(
            [binary, world.homeserver.url, "echo", str(folder / "store")],
            env={**os.environ, "LEAFHOLD_PASSWORD": "pw"}, stdout=self.log, stderr=self.log,
        )

    def stop(self) -> None:
        self.process.kill()
        self.process.wait()
        self.log.close()


async def round_trip(grower: Grower, room: str, bot: str, text: str) -> float:
    """Milliseconds from before the send to the answer's arrival."""
    began = time.perf_counter()
    event = await grower.say(room, text)
    answer = await grower.answer(room, bot, event)
    return (grower.seen_at[answer.event_id] - began) * 1000


def percentile(values: list[float], share: float) -> float:
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, round(share * (len(ordered) - 1)))]


async def compare(world: World, grower: Grower, encrypted: bool, count: int) -> float:
    rooms = {bot: await world.talk(grower, encrypted, bot) for bot in (BOT, ECHO)}
    taken: dict[str, list[float]] = {bot: [] for bot in rooms}
    for turn in range(WARM_UP + count):
        # Neither always goes first.
        for bot in (BOT, ECHO) if turn % 2 else (ECHO, BOT):
            text = QUESTIONS[turn // 2 % len(QUESTIONS)]
            milliseconds = await round_trip(grower, rooms[bot], bot, text)
            if turn >= WARM_UP:
                taken[bot].append(milliseconds)
            await asyncio.sleep(PAUSE)
    kind = "encrypted" if encrypted else "plain"
    middle, late = ({bot: percentile(taken[bot], share) for bot in taken} for share in (0.5, 0.99))
    for bot, name in ((BOT, "leafhold"), (ECHO, "echo")):
        print(f"{kind:<9} {name:<8} p50 {middle[bot]:6.1f} ms   p99 {late[bot]:6.1f} ms   n {len(taken[bot])}", flush=True)
    ratio = middle[BOT] / middle[ECHO]
    print(f"{kind:<9} ratio    p50 {ratio:6.2f}      p99 {late[BOT] / late[ECHO]:6.2f}", flush=True)
    return ratio


async def main() -> int:
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--bot", required=True)
    arguments.add_argument("--echo", required=True)
    arguments.add_argument("--count", type=int, default=200)
    arguments.add_argument("--most", type=float)
    chosen = arguments.parse_args()
    weather = Weather()
    async with World(chosen.bot, weather=weather.url) as world:
        echo = Echo(chosen.echo, world)
        try:
            ana = await world.grower("ana")
            await world.garden(ana, await world.talk(ana, False))
            # An answer from weather is the slower one.
            await world.forecast()
            ratios = [await compare(world, ana, encrypted, chosen.count) for encrypted in (False, True)]
        finally:
            echo.stop()
            weather.stop()
    return 1 if chosen.most and max(ratios) > chosen.most else 0


if __name__ == "__main__":
    sys.exit(asyncio.run(main()))
