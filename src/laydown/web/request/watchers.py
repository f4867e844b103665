"""Screens that watch a session: they are told the number of its last tap when it grows, and that somebody is still there.

Nobody waits in a thread. A tap kept by this process stirs its watchers at once; for what other processes keep, the book
is asked once a second, one question for all sessions that are watched.
"""

import asyncio
from collections.abc import Callable, Mapping, Sequence

from starlette.concurrency import run_in_threadpool
from starlette.responses import PlainTextResponse, StreamingResponse
from starlette.types import Receive, Scope, Send

from laydown.store.faults import BookError
from laydown.words.show import ENGLISH

MOST_STREAMS = 200
"""Screens that may watch at once; assumption, two for each of a hundred tablets. Others go on polling."""

LOOK_S = 1.0
"""How often the book is asked [s]; a choice."""

STILL_S = 5.0
"""How often a watcher hears something though nothing happens [s]; a choice: the page takes silence for a broken line."""

LONGEST_S = 600.0
"""How long one stream lasts [s]; assumption. The page opens the next one, and its visitor is looked at anew."""


class Watcher:
    """One screen that watches one session; lives in the server's loop."""

    def __init__(self, session_id: str, number: int) -> None:
        self.session_id = session_id
        self.number = number
        self.ended = False
        self._stirred = asyncio.Event()

    def tell(self, number: int) -> None:
        """Tell the number of the last tap."""
        if number > self.number:
            self.number = number
            self._stirred.set()

    def end(self) -> None:
        """Let the stream end."""
        self.ended = True
        self._stirred.set()

    async def wait(self, longest_s: float) -> None:
        """Wait until there is something to say, or for some seconds."""
        try:
            await asyncio.wait_for(self._stirred.wait(), longest_s)
        except TimeoutError:
            return
        self._stirred.clear()


class Watchers:
    """All screens that watch."""

    def __init__(
        self, last_numbers: Callable[[Sequence[str]], Mapping[str, int]], most: int = MOST_STREAMS
    ) -> None:
        self.most = most
        self._last_numbers = last_numbers
        self._open: set[Watcher] = set()
        self._closed = False
        self._loop: asyncio.AbstractEventLoop | None = None
        self._looking: asyncio.Task[None] | None = None

    def join(self, session_id: str, number: int) -> Watcher | None:
        """Begin to watch from the last tap that is known; None if there are too many already. In the loop only."""
        if self._closed or len(self._open) >= self.most:
            return None
        watcher = Watcher(session_id, number)
        self._open.add(watcher)
        self._loop = asyncio.get_running_loop()
        if self._looking is None or self._looking.done():
            self._looking = self._loop.create_task(self._look_on())
        return watcher

    def leave(self, watcher: Watcher) -> None:
        """Watch no longer."""
        self._open.discard(watcher)

    def told(self, session_id: str, number: int) -> None:
        """Tell that a tap was kept; from any thread."""
        loop = self._loop
        if loop is not None and not loop.is_closed():
            loop.call_soon_threadsafe(self._tell, {session_id: number})

    def close(self) -> None:
        """Let all streams end, for the server is to stop; in the loop only."""
        self._closed = True
        self._end_all()

    def _tell(self, numbers: Mapping[str, int]) -> None:
        for watcher in self._open:
            watcher.tell(numbers.get(watcher.session_id, 0))

    def _end_all(self) -> None:
        for watcher in self._open:
            watcher.end()

    async def _look_on(self) -> None:
        """Ask the book once a second while anybody watches."""
        while self._open:
            await asyncio.sleep(LOOK_S)
            sessions = sorted({watcher.session_id for watcher in self._open})
            try:
                self._tell(await run_in_threadpool(self._last_numbers, sessions))
            except BookError:
                self._end_all()  # the pages ask for themselves then, and are told what is wrong


class Stream(StreamingResponse):
    """Server-sent events: the number of the last tap, at once, whenever it grows, and every few seconds."""

    def __init__(self, watchers: Watchers, session_id: str, number: int) -> None:
        super().__init__((), media_type="text/event-stream")
        self._watchers, self._session_id, self._number = watchers, session_id, number

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Tell until the screen goes, the server stops or the time is up."""
        watcher = self._watchers.join(self._session_id, self._number)
        if watcher is None:
            await PlainTextResponse(ENGLISH.say("too-many-screens"), 503)(scope, receive, send)
            return
        leaving = asyncio.create_task(_end_with(receive, watcher))
        try:
            await send({"type": "http.response.start", "status": 200, "headers": self.raw_headers})
            await _tell_on(watcher, send)
        finally:
            leaving.cancel()
            self._watchers.leave(watcher)


async def _tell_on(watcher: Watcher, send: Send) -> None:
    """Tell what a watcher hears."""
    loop = asyncio.get_running_loop()
    until_s = loop.time() + LONGEST_S
    while not watcher.ended and loop.time() < until_s:
        words = f"data: {watcher.number}\n\n".encode()
        await send({"type": "http.response.body", "body": words, "more_body": True})
        await watcher.wait(STILL_S)
    await send({"type": "http.response.body", "body": b"", "more_body": False})


async def _end_with(receive: Receive, watcher: Watcher) -> None:
    """End a watcher when its screen goes away."""
    while (await receive())["type"] != "http.disconnect":
        pass
    watcher.end()
