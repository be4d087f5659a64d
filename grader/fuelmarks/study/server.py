"""The learner's home as a page of Jupyter's server: ``/course``, made anew when it is opened."""

from pathlib import Path
from typing import Any

from jupyter_server.base.handlers import JupyterHandler
from jupyter_server.utils import url_path_join
from tornado.web import authenticated

from fuelmarks.study.home import home_page

__all__ = ["ADDRESS"]

ADDRESS = "/course"


class _Home(JupyterHandler):
    """The page."""

    @authenticated
    def get(self) -> None:
        """Answer with the page as the learner stands now."""
        self.finish(home_page(Path(self.settings["server_root_dir"]), self.base_url))


def _jupyter_server_extension_points() -> list[dict[str, str]]:
    """Return what Jupyter's server loads."""
    return [{"module": __name__}]


def _load_jupyter_server_extension(server: Any) -> None:
    """Add the page to a server that starts."""
    application = server.web_app
    application.settings["server_root_dir"] = server.root_dir
    address = url_path_join(application.settings["base_url"], ADDRESS)
    application.add_handlers(".*$", [(address, _Home)])
