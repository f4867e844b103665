"""A desk over HTTP without a browser: a book of its own, and forms with their token."""

import asyncio
import html
import re
from concurrent.futures import ThreadPoolExecutor

import httpx

from laydown.store.opening import open_book
from laydown.web.app import make_app
from laydown.web.request.visitor import Settings

ORIGIN = "http://localhost"

NEW = {
    "body": "medium hatch",
    "job.side": "left",
    "work.front_wing": "new",
    "work.front_door": "repaired",
    "job.name": "0417",
    "job.painters": "1",
    "painter.name": "R.",
    "painter.skill": "skilled",
    "gun.nozzle_mm": "1.3",
    "gun.flow_g_s": "3.1",
    "gun.speed_m_s": "0.5",
    "gun.cup_ml": "550",
    "products.ground": "ground-a",
    "products.effect": "effect-a",
    "products.clear": "clear-a",
    "air.temperature_c": "20",
    "air.rh": "30",
    "undercoat": "light grey",
}
"""Answers that make a job."""


class Transport(httpx.BaseTransport):
    """Sends a call into the application, in this thread."""

    def __init__(self, app, address):
        self._inner = httpx.ASGITransport(app, raise_app_exceptions=False, client=(address, 50_000))

    def handle_request(self, request):
        async def answer():
            body = request.stream if hasattr(request.stream, "__aiter__") else _Chunks(request.stream)
            sent = httpx.Request(request.method, request.url, headers=request.headers, stream=body)
            got = await self._inner.handle_async_request(sent)
            return got.status_code, got.headers, [part async for part in got.stream]

        # A browser test of the same process keeps a loop in this thread, so this one gets its own.
        with ThreadPoolExecutor(1) as threads:
            status, headers, parts = threads.submit(asyncio.run, answer()).result()
        return httpx.Response(status, headers=headers, content=b"".join(parts), request=request)


class _Chunks(httpx.AsyncByteStream):
    """A body in the pieces in which it was given."""

    def __init__(self, stream):
        self._stream = stream

    async def __aiter__(self):
        for part in self._stream:
            yield part


class Desk:
    """An application with an empty book and one visitor."""

    def __init__(self, folder, **settings):
        folder.mkdir(parents=True, exist_ok=True)
        self.folder = folder
        self.book = open_book(folder / "shop.book")
        self.app = make_app(self.book, Settings("s" * 64, **settings))

    def __enter__(self):
        self.client = self.visitor()
        return self

    def __exit__(self, *_):
        self.client.close()
        self.book.close()

    def visitor(self, address="127.0.0.1"):
        """Return another browser, not signed in."""
        return httpx.Client(
            transport=Transport(self.app, address), base_url=ORIGIN, headers={"accept": "text/html"}
        )

    def get(self, path, client=None, **more):
        return (client or self.client).get(path, **more)

    def token(self, client=None):
        text = (client or self.client).get("/login").text
        return html.unescape(re.search(r'name="token" value="([^"]+)"', text)[1])

    def post(self, path, fields, client=None):
        data = dict(fields) | {"token": self.token(client)}
        return (client or self.client).post(path, data=data, headers={"origin": ORIGIN})

    def send(self, path, field, file_name, content, **fields):
        data = fields | {"token": self.token()}
        return self.client.post(
            path, data=data, files={field: (file_name, content)}, headers={"origin": ORIGIN}
        )

    def sign_in(self, name, password, client):
        return self.post("/login", {"name": name, "password": password}, client)

    def job_of(self, plan):
        return self.book.plan(plan.rsplit("/", 1)[1]).job_id

    def made_from(self, path, client=None):
        """Return what the forms of a page were made from, as they send it back."""
        text = (client or self.client).get(path).text
        found = {
            name: re.search(rf'name="{name}" value="([^"]*)"', text) for name in ("version", "made_from")
        }
        return {name: html.unescape(one[1]) for name, one in found.items()}

    def fill_in(self, page, fields, path=""):
        """Send a form of a page as it stands now, to the page itself or to another path."""
        return self.post(path or page, self.made_from(page) | fields)

    def fields(self, path):
        """Return the filled-in fields of a page's form."""
        text = self.client.get(path).text
        found = {}
        for tag in re.findall(r"<input[^>]*>", text):
            given = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
            ticked = given.get("type") != "checkbox" or " checked" in tag
            if given.get("name") not in {None, "token"} and ticked:
                found[html.unescape(given["name"])] = html.unescape(given.get("value", ""))
        for name, inside in re.findall(r'<select[^>]*name="([^"]+)"[^>]*>(.*?)</select>', text, re.DOTALL):
            chosen = re.search(r'value="([^"]*)" selected', inside) or re.search(r'value="([^"]*)"', inside)
            found[html.unescape(name)] = html.unescape(chosen[1])
        return found


def plain(text):
    """What stands on a page, in one line."""
    main = text.partition("<main")[2].partition("</main>")[0]
    return " ".join(html.unescape(re.sub(r"<[^>]*>", " ", main)).split())


def put_away(desk):
    assert desk.post(f"/jobs/{desk.job}/away", {}).status_code == 303
