"""A stand-in for Telegram's Bot API: HTTP on a free local port, strict, and told what to do.

``with running_standin() as api:`` runs it in a thread of its own, so that it serves tests with
and without an event loop; every method may be called from any thread. In an async test call the
waiting ones through ``asyncio.to_thread``. With a frozen clock freeze with ``real_asyncio=True``.

As the real server does, it keeps an update until a fetch asks for a higher number, ends the older
of two fetches with 409, and answers 401 to a token it does not know. Several workers may be told
apart by a word of their own in the address: ``api.url + "/first"``.
"""

import asyncio
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial

from aiohttp import web

from deploy.standins.bot_api_faults import Drop, Fault
from deploy.standins.bot_api_limits import Form, Refused
from deploy.standins.bot_api_messages import BOT, Sent
from deploy.standins.bot_api_queue import Json, Pushed
from deploy.standins.bot_api_state import TOKEN, BotApiStandin, Call, Moment
from deploy.standins.local_http import serving

__all__ = [
    "BOT",
    "TOKEN",
    "BotApiStandin",
    "Call",
    "Drop",
    "Fault",
    "Moment",
    "Pushed",
    "Sent",
    "running_standin",
]


def _refusal(status: int, description: str, parameters: Json | None = None) -> web.Response:
    body: Json = {"ok": False, "error_code": status, "description": description}
    if parameters:
        body["parameters"] = parameters
    return web.json_response(body, status=status)


def _faulty(fault: Fault) -> web.Response:
    if fault.body is not None:
        return web.Response(text=fault.body, status=fault.status)
    known = {"retry_after": fault.retry_after, "migrate_to_chat_id": fault.moved_to}
    parameters = {name: value for name, value in known.items() if value is not None}
    return _refusal(fault.status, fault.description, parameters)


def _cut(request: web.Request) -> web.Response:
    if request.transport is not None:
        request.transport.abort()
    return web.Response()


async def _carry_out(api: BotApiStandin, method: str, form: Form) -> web.Response:
    try:
        result = await api.fetch(form) if method == "getUpdates" else api.perform(method, form)
    except Refused as refused:
        words = str(refused)
        return _refusal(409 if words.startswith("Conflict") else 400, words)
    except KeyError:
        return _refusal(404, "Not Found")
    return web.json_response({"ok": True, "result": result})


def _written(value: object) -> str:
    """A field as text; of a file its name, and what is in it from the second line on."""
    if isinstance(value, web.FileField):
        return f"{value.filename}\n{value.file.read().decode()}"
    return str(value)


async def _answer(api: BotApiStandin, request: web.Request) -> web.Response:
    method = request.match_info["method"]
    form = {name: _written(value) for name, value in (await request.post()).items()}
    api.note_call(method)
    if request.match_info["token"] != api.token:
        return _refusal(401, "Unauthorized")
    fault = api.next_fault(method)
    call = Call(method, form, request.match_info.get("caller", ""), fault)
    api.watch(call, Moment.ARRIVED)
    if fault.drop is Drop.BEFORE_EFFECT:
        return _cut(request)
    if fault.status != 200 or fault.body is not None:
        return _faulty(fault)
    response = await _carry_out(api, method, form)
    if response.status == 200:
        api.watch(call, Moment.TAKEN)
    if fault.drop is Drop.AFTER_EFFECT:
        return _cut(request)
    await asyncio.sleep(fault.delay)
    return response


@contextmanager
def running_standin(
    port: int = 0, token: str = TOKEN, again: BotApiStandin | None = None
) -> Iterator[BotApiStandin]:
    """Run a stand-in in a thread of its own.

    Args:
        port: where to listen; 0 takes a free port.
        token: the one token it knows.
        again: a stand-in that was stopped, to come back at its port with all it knew.

    Raises:
        RuntimeError: it did not start (the port is taken).
    """
    api, app = again or BotApiStandin(token=token, port=port), web.Application()
    api.closing = False
    app.router.add_post("/bot{token}/{method}", partial(_answer, api))
    app.router.add_post("/{caller}/bot{token}/{method}", partial(_answer, api))
    with serving(app, api.port, api.close) as url:
        api.port = int(url.rpartition(":")[2])
        yield api
