"""An independent client: matrix-nio, with its own encryption."""

import asyncio
import time
from pathlib import Path

from nio import AsyncClient, AsyncClientConfig
from nio.events import (
    MegolmEvent, ReactionEvent, RoomEncryptedImage, RoomMessageImage, RoomMessageNotice, RoomMessageText, UnknownEvent,
)


class Grower:
    def __init__(self, url: str, user: str, folder: Path):
        folder.mkdir(parents=True, exist_ok=True)
        config = AsyncClientConfig(encryption_enabled=True, store_sync_tokens=False)
        self.client = AsyncClient(url, user, store_path=str(folder), config=config)
        self.seen: list[tuple[str, object]] = []
        self.said: list[str] = []
        # When each event was first seen, for those who measure.
        self.seen_at: dict[str, float] = {}
        self._syncing = None

    async def login(self, password: str) -> None:
        answer = await self.client.login(password)
        assert hasattr(answer, "access_token"), answer
        await self.client.sync(timeout=0, full_state=True)
        self.client.add_event_callback(
            self._take,
            (RoomMessageText, RoomMessageNotice, RoomMessageImage, RoomEncryptedImage, ReactionEvent, UnknownEvent,
             MegolmEvent),
        )
        self._syncing = asyncio.create_task(self.client.sync_forever(timeout=10_000))

    async def _take(self, room, event) -> None:
        if event.event_id not in self.seen_at:
            self.seen_at[event.event_id] = time.perf_counter()
            self.seen.append((room.room_id, event))

    async def room(self, invite: list[str], encrypted: bool, direct: bool, name: str | None = None) -> str:
        state = []
        if encrypted:
            state.append({"type": "m.room.encryption", "content": {"algorithm": "m.megolm.v1.aes-sha2"}})
        answer = await self.client.room_create(invite=invite, is_direct=direct, initial_state=state, name=name)
        assert hasattr(answer, "room_id"), answer
        return answer.room_id

    async def until_joined(self, room: str, user: str, within: float = 30) -> None:
        end = time.monotonic() + within
        while time.monotonic() < end:
            members = await self.client.joined_members(room)
            if hasattr(members, "members") and user in {member.user_id for member in members.members}:
                return
            await asyncio.sleep(0.1)
        raise AssertionError(f"{user} did not join {room}")

    async def send(self, room: str, content: dict, kind: str = "m.room.message") -> str:
        for _ in range(50):
            if room in self.client.rooms:
                break
            await asyncio.sleep(0.1)
        answer = await self.client.room_send(room, kind, content, ignore_unverified_devices=True)
        assert hasattr(answer, "event_id"), answer
        return answer.event_id

    async def say(self, room: str, text: str, **more) -> str:
        self.said.append(text)
        return await self.send(room, {"msgtype": "m.text", "body": text, **more})

    def of_bot(self, room: str, bot: str) -> list:
        return [event for place, event in self.seen if place == room and event.sender == bot]

    def answers_to(self, room: str, bot: str, event_id: str) -> list:
        found = []
        for event in self.of_bot(room, bot):
            content = event.source.get("content", {})
            relation = content.get("m.relates_to", {})
            of = relation.get("m.in_reply_to", {}).get("event_id") or relation.get("event_id")
            if of == event_id:
                found.append(event)
        return found

    async def answer(self, room: str, bot: str, event_id: str, within: float = 20) -> object:
        end = time.monotonic() + within
        while time.monotonic() < end:
            found = self.answers_to(room, bot, event_id)
            if found:
                return found[0]
            await asyncio.sleep(0.02)
        raise AssertionError(f"no answer to {event_id} within {within} s")

    async def close(self) -> None:
        if self._syncing:
            self._syncing.cancel()
        await self.client.close()


def text_of(event) -> str:
    return getattr(event, "body", None) or event.source.get("content", {}).get("body", "")


def key_of(event) -> str:
    if isinstance(event, ReactionEvent):
        return event.key
    return event.source.get("content", {}).get("m.relates_to", {}).get("key", "")
