"""The templates of every page: what goes into one is escaped, and a missing value is an error."""

from jinja2 import Environment, PackageLoader, StrictUndefined

__all__ = ["templates"]


def templates(folder: str = "templates") -> Environment:
    """Return the templates in a folder of this package."""
    return Environment(
        loader=PackageLoader("fuelmarks", folder),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
