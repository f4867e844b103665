"""The server of the pages: one process, with TLS or without; it renews its certificate and waits for no watcher."""

import asyncio
import logging
import socket
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime

import uvicorn
from starlette.applications import Starlette

from laydown.web.watchers import Watchers

LOOKED_EVERY_S = 3600.0
"""How often it is looked whether a certificate has to be renewed [s]; assumption, weeks before it ends."""

_LOG = logging.getLogger(__name__)


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Secured:
    """With which certificate the pages are served.

    Attributes
    ----------
    certificate, key
        PEM files; empty: without TLS. A file that holds both stands in both.
    renew
        Makes the certificate anew if it is due at a time, and tells whether it did; None: somebody else does.
    clock
        The time, with its zone.
    looked_every_s
        How often it is looked [s].
    """

    certificate: str = ""
    key: str = ""
    renew: Callable[[datetime], bool] | None = None
    clock: Callable[[], datetime] = field(default=_now)
    looked_every_s: float = LOOKED_EVERY_S


class Server(uvicorn.Server):
    """Says when it answers, keeps its certificate fresh, and stops at once though streams are open."""

    def __init__(self, app: Starlette, secured: Secured, ready: Callable[[], None]) -> None:
        super().__init__(
            uvicorn.Config(
                app,
                log_level="warning",
                access_log=False,
                server_header=False,
                # Nobody stands between browser and program, so nobody may say who the caller is.
                proxy_headers=False,
                timeout_graceful_shutdown=3,
                ssl_certfile=secured.certificate or None,
                ssl_keyfile=secured.key or None,
            )
        )
        self._watchers: Watchers = app.state.watchers
        self._secured = secured
        self._ready = ready
        self._renewing: asyncio.Task[None] | None = None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer."""
        await super().startup(sockets)
        if not self.started:
            return
        if self._secured.renew is not None:
            self._renewing = asyncio.get_running_loop().create_task(self._keep_fresh())
        self._ready()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop; calls that are being answered are finished, streams are ended."""
        self._watchers.close()
        if self._renewing is not None:
            self._renewing.cancel()
        await super().shutdown(sockets)

    async def _keep_fresh(self) -> None:
        """Renew the certificate when it is due; visits that are open go on with the old one."""
        while True:
            await asyncio.sleep(self._secured.looked_every_s)
            try:
                self._renew()
            except OSError:
                _LOG.warning("the certificate could not be renewed; it is tried again", exc_info=True)

    def _renew(self) -> None:
        """Renew the certificate if it is due."""
        renew, context = self._secured.renew, self.config.ssl
        if renew is not None and context is not None and renew(self._secured.clock()):
            context.load_cert_chain(self._secured.certificate, self._secured.key)
