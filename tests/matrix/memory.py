"""How much memory a day's talk needs, and how long the bot takes to start.

    memory.py --bot PATH [--messages N] [--starts N] [--most MIB]

Three growers talk to it in a plain and an encrypted room: reports, questions, photos, edits, reactions,
a brief. Prints the resident memory, now and at most, and what it is made of. With --most it fails above that.
"""

import argparse
import asyncio
import statistics
import sys
import time
from datetime import datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

sys.path.insert(0, str(Path(__file__).parent))
from grower import Grower  # noqa: E402
from weather import Weather  # noqa: E402
from world import BOT, World, in_leaf  # noqa: E402

SAID = [
    "leafhold, picked 4 off Celeste", "leafhold, should I spray this week?", "leafhold, watered the pots 2 gallons each",
    "leafhold, rust on the lower leaves of Wall, 5%", "leafhold, will there be frost?", "leafhold, which pots need water?",
    "leafhold, what was done?", "leafhold, no rust on Celeste", "leafhold, why?",
    "leafhold, gauge 0.4 inches", "leafhold, what is ahead?", "leafhold, help", "leafhold, sprayed copper on Celeste",
]


async def photo(grower: Grower, room: str) -> str:
    return await grower.send(room, {
        "msgtype": "m.image", "body": "leafhold, no rust on Celeste", "filename": "leaf.jpg", "url": "mxc://localhost/abc",
        "info": {"mimetype": "image/jpeg", "size": 2_000_000},
    })


async def edit(grower: Grower, room: str, event: str) -> None:
    text = "leafhold, picked 6 off Celeste"
    await grower.send(room, {
        "msgtype": "m.text", "body": f"* {text}", "m.new_content": {"msgtype": "m.text", "body": text},
        "m.relates_to": {"rel_type": "m.replace", "event_id": event},
    })


async def react(grower: Grower, room: str, event: str) -> None:
    relation = {"rel_type": "m.annotation", "event_id": event, "key": "\U0001f44d"}
    await grower.send(room, {"m.relates_to": relation}, "m.reaction")


async def day(world: World, growers: list[Grower], messages: int) -> None:
    keeper, *helpers = growers
    # Before its first morning, which is soon set, so that a brief falls within the test.
    zone = await world.garden(keeper, await world.talk(keeper, True), in_leaf(local_hour=2))
    morning = datetime.now(ZoneInfo(zone)) + timedelta(minutes=2)
    rooms = []
    for encrypted in (False, True):
        others = [helper.client.user_id for helper in helpers]
        room = await keeper.room([BOT, *others], encrypted, False, "Plot")
        await keeper.until_joined(room, BOT)
        for helper in helpers:
            await helper.client.join(room)
            await keeper.until_joined(room, helper.client.user_id)
        rooms.append(room)
    for text in ["leafhold, post the briefs here", f"leafhold, brief at {morning:%H:%M}",
                 *(f"leafhold, {helper.client.user_id} may report" for helper in helpers)]:
        await keeper.answer(rooms[0], BOT, await keeper.say(rooms[0], text))
    await world.forecast()
    # Before the questions: what was answered is not said again unasked.
    end = time.monotonic() + 150
    while not briefs(keeper, rooms[0]):
        assert time.monotonic() < end, "no brief came"
        await asyncio.sleep(0.5)
    for turn in range(messages):
        grower, room = growers[turn % len(growers)], rooms[turn // len(growers) % len(rooms)]
        if turn % 10 == 9:
            event = await photo(grower, room)
        else:
            event = await grower.say(room, SAID[turn % len(SAID)])
        await grower.answer(room, BOT, event)
        if turn % 12 == 0:
            await edit(grower, room, event)
        if turn % 7 == 0:
            await react(grower, room, event)
    print(f"{messages} messages, {len(briefs(keeper, rooms[0]))} unasked", flush=True)


def briefs(grower: Grower, room: str) -> list:
    """What was said without being asked: a message, where an answer is a notice or replies to one."""
    said = [event.source["content"] for event in grower.of_bot(room, BOT)]
    return [content for content in said if content.get("msgtype") == "m.text" and "m.relates_to" not in content]


def say_memory(world: World, when: str) -> float:
    now, most = (world.bot.memory_kib(field) / 1024 for field in ("VmRSS", "VmHWM"))
    anonymous, mapped = (world.bot.memory_kib(field) / 1024 for field in ("RssAnon", "RssFile"))
    threads = world.bot.memory_kib("Threads")
    print(
        f"memory {when}: {now:.1f} MiB resident ({anonymous:.1f} its own, {mapped:.1f} of files), "
        f"{most:.1f} at most, {threads} threads", flush=True,
    )
    return now


async def starts(world: World, count: int) -> None:
    taken = []
    for _ in range(count):
        world.bot.stop()
        began = time.perf_counter()
        world.bot.start()
        await world.bot.healthy(pause=0.002)
        taken.append(time.perf_counter() - began)
    print(
        f"start to ready, {count} times: median {statistics.median(taken) * 1000:.0f} ms, "
        f"slowest {max(taken) * 1000:.0f} ms", flush=True,
    )


async def main() -> int:
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--bot", required=True)
    arguments.add_argument("--messages", type=int, default=400)
    arguments.add_argument("--starts", type=int, default=10)
    arguments.add_argument("--most", type=float)
    chosen = arguments.parse_args()
    weather = Weather()
    async with World(chosen.bot, weather=weather.url) as world:
        say_memory(world, "without a garden")
        growers = [await world.grower(name) for name in ("ana", "bo", "cleo")]
        await day(world, growers, chosen.messages)
        after = say_memory(world, f"after {chosen.messages} messages")
        await starts(world, chosen.starts)
        await asyncio.sleep(2)
        say_memory(world, "after a start with that journal")
    weather.stop()
    return 1 if chosen.most and after > chosen.most else 0


if __name__ == "__main__":
    sys.exit(asyncio.run(main()))
