"""The server around the application: says when it answers, renews its certificate, stops at once though streams are open."""

import asyncio
import logging
import socket
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime

import uvicorn

from laydown.web.request.watchers import Watchers

LOOKED_EVERY_S = 3600.0
"""How often it is looked whether a certificate has to be renewed [s]; assumption, weeks before it ends."""

_LOG = logging.getLogger(__name__)


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Secured:
    """With which certificate the pages are served."""

    certificate: str = ""
    key: str = ""
    renew: Callable[[datetime], bool] | None = None
    clock: Callable[[], datetime] = field(default=_now)
    looked_every_s: float = LOOKED_EVERY_S

    def files(self) -> dict[str, str]:
        """Return certificate and key as the server's configuration takes them."""
        return {"ssl_certfile": self.certificate, "ssl_keyfile": self.key} if self.certificate else {}


WITHOUT_TLS = Secured()
"""Plain HTTP."""


class Server(uvicorn.Server):
    """A server that waits for nobody who only watches."""

    def __init__(
        self,
        config: uvicorn.Config,
        watchers: Watchers,
        ready: Callable[[], None],
        secured: Secured = WITHOUT_TLS,
    ) -> None:
        super().__init__(config)
        self.watchers = watchers
        self.ready = ready
        self.secured = secured
        self._renewing: asyncio.Task[None] | None = None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer."""
        await super().startup(sockets)
        if not self.started:
            return
        if self.secured.renew is not None:
            self._renewing = asyncio.get_running_loop().create_task(self._keep_fresh())
        self.ready()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop; calls that are being answered are finished."""
        self.watchers.close()
        if self._renewing is not None:
            self._renewing.cancel()
        await super().shutdown(sockets)

    async def _keep_fresh(self) -> None:
        """Renew the certificate when it is due; visits that are open go on with the old one."""
        while True:
            await asyncio.sleep(self.secured.looked_every_s)
            try:
                self._renew()
            except OSError:
                _LOG.warning("the certificate could not be renewed; it is tried again", exc_info=True)

    def _renew(self) -> None:
        """Renew the certificate if it is due."""
        renew, context = self.secured.renew, self.config.ssl
        if renew is not None and context is not None and renew(self.secured.clock()):
            context.load_cert_chain(self.secured.certificate, self.secured.key)
