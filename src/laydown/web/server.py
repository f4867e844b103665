"""The server around the application: says when it answers, and stops at once though streams are open."""

import socket
from collections.abc import Callable

import uvicorn

from laydown.web.watchers import Watchers


class Server(uvicorn.Server):
    """A server that waits for nobody who only watches.

    Attributes
    ----------
    watchers
        Streams to be ended before the server stops.
    ready
        Called once it answers.
    """

    def __init__(self, config: uvicorn.Config, watchers: Watchers, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self.watchers = watchers
        self.ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer."""
        await super().startup(sockets)
        if self.started:
            self.ready()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop; calls that are being answered are finished."""
        self.watchers.close()
        await super().shutdown(sockets)
