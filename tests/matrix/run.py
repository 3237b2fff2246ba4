"""The bot on a real homeserver, seen through an independent client.

    run.py --bot PATH [--kills N] [--only NAME]

Prints a line a check and closes with "N passed, N failed".
"""

import argparse
import asyncio
import random
import shutil
import sys
import time
import traceback
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from grower import Grower, key_of, text_of  # noqa: E402
from weather import Weather  # noqa: E402
from world import BOT, World  # noqa: E402

NOTED = "\u2705"


async def conversation(binary: str, encrypted: bool) -> None:
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, encrypted)
        await world.garden(ana, room)
        # A report that needs no words gets a sign.
        report = await ana.say(room, "picked 9 off celeste")
        assert key_of(await ana.answer(room, BOT, report)) == NOTED
        # A question gets an answer, in HTML too.
        question = await ana.say(room, "what was done?")
        answer = await ana.answer(room, BOT, question)
        assert "9 figs" in text_of(answer), text_of(answer)
        assert answer.source["content"]["format"] == "org.matrix.custom.html"
        assert answer.source["content"]["msgtype"] == "m.notice"
        # An edit is read again and supersedes.
        await ana.send(room, {
            "msgtype": "m.text", "body": "* picked 12 off celeste",
            "m.new_content": {"msgtype": "m.text", "body": "picked 12 off celeste"},
            "m.relates_to": {"rel_type": "m.replace", "event_id": report},
        })
        await until_answer(ana, room, "what was done?", lambda text: "12 figs" in text and "9 figs" not in text)
        # A deleted message takes its entries along.
        await ana.client.room_redact(room, report)
        await until_answer(ana, room, "what was done?", lambda text: "12 figs" not in text)
        # A cross on a report takes it back.
        report = await ana.say(room, "picked 7 off wall")
        await ana.answer(room, BOT, report)
        await ana.send(room, {"m.relates_to": {"rel_type": "m.annotation", "event_id": report, "key": "\u274c"}}, "m.reaction")
        await until_answer(ana, room, "what was done?", lambda text: "7 figs" not in text)
        # A location, and a photo with a caption that reports.
        place = await ana.send(room, {"msgtype": "m.location", "body": "here", "geo_uri": "geo:30.69,-88.04"})
        assert "30.69" in text_of(await ana.answer(room, BOT, place))
        photo = await ana.send(room, {
            "msgtype": "m.image", "body": "no rust on celeste", "filename": "a.jpg", "url": "mxc://localhost/abc",
            "info": {"mimetype": "image/jpeg", "size": 1000},
        })
        assert key_of(await ana.answer(room, BOT, photo)) == NOTED
        # A reply and a thread stay where they are.
        root = await ana.say(room, "picked 3 off wall")
        await ana.answer(room, BOT, root)
        threaded = await ana.say(room, "what was done?", **{"m.relates_to": {"rel_type": "m.thread", "event_id": root}})
        end = time.monotonic() + 15
        while time.monotonic() < end:
            inside = [event for event in ana.of_bot(room, BOT)
                      if event.source["content"].get("m.relates_to", {}).get("rel_type") == "m.thread"]
            if inside:
                break
            await asyncio.sleep(0.05)
        relation = inside[0].source["content"]["m.relates_to"]
        assert relation["event_id"] == root and relation["m.in_reply_to"]["event_id"] == threaded, relation
        # Notices are never answered.
        notice = await ana.send(room, {"msgtype": "m.notice", "body": "should I spray?"})
        await asyncio.sleep(1)
        assert not ana.answers_to(room, BOT, notice)


async def until_answer(grower: Grower, room: str, text: str, fits, within: float = 20) -> None:
    end, last = time.monotonic() + within, ""
    while time.monotonic() < end:
        event = await grower.say(room, text)
        last = text_of(await grower.answer(room, BOT, event))
        if fits(last):
            return
        await asyncio.sleep(0.2)
    raise AssertionError(f"the last answer to {text!r} was {last!r}")


async def group_room(binary: str) -> None:
    async with World(binary) as world:
        ana, bo = await world.grower("ana"), await world.grower("bo")
        direct = await world.talk(ana, True)
        await world.garden(ana, direct)
        room = await ana.room([BOT, "@bo:localhost"], True, False, "Plot")
        await ana.until_joined(room, BOT)
        await bo.client.join(room)
        await ana.until_joined(room, "@bo:localhost")
        # Only what names it is for it.
        loose = await ana.say(room, "picked 4 off wall")
        named = await ana.say(room, "leafhold, what was done?")
        answer = text_of(await ana.answer(room, BOT, named))
        assert "4 figs" not in answer, answer
        assert not ana.answers_to(room, BOT, loose)
        # A stranger may not report on her garden, nor settle things in it.
        here = await ana.say(room, "leafhold, post the briefs here")
        await ana.answer(room, BOT, here)
        strange = await bo.say(room, "leafhold, picked 50 off wall")
        answer = text_of(await bo.answer(room, BOT, strange))
        assert "50 figs" not in answer, answer
        helper = await ana.say(room, "leafhold, @bo:localhost may report")
        await ana.answer(room, BOT, helper)
        report = await bo.say(room, "leafhold, picked 5 off wall")
        assert key_of(await bo.answer(room, BOT, report)) == NOTED
        settle = await bo.say(room, "leafhold, first frost is usually nov 1")
        assert "keeper" in text_of(await bo.answer(room, BOT, settle)).lower()


async def while_down(binary: str) -> None:
    count = 150
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, True)
        await world.garden(ana, room)
        assert world.bot.stop() == 0
        sent = [await ana.say(room, f"note: number {index}") for index in range(count)]
        world.bot.start()
        await all_answered(ana, room, sent, 90)


async def all_answered(grower: Grower, room: str, sent: list[str], within: float) -> None:
    end = time.monotonic() + within
    missing = sent
    while time.monotonic() < end:
        missing = [event for event in sent if not grower.answers_to(room, BOT, event)]
        if not missing:
            break
        await asyncio.sleep(0.2)
    assert not missing, f"{len(missing)} of {len(sent)} unanswered"
    await asyncio.sleep(1)
    twice = [event for event in sent if len(grower.answers_to(room, BOT, event)) > 1]
    assert not twice, f"{len(twice)} of {len(sent)} answered twice"


async def kills(binary: str, count: int) -> None:
    """Killed again and again while it receives, commits and sends: nothing is lost, nothing comes twice."""
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, True)
        await world.garden(ana, room)
        chance = random.Random(count)
        sent: list[str] = []
        done = 0
        while done < count:
            burst = chance.randint(1, 3)
            for _ in range(burst):
                kind = chance.random()
                text = f"note: kill {done} {len(sent)}" if kind < 0.7 else "what was done?"
                sent.append(await ana.say(room, text))
            await asyncio.sleep(chance.random() * 0.6)
            world.bot.kill()
            done += 1
            world.bot.start()
            if done % 50 == 0:
                print(f"  {done} kills, {len(sent)} messages", flush=True)
        await world.bot.healthy()
        await all_answered(ana, room, sent, 120)
        print(f"kills: {done} kills, {len(sent)} messages, each answered once", flush=True)


async def server_restart(binary: str) -> None:
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, False)
        await world.garden(ana, room)
        sent = [await ana.say(room, f"note: before {index}") for index in range(5)]
        world.homeserver.stop()
        await asyncio.sleep(1)
        await world.homeserver.start()
        await asyncio.sleep(1)
        for index in range(3):
            sent.append(await ana.say(room, f"note: after {index}"))
        await all_answered(ana, room, sent, 90)


async def rate_limits(binary: str) -> None:
    """With the server's usual limits the answers come slowly, and all of them."""
    async with World(binary, limited=True) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, False)
        sent = []
        for index in range(13):
            sent.append(await ana.say(room, "what was done?"))
        await all_answered(ana, room, sent, 120)


async def recovery(binary: str) -> None:
    async with World(binary) as world:
        key = world.enrolled.split("\n\n")[1].strip()
        ana = await world.grower("ana")
        room = await world.talk(ana, True)
        await world.garden(ana, room)
        world.bot.kill()
        # The machine is gone; the journal was restored, the keys were not.
        shutil.rmtree(world.bot.folder / "data" / "matrix")
        again = world.bot.enroll("pw", key)
        assert "recovered" in again, again
        world.bot.start()
        await world.bot.healthy()
        await ana.client.sync(timeout=0)
        await asyncio.sleep(1)
        report = await ana.say(room, "what was done?")
        await ana.answer(room, BOT, report, 40)
        assert not [event for event in ana.of_bot(room, BOT) if text_of(event).startswith("Hello")][1:], "old talk was answered"


async def late_and_withheld_keys(binary: str) -> None:
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, True)
        await world.garden(ana, room)
        await ana.client.keys_query() if ana.client.should_query_keys else None
        devices = list(ana.client.device_store.active_user_devices(BOT))
        assert devices, "the bot's device is known"
        for device in devices:
            ana.client.blacklist_device(device)
        ana.client.invalidate_outbound_session(room)
        withheld = await ana.say(room, "note: without a key")
        # After a while the sender is told, once for the session.
        said = await until_said(ana, room, "could not read", 45)
        assert said, "the sender was not told"
        for device in devices:
            ana.client.unblacklist_device(device)
        ana.client.invalidate_outbound_session(room)
        fine = await ana.say(room, "note: with a key again")
        answer = await ana.answer(room, BOT, fine)
        assert key_of(answer) == NOTED, (key_of(answer), text_of(answer))
        told = [event for event in ana.of_bot(room, BOT) if "could not read" in text_of(event)]
        assert len(told) == 1, f"told {len(told)} times"
        assert not [event for event in ana.answers_to(room, BOT, withheld) if key_of(event) == NOTED]


async def until_said(grower: Grower, room: str, words: str, within: float) -> bool:
    end = time.monotonic() + within
    while time.monotonic() < end:
        if any(words in text_of(event) for event in grower.of_bot(room, BOT)):
            return True
        await asyncio.sleep(0.2)
    return False


async def strangers(binary: str) -> None:
    async with World(binary) as world:
        config = world.bot.config.read_text().replace('["*:localhost"]', '["@ana:localhost"]')
        world.bot.config.write_text(config)
        world.bot.stop()
        world.bot.start()
        await world.bot.healthy()
        ana, mallory = await world.grower("ana"), await world.grower("mallory")
        flood = [await mallory.room([BOT], False, True) for _ in range(15)]
        room = await world.talk(ana, False)
        event = await ana.say(room, "hello")
        await ana.answer(room, BOT, event)
        await asyncio.sleep(2)
        for place in flood:
            members = await mallory.client.joined_members(place)
            assert BOT not in {member.user_id for member in members.members}, "it joined a stranger's room"


async def hostile(binary: str) -> None:
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, True)
        await world.garden(ana, room)
        name = '<script>alert(1)</script><b>x</b>'
        event = await ana.say(room, f"add tree {name}, 5 gallon pot")
        answer = await ana.answer(room, BOT, event)
        assert "<script" not in answer.source["content"].get("formatted_body", "")
        note = await ana.say(room, "note: @room <img src=x onerror=y> \u202e\u0000 & \"quotes\"")
        await ana.answer(room, BOT, note)
        event = await ana.say(room, "what was done?")
        answer = await ana.answer(room, BOT, event)
        html = answer.source["content"]["formatted_body"]
        assert "<img" not in html and "@room" not in html and "\u202e" not in text_of(answer), html
        # Huge, malformed, empty: none of them stops it.
        await ana.say(room, "rust " * 6000)
        for content in [{}, {"msgtype": 7}, {"msgtype": "m.text"}, {"msgtype": "m.text", "body": ["x"]},
                        {"msgtype": "m.location", "body": "x", "geo_uri": "geo:999,999"}, {"msgtype": "m.unheard", "body": "x"}]:
            await ana.send(room, content)
        await ana.send(room, {"m.relates_to": {"rel_type": "m.annotation", "event_id": note, "key": "\U0001f355"}}, "m.reaction")
        await ana.send(room, {"x": 1}, "garden.unheard.of")
        event = await ana.say(room, "note: still there")
        assert key_of(await ana.answer(room, BOT, event, 30)) == NOTED


async def second_process(binary: str) -> None:
    async with World(binary) as world:
        import subprocess

        second = subprocess.run(
            [binary, "serve", "--config", str(world.bot.config)], capture_output=True, text=True, timeout=30
        )
        assert second.returncode == 5, (second.returncode, second.stderr)
        assert "use" in second.stderr, second.stderr


async def upgrade(binary: str) -> None:
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, False)
        await world.garden(ana, room)
        answer = world.homeserver._call(
            "POST", f"/_matrix/client/v3/rooms/{room}/upgrade", {"new_version": "11"}, ana.client.access_token
        )
        new = answer["replacement_room"]
        await ana.client.room_invite(new, BOT)
        await ana.until_joined(new, BOT)
        event = await ana.say(new, "what was done?")
        await ana.answer(new, BOT, event)


async def forget_me(binary: str) -> None:
    async with World(binary) as world:
        ana = await world.grower("ana")
        room = await world.talk(ana, True)
        await world.garden(ana, room)
        secret = await ana.say(room, "note: my secret spot")
        await ana.answer(room, BOT, secret)
        asked = await ana.say(room, "forget me")
        assert "yes, forget me" in text_of(await ana.answer(room, BOT, asked))
        done = await ana.say(room, "yes, forget me")
        await ana.answer(room, BOT, done)
        world.bot.stop()
        import subprocess

        export = subprocess.run(
            [binary, "export", "--config", str(world.bot.config)], capture_output=True, text=True, timeout=30
        )
        assert export.returncode == 0, export.stderr
        assert "secret spot" not in export.stdout


async def pictures(binary: str) -> None:
    """The days ahead come with a picture, encrypted where the room is."""
    weather = Weather()
    try:
        async with World(binary, weather=weather.url) as world:
            ana = await world.grower("ana")
            room = await world.talk(ana, True)
            await world.garden(ana, room)
            await world.forecast()
            await until_answer(ana, room, "what is ahead?", lambda text: "°" in text)
            shown = []
            end = time.monotonic() + 15
            while not shown and time.monotonic() < end:
                shown = [event for event in ana.of_bot(room, BOT)
                         if event.source["content"].get("msgtype") == "m.image"]
                await asyncio.sleep(0.1)
            content = shown[0].source["content"]
            assert content["info"]["mimetype"] == "image/png" and content["info"]["w"] > 300, content
            assert "file" in content and "url" not in content, "an encrypted room's picture is encrypted"
            assert "days ahead" in content["body"], content
    finally:
        weather.stop()


async def main() -> int:
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--bot", required=True)
    arguments.add_argument("--kills", type=int, default=200)
    arguments.add_argument("--only")
    chosen = arguments.parse_args()
    bot = chosen.bot
    checks = {
        "conversation, plain": lambda: conversation(bot, False),
        "conversation, encrypted": lambda: conversation(bot, True),
        "group room": lambda: group_room(bot),
        "150 messages while down": lambda: while_down(bot),
        "server restart": lambda: server_restart(bot),
        "rate limits": lambda: rate_limits(bot),
        "recovery on a new device": lambda: recovery(bot),
        "late and withheld keys": lambda: late_and_withheld_keys(bot),
        "strangers and floods": lambda: strangers(bot),
        "hostile text and events": lambda: hostile(bot),
        "pictures": lambda: pictures(bot),
        "second process refused": lambda: second_process(bot),
        "room upgrade": lambda: upgrade(bot),
        "forget me": lambda: forget_me(bot),
        f"{chosen.kills} kills": lambda: kills(bot, chosen.kills),
    }
    passed = failed = 0
    for name, check in checks.items():
        if chosen.only and chosen.only not in name:
            continue
        began = time.monotonic()
        try:
            await asyncio.wait_for(check(), 900 + chosen.kills)
            passed += 1
            print(f"ok    {name} ({time.monotonic() - began:.1f} s)", flush=True)
        except Exception:  # every failure is shown and counted
            failed += 1
            print(f"FAIL  {name} ({time.monotonic() - began:.1f} s)", flush=True)
            traceback.print_exc()
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(asyncio.run(main()))
