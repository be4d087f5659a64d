"""The section of each circuit, numbered along the way of air and fuel, by its name."""

from collections.abc import Callable, Mapping

from fuelcircuits.drawings.picture import Picture
from fuelcircuits.drawings.scenes import (
    air_path,
    around,
    bowl_vents,
    choke,
    diagnosis,
    exhaust,
    float_bowl,
    high_speed,
    low_speed,
    off_idle,
    power,
    pump,
    setting_up,
    shop_arithmetic,
)
from fuelcircuits.drawings.section.scene import Scene
from fuelcircuits.physics.network.rig import Rig

__all__ = ["EVERYWHERE", "SECTIONS", "section"]

SECTIONS: Mapping[str, tuple[str, Callable[[Rig], Scene]]] = {
    "shop-arithmetic": ("Pressures and holes", shop_arithmetic.scene),
    "air-path": ("The way of the air", air_path.scene),
    "float-bowl": ("The float circuit", float_bowl.scene),
    "bowl-vents": ("The bowl's vents", bowl_vents.scene),
    "low-speed": ("The low-speed circuit", low_speed.scene),
    "off-idle": ("The idle port", off_idle.scene),
    "high-speed": ("The high-speed circuit", high_speed.scene),
    "power": ("The power circuit", power.scene),
    "pump": ("The accelerator pump", pump.scene),
    "choke": ("The choke", choke.scene),
    "exhaust": ("From the mixture to the analyser", exhaust.scene),
    "setting-up": ("What is set on the carburettor", setting_up.scene),
    "diagnosis": ("The carburettor", diagnosis.scene),
    "around": ("The engine around the carburettor", around.scene),
}
"""Title and drawing of each section, by name."""
EVERYWHERE = ("shop-arithmetic", "exhaust", "around")
"""Those that show no rig."""


def section(name: str, rig: Rig, link: str = "", *, of_atlas: bool = False) -> Picture:
    """Return the section `name` of a rig; raise `KeyError` if there is none of that name.

    Its numbers count along the way of air and fuel, or are those `of_atlas`.
    """
    title, scene = SECTIONS[name]
    of_rig = "" if name in EVERYWHERE else f" of {rig.name}, cut open"
    return scene(rig).picture(f"{title}{of_rig}", link, of_atlas=of_atlas)
