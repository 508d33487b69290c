"""A server whose messages leave at once, so that a picture comes before the hand has gone on.

A browser acknowledges what it receives up to 40 ms later. Until then TCP keeps the next small message back, which is
the picture, unless it is told not to (TCP_NODELAY; RFC 9293, section 3.7.4).
"""

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


class Connection(ZMQChannelsWebsocketConnection):
    """What a server passes messages between a kernel and a screen with."""

    def connect(self):
        """Begin to pass messages."""
        if self.websocket_handler.ws_connection:  # none where the page has gone meanwhile
            self.websocket_handler.set_nodelay(True)
        return super().connect()


def _jupyter_server_extension_points():
    return [{"module": __name__}]


def _load_jupyter_server_extension(app):
    settings = app.web_app.settings
    if settings.get("kernel_websocket_connection_class") is ZMQChannelsWebsocketConnection:
        settings["kernel_websocket_connection_class"] = Connection
