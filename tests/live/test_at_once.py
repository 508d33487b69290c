"""A picture is sent at once, not when a browser has acknowledged what came before it."""

import asyncio
import socket
from concurrent.futures import ThreadPoolExecutor
from types import SimpleNamespace

from jupyter_server.services.kernels.connection.base import BaseKernelWebsocketConnection
from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from tornado.httpserver import HTTPServer
from tornado.testing import bind_unused_port
from tornado.web import Application
from tornado.websocket import WebSocketHandler, websocket_connect
from walkaround.live import at_once


def taken_by(connection):
    """What a server passes messages with, once it has loaded the extension."""
    (point,) = at_once._jupyter_server_extension_points()
    assert point == {"module": "walkaround.live.at_once"}
    app = SimpleNamespace(web_app=SimpleNamespace(settings={"kernel_websocket_connection_class": connection}))
    at_once._load_jupyter_server_extension(app)
    return app.web_app.settings["kernel_websocket_connection_class"]


def test_a_server_takes_it_in_place_of_its_own_and_of_no_other():
    assert taken_by(ZMQChannelsWebsocketConnection) is at_once.Connection
    assert taken_by(BaseKernelWebsocketConnection) is BaseKernelWebsocketConnection


def test_the_socket_of_a_page_keeps_nothing_back(monkeypatch):
    async def connected(self):
        reached.append(self)

    def keeps_back(handler):
        return not handler.ws_connection.stream.socket.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY)

    class Handler(WebSocketHandler):
        async def open(self):
            before = keeps_back(self)
            monkeypatch.setattr(at_once.Connection, "websocket_handler", self)  # it takes a server's own alone
            await at_once.Connection().connect()
            found.append((before, keeps_back(self)))
            self.close()

    async def visit():
        listening, port = bind_unused_port()
        server = HTTPServer(Application([("/", Handler)]))
        server.add_socket(listening)
        page = await websocket_connect(f"ws://127.0.0.1:{port}/")
        await page.read_message()
        server.stop()

    reached, found = [], []
    monkeypatch.setattr(ZMQChannelsWebsocketConnection, "connect", connected)
    with ThreadPoolExecutor(1) as apart:  # where no browser test has its loop
        apart.submit(asyncio.run, visit()).result()
    assert len(reached) == 1
    assert found == [(True, False)]


def test_a_page_that_has_gone_meanwhile_costs_no_error(monkeypatch):
    monkeypatch.setattr(ZMQChannelsWebsocketConnection, "connect", lambda self: "connected")
    monkeypatch.setattr(at_once.Connection, "websocket_handler", SimpleNamespace(ws_connection=None))
    assert at_once.Connection().connect() == "connected"
