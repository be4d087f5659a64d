"""A hub's proxy that does nothing: whoever tests the hub alone asks it itself."""

from typing import Any

from jupyterhub.proxy import Proxy


class NoProxy(Proxy):  # type: ignore[misc]
    """Keeps routes, and leads nobody anywhere."""

    should_start = False

    def __init__(self, **how: Any) -> None:
        super().__init__(**how)
        self.kept: dict[str, dict[str, Any]] = {}

    async def add_route(self, routespec: str, target: str, data: dict[str, Any]) -> None:
        self.kept[routespec] = {"routespec": routespec, "target": target, "data": data}

    async def delete_route(self, routespec: str) -> None:
        self.kept.pop(routespec, None)

    async def get_all_routes(self) -> dict[str, dict[str, Any]]:
        return self.kept
