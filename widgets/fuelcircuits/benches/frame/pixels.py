"""Pictures in pixels, for handouts: they need two libraries that a notebook does without.

resvg draws the pixels and Pillow strings pictures together. Both come with the extra
``pictures``, and are loaded when a picture is asked for.
"""

import io
from collections.abc import Iterable
from pathlib import Path

from fuelcircuits.errors import CircuitError

__all__ = ["PictureError", "film", "png"]


class PictureError(CircuitError, ImportError):
    """A library that draws pictures is not installed."""


def png(svg: str, zoom: float = 2.0) -> bytes:
    """Return `svg` as PNG on white, `zoom` pixels to a unit, in matplotlib's font."""
    from matplotlib import get_data_path  # noqa: PLC0415 - benches run without it

    try:
        from resvg_py import svg_to_bytes  # noqa: PLC0415 - an extra
    except ImportError as error:
        raise _missing("resvg-py") from error
    fonts = Path(get_data_path()) / "fonts" / "ttf"
    drawn = svg_to_bytes(
        svg_string=svg,
        background="#ffffff",
        zoom=zoom,
        skip_system_fonts=True,
        font_files=[str(fonts / f"DejaVuSans{weight}.ttf") for weight in ("", "-Bold")],
        font_family="DejaVu Sans",
        sans_serif_family="DejaVu Sans",
    )
    return bytes(drawn)


def film(pictures: Iterable[bytes], path: Path, seconds: float) -> Path:
    """Write PNG `pictures` as one moving picture that lasts `seconds`; return where it went."""
    try:
        from PIL import Image  # noqa: PLC0415 - an extra
    except ImportError as error:
        raise _missing("Pillow") from error
    first, *others = [Image.open(io.BytesIO(picture)).convert("RGB") for picture in pictures]
    each = round(1000 * seconds / (1 + len(others)))
    first.save(path, save_all=True, append_images=others, duration=each, loop=0)
    return path


def _missing(library: str) -> PictureError:
    return PictureError(
        f"pictures must be drawn with {library}, which is not installed: "
        'pip install "fuelcircuits[pictures]"'
    )
