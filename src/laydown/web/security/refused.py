"""What is refused before a page is asked: strange hosts, strange origins, bodies that are too large."""

import ipaddress
import socket
from collections.abc import Callable, Iterable
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from laydown.schema.message import Name
from laydown.words.show import ENGLISH

LARGEST_BODY = 8_500_000
"""Bytes of one call: a drawing of 8 MB and the form around it; assumption."""

POLICY = (
    "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; "
    "form-action 'self'; frame-ancestors 'none'"
)
"""Content security policy: nothing from outside, no script and no style inside a page.

Source: W3C Content Security Policy Level 3."""

HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}
"""Headers of every answer."""


class Guard:
    """Refuses what must not reach a page, and puts the headers on every answer."""

    def __init__(
        self,
        app: ASGIApp,
        names: Iterable[str] = (),
        largest: int = LARGEST_BODY,
        too_large: Callable[[Headers], Response] | None = None,
    ) -> None:
        self._app = app
        self._names = {name.casefold() for name in names} | own_names()
        self._largest = largest
        self._too_large = too_large or _plainly

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one call."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._refusal(scope, headers)
        if refusal is not None:
            await refusal(scope, receive, _with_headers(send))
            return
        await self._app(scope, _counted(receive, self._largest), _with_headers(send))

    def _refusal(self, scope: Scope, headers: Headers) -> Response | None:
        """Return why a call is refused."""
        host = headers.get("host", "")
        if not known_host(host, self._names):
            return PlainTextResponse(ENGLISH.say("unknown-host", host=Name(host[:80])), 400)
        length = headers.get("content-length", "0")
        if not length.isdigit() or int(length) > self._largest:
            return self._too_large(headers)
        if scope["method"] not in {"GET", "HEAD"} and not same_origin(headers, host):
            return PlainTextResponse(ENGLISH.say("other-site"), 403)
        return None


class TooLarge(Exception):  # noqa: N818 - what happened, as the other names here
    """A body turned out larger than its limit while it was read."""


def own_names() -> set[str]:
    """Return the names this machine is called by."""
    name = socket.gethostname().casefold()
    return {"localhost", name, f"{name}.local"}


def known_host(host: str, names: set[str]) -> bool:
    """Tell whether a call was meant for us."""
    try:
        name = urlsplit(f"//{host}").hostname or ""
    except ValueError:
        return False
    try:
        ipaddress.ip_address(name)
    except ValueError:
        return name.casefold() in names
    return True


def same_origin(headers: Headers, host: str) -> bool:
    """Tell whether a change comes from our own page."""
    if headers.get("sec-fetch-site", "same-origin") not in {"same-origin", "none"}:
        return False
    origin = headers.get("origin")
    if origin is None:
        return True
    return urlsplit(origin).netloc.casefold() == host.casefold()


def _counted(receive: Receive, largest: int) -> Receive:
    """Count the bytes of a body as they come, for a chunked body tells no length."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > largest:
            raise TooLarge
        return message

    return counted


def _plainly(_headers: Headers) -> Response:
    """Refuse a body that is too large."""
    return PlainTextResponse(ENGLISH.say("too-large"), 413)


def _with_headers(send: Send) -> Send:
    """Put the headers on an answer."""

    async def sent(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
            headers.setdefault("cache-control", "no-store")
        await send(message)

    return sent
